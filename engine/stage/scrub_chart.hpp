// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <optional>

#include "picture/activity_chart.hpp"
#include "procedure/procedure.hpp"
#include "stage/pen.hpp"
#include "timing/plan.hpp"

namespace beforehand::stage {

/// A chart of what was played that can be pointed into: a press on it, and the way the pointer is
/// dragged from there, name a moment.
class ScrubChart {
 public:
  ScrubChart(picture::ActivityChart chart, picture::ChartWords words);

  /// Lays the plan under what was played; what was there before goes.
  void refer_to(const procedure::Procedure&, const timing::Plan&);

  /// The moment pointed at, if the input is about that.
  std::optional<Ms> handle(const Input&);
  bool dragging() const { return dragging_; }

  /// Whole, or a stretch of it.
  void zoom(Ms around);
  bool zoomed() const { return zoomed_; }
  void pan(int direction);
  /// Moves the stretch that is shown so that the moment is in it.
  void follow(Ms moment);
  /// Shows at least up to here, so that two charts can have one axis.
  void reach_to(Ms end);
  Ms end() const { return picture::whole(chart_).to; }

  /// What everybody does at a moment, in words: a narrow bar has no room for its name.
  std::string going_on(Ms moment) const;

  double height(const Pen&, double width) const;
  void draw(Pen&, const Box&, std::optional<Ms> now);

  const picture::ActivityChart& chart() const { return chart_; }
  picture::ChartView& view() { return view_; }
  /// Where time lay on the last frame.
  const Box& plot() const { return plot_; }

 private:
  void show_whole();
  Ms moment_of(double x) const;

  picture::ActivityChart chart_;
  picture::ChartView view_;
  Ms least_end_{0};
  bool zoomed_ = false, dragging_ = false;
  Box plot_;
};

}  // namespace beforehand::stage
