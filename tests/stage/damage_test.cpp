// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/damage.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "stage/draw_surface.hpp"

namespace beforehand::stage {
namespace {

using picture::Colour;

class DamageOfFrames : public testing::Test {
 protected:
  std::vector<PixelBox> frame(double x, int width = 640) {
    auto& canvas = surface_.begin(width, 480);
    canvas.rectangle({0, 0, 640, 480}, {Colour::hex(0xFFFFFF), {}});
    canvas.text({300, 300}, "still", {16, Colour::hex(0)});
    canvas.circle({x, 100}, 10, {Colour::hex(0x336699), {}});
    return damage_.since_last(surface_.end());
  }

  picture::Theme theme_;
  DrawSurface surface_{find_fonts(), theme_};
  Damage damage_;
};

bool inside(const std::vector<PixelBox>& boxes, int x, int y) {
  return std::any_of(boxes.begin(), boxes.end(), [&](const PixelBox& b) {
    return x >= b.left && x < b.right && y >= b.top && y < b.bottom;
  });
}

TEST_F(DamageOfFrames, TheFirstIsTheWholeWindowAndTheSameAgainIsNothing) {
  EXPECT_EQ(frame(50), (std::vector<PixelBox>{{0, 0, 640, 480}}));
  EXPECT_TRUE(frame(50).empty());
  damage_.forget();
  EXPECT_EQ(frame(50), (std::vector<PixelBox>{{0, 0, 640, 480}}));
  EXPECT_EQ(frame(50, 700), (std::vector<PixelBox>{{0, 0, 700, 480}}));
}

TEST_F(DamageOfFrames, WhatMovesIsMarkedWhereItWasAndWhereItIs) {
  frame(50);
  const auto boxes = frame(500);
  EXPECT_TRUE(inside(boxes, 50, 100));
  EXPECT_TRUE(inside(boxes, 500, 100));
  EXPECT_FALSE(inside(boxes, 310, 295));  // the text
  EXPECT_LE(boxes.size(), Damage::most_boxes);
  std::int64_t area = 0;
  for (const auto& box : boxes) area += box.area();
  EXPECT_LT(area, 640 * 480 / 10);
}

TEST_F(DamageOfFrames, ManyChangesStayFewBoxesThatDoNotOverlap) {
  const auto dots = [&](double shift) {
    auto& canvas = surface_.begin(640, 480);
    for (int i = 0; i < 30; ++i)
      canvas.circle({i * 97 % 620 + shift, i * 61 % 460 + 10.0}, 6, {Colour::hex(0x336699), {}});
    return damage_.since_last(surface_.end());
  };
  dots(10);
  const auto boxes = dots(12);
  EXPECT_LE(boxes.size(), Damage::most_boxes);
  for (std::size_t i = 0; i < boxes.size(); ++i)
    for (std::size_t j = i + 1; j < boxes.size(); ++j)
      EXPECT_TRUE(boxes[i].common(boxes[j]).empty());
  for (int i = 0; i < 30; ++i)
    for (const int shift : {10, 12})
      EXPECT_TRUE(inside(boxes, i * 97 % 620 + shift, i * 61 % 460 + 10));
}

}  // namespace
}  // namespace beforehand::stage
