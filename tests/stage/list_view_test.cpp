// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// Rows of a list: the chosen one and the one under the pointer are told apart.
#include "stage/list_view.hpp"

#include <gtest/gtest.h>

#include <cctype>
#include <cstdio>

#include "picture/svg_canvas.hpp"
#include "playing.hpp"

namespace beforehand::stage {
namespace {

/// Two rows of which the first is chosen, with the pointer here.
std::string drawn(Point pointer, const picture::Theme& theme) {
  picture::SvgCanvas canvas(300, 200, "t");
  const auto strings = english();
  Hits hits;
  Pen pen{canvas, theme, strings, hits, pointer};
  Scroll scroll;
  list_view(pen, {0, 0, 300, 200}, scroll, {{40, 40}, 0, false, 0}, [](const Box&, std::size_t) {});
  return canvas.str();
}

std::size_t times(const std::string& text, const std::string& part) {
  std::size_t found = 0;
  for (auto at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) ++found;
  return found;
}

TEST(ListView, TheRowUnderThePointerDoesNotLookChosen) {
  picture::Theme plain, contrast;
  contrast.palette = picture::high_contrast();
  for (const auto& theme : {plain, contrast}) {
    const Point nowhere{-10, -10}, second{100, 70};
    const auto& chosen = theme.palette.accent_soft;
    char colour[8];
    std::snprintf(colour, sizeof colour, "#%02X%02X%02X", chosen.red, chosen.green, chosen.blue);
    std::string lower = colour;
    for (char& c : lower) c = static_cast<char>(std::tolower(c));
    const auto away = drawn(nowhere, theme), over = drawn(second, theme);
    EXPECT_NE(away, over) << "it can be seen where the pointer is";
    EXPECT_EQ(times(away, colour) + times(away, lower), 1u);
    EXPECT_EQ(times(over, colour) + times(over, lower), 1u);
  }
}

}  // namespace
}  // namespace beforehand::stage
