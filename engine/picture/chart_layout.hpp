// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <vector>

#include "picture/activity_chart.hpp"

namespace beforehand::picture {

/// A row of a lane; height 0 when the lane has nothing for it.
struct LaneRows {
  Box all;                   ///< the lane's ground
  Box marks;                 ///< numbers of requests and errors
  std::vector<Box> main;     ///< what has the attention, more than one when bars overlap
  std::vector<Box> beside;   ///< covers
  std::vector<Box> planned;  ///< what has the attention first, then covers
  std::vector<Box> windows;
  std::vector<std::size_t> row_of;          ///< by bar: its position in main or beside
  std::vector<std::size_t> planned_row_of;  ///< by planned bar: its position in planned
  /// By window: its position in windows; equal to their number when there is no room for it. What
  /// closes first is placed first.
  std::vector<std::size_t> window_row;
};

struct LegendEntry {
  enum class Kind {
    work,
    cover,
    waiting,
    standby,
    avoidable_idle,
    window,
    need,
    waited,
    critical,
    request,
    error,
    signal
  } kind;
  std::string word;
  Box box;  ///< swatch and word together
};

/// Where everything of a chart goes.
struct ChartLayout {
  Box names, plot, shares, axis, legend;
  std::vector<LaneRows> lanes;
  std::vector<LegendEntry> entries;
  double swatch_width = 0;
  Ms from{0}, to{0};

  double x(Ms t) const {
    return plot.x + plot.width * static_cast<double>((t - from).count()) /
                        static_cast<double>((to - from).count());
  }
};

ChartLayout lay_out(const Canvas& canvas, const ActivityChart& chart, const ChartView& view,
                    const Theme& theme, const Box& box);

/// Where a window lies along x: its label inside the bracket if it fits there, else behind it.
struct WindowSpot {
  double left = 0, label = 0, right = 0;
};
WindowSpot window_spot(const Canvas& canvas, const ChartLayout& layout, const WindowBracket& window,
                       const Theme& theme);

/// Where the middle of a mark lies: at its moment, or beside it where marks crowd. In a crowd they
/// shrink to six tenths, and what still finds no room is left out; the list beside the chart has
/// them all.
struct MarkSpot {
  std::size_t mark = 0;
  double x = 0;
  double size = 0;
};
std::vector<MarkSpot> mark_spots(const ChartLayout& layout, const ActivityChart& chart,
                                 std::size_t lane, const Theme& theme);

/// Moments for the axis: 1, 2, 5, 10, 15, 30 s, 1, 2, 5, 10, 15, 30 min or hours apart, no closer
/// than `apart`.
std::vector<Ms> ticks(Ms from, Ms to, Ms apart);

}  // namespace beforehand::picture
