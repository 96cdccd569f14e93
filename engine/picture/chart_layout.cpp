// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "picture/chart_layout.hpp"

#include <algorithm>
#include <cassert>
#include <numeric>

namespace beforehand::picture {
namespace {

// Heights and gaps at scale 1.
constexpr double marks_height = 26;
constexpr double main_height = 34;
constexpr double beside_height = 26;
constexpr double planned_height = 26;
constexpr double windows_height = 24;
constexpr int window_rows = 3;
constexpr double row_gap = 3;
constexpr double lane_padding = 7;
constexpr double lane_gap = 8;
constexpr double axis_height = 30;
constexpr double legend_row = 30;
constexpr double legend_gap = 22;
constexpr double least_shares_width = 176;
constexpr double swatch = 34;

bool is_beside(const Bar& bar) { return bar.beside || bar.activity == Activity::cover; }

/// Puts each bar into the first row where nothing overlaps it. Gives the number of rows.
std::size_t pack(const std::vector<Bar>& bars, bool beside, std::vector<std::size_t>& row_of) {
  std::vector<std::size_t> order;
  for (std::size_t i = 0; i < bars.size(); ++i) {
    if (is_beside(bars[i]) == beside) order.push_back(i);
  }
  std::stable_sort(order.begin(), order.end(),
                   [&](auto a, auto b) { return bars[a].from < bars[b].from; });
  std::vector<Ms> free_from;
  for (const std::size_t i : order) {
    std::size_t row = 0;
    while (row < free_from.size() && free_from[row] > bars[i].from) ++row;
    if (row == free_from.size()) free_from.emplace_back();
    free_from[row] = bars[i].to;
    row_of[i] = row;
  }
  return free_from.size();
}

/// The same for planned bars, which share one list of rows.
std::size_t pack_planned(const std::vector<Bar>& bars, std::vector<std::size_t>& row_of) {
  row_of.resize(bars.size());
  const std::size_t main_rows = pack(bars, false, row_of);
  const std::size_t beside_rows = pack(bars, true, row_of);
  for (std::size_t i = 0; i < bars.size(); ++i) row_of[i] += is_beside(bars[i]) ? main_rows : 0;
  return main_rows + beside_rows;
}

bool has_marks(const ActivityChart& chart, std::size_t lane) {
  return std::any_of(chart.marks.begin(), chart.marks.end(),
                     [&](const ChartMark& m) { return m.lane == lane; });
}

/// The rows of a lane at scale 1, one under the other from y = 0.
LaneRows rows_of(const ActivityChart& chart, std::size_t index) {
  const Lane& lane = chart.lanes[index];
  LaneRows rows;
  rows.row_of.resize(lane.bars.size());
  const std::size_t main_rows = std::max<std::size_t>(1, pack(lane.bars, false, rows.row_of));
  const std::size_t beside_rows = pack(lane.bars, true, rows.row_of);
  const std::size_t planned_rows = pack_planned(lane.planned, rows.planned_row_of);
  double y = lane_padding;
  const auto add = [&y](double height) {
    const Box box{0, y, 0, height};
    y += height + row_gap;
    return box;
  };
  if (has_marks(chart, index)) rows.marks = add(marks_height);
  for (std::size_t i = 0; i < main_rows; ++i) rows.main.push_back(add(main_height));
  for (std::size_t i = 0; i < beside_rows; ++i) rows.beside.push_back(add(beside_height));
  for (std::size_t i = 0; i < planned_rows; ++i) rows.planned.push_back(add(planned_height));
  for (int i = 0; i < window_rows && !lane.windows.empty(); ++i) {
    rows.windows.push_back(add(windows_height));
  }
  rows.all.height = y - row_gap + lane_padding;
  return rows;
}

/// Moves a lane laid out at scale 1 to where it goes.
void place(LaneRows& rows, const Box& plot, double top, double scale) {
  const auto move = [&](Box& b) { b = {plot.x, top + b.y * scale, plot.width, b.height * scale}; };
  for (Box* b : {&rows.all, &rows.marks}) move(*b);
  for (Box& b : rows.planned) move(b);
  for (Box& b : rows.windows) move(b);
  for (Box& b : rows.main) move(b);
  for (Box& b : rows.beside) move(b);
}

/// Which row each window goes to, so that no bracket and no label lies on another.
void seat_windows(const Canvas& canvas, const ChartLayout& layout, const Lane& lane,
                  const Theme& theme, LaneRows& rows) {
  std::vector<std::size_t> order(lane.windows.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(),
                   [&](auto a, auto b) { return lane.windows[a].latest < lane.windows[b].latest; });
  std::vector<std::vector<Box>> taken(rows.windows.size());
  rows.window_row.assign(lane.windows.size(), rows.windows.size());
  for (const std::size_t i : order) {
    const WindowBracket& window = lane.windows[i];
    if (window.latest < layout.from || window.earliest > layout.to) continue;
    const WindowSpot spot = window_spot(canvas, layout, window, theme);
    const Box extent{spot.left, 0, spot.right - spot.left, 1};
    const auto is_free = [&](const std::vector<Box>& row) {
      return std::none_of(row.begin(), row.end(), [&](const Box& b) { return b.overlaps(extent); });
    };
    const auto row = std::find_if(taken.begin(), taken.end(), is_free);
    rows.window_row[i] = static_cast<std::size_t>(row - taken.begin());
    if (row != taken.end()) row->push_back(extent);
  }
}

double lanes_height(const std::vector<LaneRows>& lanes) {
  double height = lane_gap * static_cast<double>(lanes.empty() ? 0 : lanes.size() - 1);
  for (const LaneRows& rows : lanes) height += rows.all.height;
  return height;
}

double names_width(const Canvas& canvas, const ActivityChart& chart, const ChartWords& words,
                   const Theme& theme) {
  const double size = theme.size(TextSize::label);
  double width = 0;
  bool comparing = false;
  for (const Lane& lane : chart.lanes) {
    width = std::max(width, canvas.measure(lane.name, size, Weight::bold).width);
    comparing = comparing || !lane.planned.empty();
  }
  if (comparing) width = std::max(width, canvas.measure(words.planned, size, {}).width);
  return std::min(width + theme.px(18), theme.px(180));
}

double shares_width(const Canvas& canvas, const ActivityChart& chart, const ChartWords& words,
                    const Theme& theme) {
  const bool idle = std::any_of(chart.lanes.begin(), chart.lanes.end(),
                                [](const Lane& lane) { return lane.shares.avoidable_idle > 0; });
  const auto widest = "99 % " + (idle ? words.avoidable_idle : words.waiting);
  return std::max(theme.px(least_shares_width),
                  canvas.measure(widest, theme.size(TextSize::label), {}).width + theme.px(16));
}

template <class Test>
bool any_bar(const ActivityChart& chart, Test test) {
  return std::any_of(chart.lanes.begin(), chart.lanes.end(), [&](const Lane& lane) {
    return std::any_of(lane.bars.begin(), lane.bars.end(), test);
  });
}

bool shows(const ActivityChart& chart, LegendEntry::Kind kind) {
  using Kind = LegendEntry::Kind;
  const auto bar = [&](Activity a) {
    return any_bar(chart, [a](const Bar& b) { return b.activity == a; });
  };
  const auto link = [&](bool waited) {
    return std::any_of(chart.links.begin(), chart.links.end(),
                       [&](const NeedLink& l) { return l.waited == waited; });
  };
  const auto mark = [&](ChartMark::Kind k) {
    return std::any_of(chart.marks.begin(), chart.marks.end(),
                       [&](const ChartMark& m) { return m.kind == k; });
  };
  switch (kind) {
    case Kind::work:
      return bar(Activity::work);
    case Kind::cover:
      return bar(Activity::cover);
    case Kind::waiting:
      return bar(Activity::waiting);
    case Kind::standby:
      return bar(Activity::standby);
    case Kind::avoidable_idle:
      return bar(Activity::avoidable_idle);
    case Kind::critical:
      return any_bar(chart, [](const Bar& b) { return b.critical; });
    case Kind::need:
      return link(false);
    case Kind::waited:
      return link(true);
    case Kind::request:
      return mark(ChartMark::Kind::request);
    case Kind::error:
      return mark(ChartMark::Kind::error);
    case Kind::signal:
      return mark(ChartMark::Kind::signal);
    case Kind::window:
      return std::any_of(chart.lanes.begin(), chart.lanes.end(),
                         [](const Lane& lane) { return !lane.windows.empty(); });
  }
  return false;
}

std::vector<LegendEntry> entries_of(const ActivityChart& chart, const ChartWords& w) {
  using Kind = LegendEntry::Kind;
  std::vector<LegendEntry> all{{Kind::work, w.work, {}},
                               {Kind::cover, w.cover, {}},
                               {Kind::waiting, w.waiting, {}},
                               {Kind::standby, w.standby, {}},
                               {Kind::avoidable_idle, w.avoidable_idle, {}},
                               {Kind::critical, w.critical, {}},
                               {Kind::window, w.window, {}},
                               {Kind::need, w.need, {}},
                               {Kind::waited, w.waited, {}},
                               {Kind::request, w.request, {}},
                               {Kind::error, w.error, {}},
                               {Kind::signal, w.signal, {}}};
  std::erase_if(all, [&](const LegendEntry& e) { return !shows(chart, e.kind); });
  return all;
}

/// Lays the entries out as words in a paragraph, from (0, 0). Gives the height.
double flow(const Canvas& canvas, std::vector<LegendEntry>& entries, const Theme& theme,
            double width) {
  const double row = theme.px(legend_row);
  Point at;
  for (LegendEntry& entry : entries) {
    const double word = canvas.measure(entry.word, theme.size(TextSize::label), {}).width;
    const double needed = theme.px(swatch + 8) + word;
    if (at.x > 0 && at.x + needed > width) at = {0, at.y + row};
    entry.box = {at.x, at.y, needed, row};
    at.x += needed + theme.px(legend_gap);
  }
  return entries.empty() ? 0 : at.y + row;
}

struct Frame {
  std::vector<LaneRows> lanes;
  std::vector<LegendEntry> entries;
  double legend_height = 0;
};

Frame frame_of(const Canvas& canvas, const ActivityChart& chart, const ChartView& view,
               const Theme& theme, double width) {
  Frame frame;
  for (std::size_t i = 0; i < chart.lanes.size(); ++i) frame.lanes.push_back(rows_of(chart, i));
  if (view.legend) {
    frame.entries = entries_of(chart, view.words);
    frame.legend_height = flow(canvas, frame.entries, theme, width);
  }
  return frame;
}

}  // namespace

WindowSpot window_spot(const Canvas& canvas, const ChartLayout& layout, const WindowBracket& window,
                       const Theme& theme) {
  WindowSpot spot;
  spot.left = std::max(layout.x(window.earliest), layout.plot.x);
  const double bracket = std::max(layout.x(window.latest), spot.left);
  const double label = canvas.measure(window.label, theme.size(TextSize::label), {}).width;
  const bool inside = label + theme.px(14) <= bracket - spot.left;
  spot.label = inside ? spot.left + theme.px(7) : bracket + theme.px(6);
  spot.right = std::max(bracket, spot.label + label) + theme.px(6);
  return spot;
}

std::vector<MarkSpot> mark_spots(const ChartLayout& layout, const ActivityChart& chart,
                                 std::size_t lane, const Theme& theme) {
  constexpr double apart = 1.3;
  std::vector<MarkSpot> spots;
  for (std::size_t i = 0; i < chart.marks.size(); ++i) {
    const ChartMark& mark = chart.marks[i];
    if (mark.lane != lane || mark.at < layout.from || mark.at > layout.to) continue;
    spots.push_back({i, layout.x(mark.at), 0});
  }
  const double largest = std::min(layout.lanes[lane].marks.height, theme.px(24));
  const double fitting = layout.plot.width / (apart * static_cast<double>(spots.size() + 1));
  const double size = std::clamp(fitting, largest * 0.6, largest);
  const double step = size * apart;
  const auto room = static_cast<std::size_t>(layout.plot.width / step);
  if (spots.size() > room) spots.resize(room);
  double least = layout.plot.x + step / 2;
  for (MarkSpot& spot : spots) {
    spot.size = size;
    spot.x = std::max(spot.x, least);
    least = spot.x + step;
  }
  double most = layout.plot.right() - step / 2;
  for (auto spot = spots.rbegin(); spot != spots.rend(); ++spot) {
    spot->x = std::min(spot->x, most);
    most = spot->x - step;
  }
  return spots;
}

double chart_height(const Canvas& canvas, const ActivityChart& chart, const ChartView& view,
                    const Theme& theme, double width) {
  const Frame frame = frame_of(canvas, chart, view, theme, width);
  return theme.px(axis_height + lanes_height(frame.lanes) + (view.legend ? 8 : 0)) +
         frame.legend_height;
}

ChartLayout lay_out(const Canvas& canvas, const ActivityChart& chart, const ChartView& view,
                    const Theme& theme, const Box& box) {
  assert(view.from < view.to);
  Frame frame = frame_of(canvas, chart, view, theme, box.width);
  ChartLayout out;
  out.from = view.from;
  out.to = view.to;
  out.swatch_width = theme.px(swatch);
  const double left = names_width(canvas, chart, view.words, theme);
  const double right = view.shares ? shares_width(canvas, chart, view.words, theme) : 0;
  const double axis = theme.px(axis_height);
  const double foot = view.legend ? frame.legend_height + theme.px(8) : 0;
  out.plot = {box.x + left, box.y + axis, std::max(1.0, box.width - left - right),
              std::max(1.0, box.height - axis - foot)};
  out.axis = {out.plot.x, box.y, out.plot.width, axis};
  out.names = {box.x, out.plot.y, left, out.plot.height};
  out.shares = {out.plot.right(), out.plot.y, right, out.plot.height};
  out.legend = {box.x, out.plot.bottom() + theme.px(8), box.width, frame.legend_height};
  const double scale =
      std::min(out.plot.height / std::max(1.0, lanes_height(frame.lanes)), theme.scale * 1.35);
  double y = out.plot.y;
  for (LaneRows& rows : frame.lanes) {
    const double height = rows.all.height * scale;
    place(rows, out.plot, y, scale);
    y += height + lane_gap * scale;
  }
  for (std::size_t i = 0; i < frame.lanes.size(); ++i) {
    seat_windows(canvas, out, chart.lanes[i], theme, frame.lanes[i]);
  }
  out.lanes = std::move(frame.lanes);
  if (!out.lanes.empty()) out.plot.height = out.lanes.back().all.bottom() - out.plot.y;
  out.legend.y = out.plot.bottom() + theme.px(8);
  for (LegendEntry& entry : frame.entries) {
    entry.box.x += out.legend.x;
    entry.box.y += out.legend.y;
  }
  out.entries = std::move(frame.entries);
  return out;
}

std::vector<Ms> ticks(Ms from, Ms to, Ms apart) {
  static constexpr int steps[] = {1, 2, 5, 10, 15, 30, 60, 120, 300, 600, 900, 1800, 3600};
  Ms step{0};
  for (const int s : steps) {
    step = Ms{std::int64_t{s} * 1000};
    if (step >= apart) break;
  }
  while (step < apart) step *= 2;
  std::vector<Ms> out;
  const auto first = from.count() <= 0 ? 0 : (from.count() + step.count() - 1) / step.count();
  for (Ms t = step * first; t <= to; t += step) out.push_back(t);
  return out;
}

}  // namespace beforehand::picture
