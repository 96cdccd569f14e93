// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <string>
#include <vector>

#include "picture/canvas.hpp"
#include "picture/palette.hpp"
#include "study/improve.hpp"

// The charts of a study: differences with how sure they are, and how figures are spread over many
// runs. The window and the report draw these.

namespace beforehand::picture {

/// Differences about a line at zero. A row whose interval leaves zero out is drawn full, one that
/// may be chance hollow: never told by colour alone.
struct IntervalChart {
  struct Row {
    std::string label;
    double value = 0, low = 0, high = 0;
    std::string text;  ///< the figure, as it is written beside the row
    bool sure() const { return low > 0 || high < 0; }
  };
  std::string below, above;  ///< what lies left and right of zero: "B is shorter", "A is shorter"
  std::string unit = "s";
  std::vector<Row> rows;
  bool less_is_better = true;
};

/// Where the middle half and the middle nine tenths of the runs lie, the median marked, a thin line
/// from the least to the most.
struct SpreadChart {
  struct Row {
    std::string label;
    double least = 0, p5 = 0, p25 = 0, median = 0, p75 = 0, p95 = 0, most = 0;
    std::string text;
  };
  std::string unit = "s";
  std::vector<Row> rows;
};

/// The words on a chart of steps, so that they can be in any language.
struct StepWords {
  std::string below = "shorter in B", above = "longer in B",
              rest = "After the clinician's last step", only_in_a = " (only in A)",
              only_in_b = " (only in B)";
};
/// What each of the clinician's steps adds to the difference in chair time, the most first; those
/// that add less than a twentieth of a second are left out.
IntervalChart step_chart(const study::Comparison&, const StepWords& = {}, std::size_t most = 12);

/// What each change saves as played, in the order given. The labels are its words, numbered.
IntervalChart gain_chart(const study::Improvements&, const std::string& longer = "longer",
                         const std::string& saved = "saved");
/// That chart as a picture of its own.
std::string gains_svg(const study::Improvements&, const std::string& title);

/// A measure's spread over the runs, under this label.
SpreadChart::Row spread_row(const std::string& label, const study::Summary&,
                            const std::string& unit);

/// The height at which every label has the lines it needs, in a chart this wide.
double interval_height(const Canvas&, const IntervalChart&, const Theme&, double width);
void draw_intervals(Canvas&, const IntervalChart&, const Theme&, const Box&);

double spread_height(const Canvas&, const SpreadChart&, const Theme&, double width);
void draw_spread(Canvas&, const SpreadChart&, const Theme&, const Box&);

}  // namespace beforehand::picture
