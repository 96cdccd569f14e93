// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/time.hpp"
#include "picture/canvas.hpp"
#include "picture/palette.hpp"

// The multiple-activity chart of work study: a lane a person, time to the right, a bar an activity.
// The plan, the drill, the debrief and the report all draw this one.

namespace beforehand::picture {

enum class Activity { work, cover, waiting, standby, avoidable_idle };

struct Bar {
  Activity activity = Activity::work;
  Ms from{0}, to{0};
  std::string label;
  bool beside = false;    ///< goes on beside what has the attention; covers always do
  bool critical = false;  ///< on the critical chain
  bool ahead = false;     ///< has not happened yet: drawn as an expectation
};

/// Whether it is something done that has a name.
bool is_named(const Bar& bar);

/// From the earliest useful start of a prep to the latest start at which nobody waits.
struct WindowBracket {
  Ms earliest{0}, latest{0};
  std::string label;
};

/// The parts of a lane's time; they need not be whole numbers, their sum is 100 (or 0: not shown).
struct Shares {
  double work = 0, cover = 0, waiting = 0, standby = 0, avoidable_idle = 0;
  double sum() const { return work + cover + waiting + standby + avoidable_idle; }
};

struct Lane {
  std::string name;
  std::vector<Bar> bars;
  std::vector<Bar> planned;  ///< drawn pale under the bars, to compare
  std::vector<WindowBracket> windows;
  Shares shares;
};

/// Something made ready in one lane for a step in another.
struct NeedLink {
  std::size_t from_lane = 0, to_lane = 0;  ///< positions in lanes
  Ms ready{0}, used{0};
  bool waited = false;  ///< it was not ready in time
};

struct ChartMark {
  enum class Kind { request, error, signal, step } kind = Kind::error;  ///< step: a bar's number
  std::size_t lane = 0;
  Ms at{0};
  std::string text;  ///< a number or letter that the list beside the chart repeats
};

struct ActivityChart {
  std::string title;
  std::vector<Lane> lanes;
  std::vector<NeedLink> links;
  std::vector<ChartMark> marks;
  std::optional<Ms> now;
};

/// The words on the chart, so that it can be in any language.
struct ChartWords {
  std::string work = "work", cover = "holding", waiting = "waiting", standby = "standing by",
              avoidable_idle = "avoidable idle", window = "window to start", need = "ready for",
              waited = "waited for", critical = "critical chain", request = "request",
              error = "error", signal = "signal", now = "now", planned = "planned",
              played = "played", busy = "busy", time = "time from the start, min:s";
};

/// Which part of time is drawn, and what around the lanes.
struct ChartView {
  Ms from{0}, to{60'000};
  bool legend = true;
  bool shares = true;
  ChartWords words;
};

/// The view of the whole chart, with a little room after the last bar.
ChartView whole(const ActivityChart& chart);

/// The height at which nothing of the chart is squeezed, for a box this wide.
double chart_height(const Canvas& canvas, const ActivityChart& chart, const ChartView& view,
                    const Theme& theme, double width);

/// Draws into the box. A box lower than chart_height squeezes the lanes and leaves labels out that
/// no longer fit; a higher one is used up. Needs view.from < view.to.
void draw_chart(Canvas& canvas, const ActivityChart& chart, const ChartView& view,
                const Theme& theme, const Box& box);

/// The moment under a point of the plot, for scrubbing; nothing outside it.
std::optional<Ms> moment_at(const Canvas& canvas, const ActivityChart& chart, const ChartView& view,
                            const Theme& theme, const Box& box, Point point);

}  // namespace beforehand::picture
