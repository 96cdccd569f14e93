// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "picture/study_charts.hpp"

#include <gtest/gtest.h>

#include "picture/svg_canvas.hpp"

namespace beforehand::picture {
namespace {

constexpr double width = 700;

std::string drawn(const IntervalChart& chart) {
  const Theme theme;
  const double height = interval_height(SvgCanvas(1, 1, "ruler"), chart, theme, width);
  SvgCanvas canvas(width, height, "chart");
  draw_intervals(canvas, chart, theme, {0, 0, width, height});
  return canvas.str();
}

// A row's name is never cut: its row has the lines it needs.
TEST(IntervalChart, NamesAreWhole) {
  IntervalChart chart{"less", "more", "s", {}};
  chart.rows.push_back({"Short", -1, -1.5, -0.5, "-1.0 s"});
  const double low = interval_height(SvgCanvas(1, 1, "ruler"), chart, Theme{}, width);
  chart.rows[0].label =
      "Bring the counter that stands behind within reach of the wrist and lay what is used first "
      "nearest to the hand";
  const auto svg = drawn(chart);
  EXPECT_EQ(svg.find("…"), std::string::npos);
  EXPECT_NE(svg.find("hand<"), std::string::npos);
  EXPECT_GT(interval_height(SvgCanvas(1, 1, "ruler"), chart, Theme{}, width), low);
}

}  // namespace
}  // namespace beforehand::picture
