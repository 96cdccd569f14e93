// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/flow.hpp"

#include <algorithm>

namespace beforehand::stage {
namespace {

constexpr double item_indent = 30;  // as much as a number of two digits takes

}  // namespace

void Flow::heading(std::string_view text) { y = stage::heading(pen_, {x_, y}, width_, text); }

void Flow::text(std::string_view text, Colour colour, Weight weight, TextSize size) {
  y = paragraph(pen_, {x_, y}, width_, text, size, colour, weight);
}

void Flow::item(std::string_view sign, std::string_view text, Colour colour, Weight weight) {
  auto style = pen_.style(TextSize::body, colour, Weight::bold);
  const double sign_width = pen_.canvas.measure(sign, style.size, style.weight).width;
  const double indent = std::max(pen_.px(item_indent), sign_width + pen_.px(8));
  style.level = picture::Level::top;
  pen_.canvas.text({x_ + pen_.px(2), y}, sign, style);
  y = paragraph(pen_, {x_ + indent, y}, width_ - indent, text, TextSize::body, colour, weight) +
      pen_.px(3);
}

void Flow::under(std::string_view text, Colour colour) {
  const double indent = pen_.px(item_indent);
  y = paragraph(pen_, {x_ + indent, y}, width_ - indent, text, TextSize::label, colour) +
      pen_.px(3);
}

}  // namespace beforehand::stage
