// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "picture/canvas.hpp"
#include "picture/palette.hpp"
#include "records/learning_curve.hpp"
#include "records/review.hpp"

// The charts of a review: a trainee's totals over the drills, and steps by trainees. The window and
// the report draw these.

namespace beforehand::picture {

/// Totals in order; the law and its band are drawn when there is one.
struct CurveChart {
  std::vector<double> totals;  ///< 0..100, a drill each
  std::vector<bool> ready;     ///< by drill: the verdict was `ready`
  std::optional<records::LearningCurve> curve;
};

/// The words on the charts, so that they can be in any language.
struct ReviewWords {
  std::string drill = "drill", total = "total of 100", ready_from = "ready from",
              ready = "verdict ready", other = "other verdict", band = "fitted law, 95 % band",
              none = "not tried", competent = "evidence complete",
              of_last = "right of the last {0}";
};

void draw_curve(Canvas&, const CurveChart&, const ReviewWords&, const Theme&, const Box&);

/// The columns' least width is fixed; what does not fit is not drawn.
struct HeatView {
  std::size_t first_row = 0, first_column = 0;
  std::vector<std::string> step_titles;  ///< by row of the map
  bool high = false;                     ///< rows of two lines
  std::size_t name_lines = 0;            ///< over the columns, if more than the usual
};
/// The view with rows and a head as high as titles and names need in a chart of this width.
HeatView heat_fitted(const Canvas&, const records::HeatMap&, HeatView, const Theme&, double width);
double heat_height(const records::HeatMap&, const HeatView&, const Theme&);
double heat_width(const records::HeatMap&, const Theme&);
/// How many columns and rows fit, at least one.
int heat_columns(const Theme&, double width);
std::size_t heat_rows(const Theme&, double height, const HeatView&);
/// Rows are steps, columns trainees; only what lies in the box is drawn.
void draw_heat(Canvas&, const records::HeatMap&, const HeatView&, const ReviewWords&, const Theme&,
               const Box&);

/// How a cell is painted, and the text in it: "6/8", with a tick once competent.
Colour heat_colour(const records::HeatMap::Cell&);
std::string heat_text(const records::HeatMap::Cell&);

}  // namespace beforehand::picture
