// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "picture/activity_chart.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "picture/chart_bars.hpp"
#include "picture/chart_layout.hpp"
#include "picture/text.hpp"

namespace beforehand::picture {
namespace {

/// Draws one chart into one layout; what it needs is the same everywhere.
class ChartPainter {
 public:
  ChartPainter(Canvas& canvas, const ActivityChart& chart, const ChartView& view,
               const Theme& theme, const ChartLayout& layout)
      : canvas_(canvas),
        chart_(chart),
        view_(view),
        theme_(theme),
        p_(theme.palette),
        at_(layout) {}

  void draw() {
    const Group group(canvas_, {chart_.title, {}, "group"});
    draw_grounds();
    draw_axis();
    for (std::size_t i = 0; i < chart_.lanes.size(); ++i) draw_lane(i);
    draw_links();
    draw_marks();
    draw_now();
    for (std::size_t i = 0; i < chart_.lanes.size(); ++i) draw_names(i);
    if (view_.shares) {
      for (std::size_t i = 0; i < chart_.lanes.size(); ++i) draw_shares(i);
    }
    for (const LegendEntry& entry : at_.entries) draw_entry(entry);
  }

 private:
  double label_size() const { return theme_.size(TextSize::label); }

  TextStyle style(Colour colour, Align align = Align::left, Level level = Level::middle) const {
    return {label_size(), colour, Weight::regular, align, level};
  }

  void draw_grounds() {
    for (const LaneRows& rows : at_.lanes) {
      canvas_.rectangle(rows.all, {p_.well, {p_.edge, theme_.px(1)}}, theme_.px(4));
    }
  }

  std::vector<Ms> tick_moments() const {
    const double ms_per_unit =
        static_cast<double>((at_.to - at_.from).count()) / std::max(1.0, at_.plot.width);
    return ticks(at_.from, at_.to, Ms{std::llround(theme_.px(74) * ms_per_unit)});
  }

  bool has_now() const { return chart_.now && *chart_.now >= at_.from && *chart_.now <= at_.to; }

  /// The flag over the line of now, kept between the plot's sides.
  Box now_flag() const {
    const double half =
        canvas_.measure(view_.words.now, label_size(), Weight::bold).width / 2 + theme_.px(7);
    const double middle = between_sides(at_.x(*chart_.now), half);
    return {middle - half, at_.axis.y, 2 * half, at_.axis.height - theme_.px(5)};
  }

  /// x, moved so that something `half` wide to each side stays over the plot.
  double between_sides(double x, double half) const {
    const double left = at_.axis.x + half;
    return std::clamp(x, left, std::max(left, at_.axis.right() - half));
  }

  void draw_axis() {
    for (const Ms t : tick_moments()) {
      const double x = at_.x(t);
      canvas_.line({x, at_.plot.y - theme_.px(5)}, {x, at_.plot.bottom()}, {p_.edge, theme_.px(1)});
      const std::string label = clock_text(t);
      const double half = canvas_.measure(label, label_size(), {}).width / 2;
      const double middle = between_sides(x, half);
      const Box place{middle - half, at_.axis.y, 2 * half, at_.axis.height};
      if (has_now() && place.inset(-theme_.px(4)).overlaps(now_flag())) continue;
      canvas_.text({middle, at_.axis.y + theme_.px(12)}, label, style(p_.ink_soft, Align::centre));
    }
  }

  /// The part of a row between two moments, drawn a little past the plot's edges so that a bar that
  /// goes on beyond them shows no end there.
  Box span(const Box& row, Ms from, Ms to) const {
    const double beyond = theme_.px(12);
    const double left = std::max(at_.x(from), at_.plot.x - beyond);
    const double right = std::min(at_.x(to), at_.plot.right() + beyond);
    return {left, row.y, std::max(0.0, right - left), row.height};
  }

  bool is_in_view(Ms from, Ms to) const { return to >= at_.from && from <= at_.to && from <= to; }

  const Box& row_of(std::size_t lane, std::size_t bar) const {
    const LaneRows& rows = at_.lanes[lane];
    const Bar& b = chart_.lanes[lane].bars[bar];
    const bool beside = b.beside || b.activity == Activity::cover;
    return (beside ? rows.beside : rows.main)[rows.row_of[bar]];
  }

  void draw_lane(std::size_t index) {
    const Lane& lane = chart_.lanes[index];
    const LaneRows& rows = at_.lanes[index];
    const Group group(canvas_, {lane.name, {}, "list"});
    const Clip clip(canvas_, rows.all);
    for (std::size_t i = 0; i < lane.bars.size(); ++i) draw_bar(lane.bars[i], row_of(index, i));
    for (std::size_t i = 0; i < lane.planned.size(); ++i) {
      draw_planned_bar(lane.planned[i], rows.planned[rows.planned_row_of[i]]);
    }
    for (std::size_t i = 0; i < lane.windows.size(); ++i) {
      const std::size_t row = rows.window_row[i];
      if (row < rows.windows.size()) draw_window(lane.windows[i], rows.windows[row]);
    }
  }

  std::string bar_title(const Bar& bar) const {
    const std::string kind = activity_word(bar.activity);
    return (bar.label.empty() ? kind : bar.label + ", " + kind) + ", " + clock_text(bar.from) +
           "\u2013" + clock_text(bar.to);
  }

  const std::string& activity_word(Activity activity) const {
    switch (activity) {
      case Activity::work:
        return view_.words.work;
      case Activity::cover:
        return view_.words.cover;
      case Activity::waiting:
        return view_.words.waiting;
      case Activity::standby:
        return view_.words.standby;
      case Activity::avoidable_idle:
        return view_.words.avoidable_idle;
    }
    return view_.words.work;
  }

  Colour plate_of(Activity activity) const {
    if (activity == Activity::cover) return p_.cover;
    if (activity == Activity::avoidable_idle) return p_.avoidable_idle;
    return nothing;
  }

  void draw_bar(const Bar& bar, const Box& row) {
    if (!is_in_view(bar.from, bar.to)) return;
    const Group group(canvas_, {bar_title(bar), {}, "listitem"});
    Box box = span(row, bar.from, bar.to);
    box.width = std::max(box.width, theme_.px(1.5));
    if (bar.ahead)
      draw_planned(canvas_, box, theme_);
    else
      draw_activity(canvas_, bar.activity, box, theme_);
    if (bar.critical) draw_critical(canvas_, box, theme_);
    if (bar.activity == Activity::standby) return;
    draw_bar_label(canvas_, bar.label, bar.activity, box.common(at_.plot), theme_, p_.ink,
                   bar.ahead ? nothing : plate_of(bar.activity));
  }

  void draw_planned_bar(const Bar& bar, const Box& row) {
    if (!is_in_view(bar.from, bar.to)) return;
    if (bar.activity != Activity::work && bar.activity != Activity::cover) return;
    const Group group(canvas_, {view_.words.planned + ": " + bar_title(bar), {}, "listitem"});
    const Box box = span(row, bar.from, bar.to);
    draw_planned(canvas_, box, theme_);
    draw_bar_label(canvas_, bar.label, Activity::work, box.common(at_.plot), theme_, p_.ink_soft,
                   nothing);
  }

  void draw_window(const WindowBracket& window, const Box& row) {
    if (!is_in_view(window.earliest, window.latest)) return;
    const Group group(
        canvas_, {view_.words.window + ": " + window.label + ", " + clock_text(window.earliest) +
                      "\u2013" + clock_text(window.latest),
                  {},
                  "listitem"});
    const Box box = span(row.inset(theme_.px(1)), window.earliest, window.latest);
    draw_bracket(canvas_, box, theme_);
    const double size = label_size();
    if (row.height < size) return;
    const double left = window_spot(canvas_, at_, window, theme_).label;
    const double room = at_.plot.right() - left - theme_.px(4);
    const auto shown = label_for(canvas_, window.label, room, size);
    if (!shown.empty()) canvas_.text({left, row.centre().y}, shown, style(p_.ink));
  }

  void draw_links() {
    const Clip clip(canvas_, at_.plot);
    for (const NeedLink& link : chart_.links) {
      if (!is_in_view(std::min(link.ready, link.used), std::max(link.ready, link.used))) continue;
      const LaneRows& from = at_.lanes[link.from_lane];
      const LaneRows& to = at_.lanes[link.to_lane];
      if (from.main.empty() || to.main.empty() || link.from_lane == link.to_lane) continue;
      const bool down = link.to_lane > link.from_lane;
      const Box& leave = from.main.front();
      const Box& reach = to.main.front();
      draw_link(canvas_, {at_.x(link.ready), down ? leave.bottom() : leave.y},
                {at_.x(link.used), down ? reach.y : reach.bottom()}, link.waited, theme_);
    }
  }

  void draw_marks() {
    const Clip clip(canvas_, at_.plot);
    for (std::size_t lane = 0; lane < at_.lanes.size(); ++lane) {
      const Box& row = at_.lanes[lane].marks;
      for (const MarkSpot& spot : mark_spots(at_, chart_, lane, theme_)) {
        const ChartMark& mark = chart_.marks[spot.mark];
        const Point centre{spot.x, row.centre().y};
        const bool plain = mark.kind == ChartMark::Kind::step;  // no line through a bare number
        const Point from{spot.x, plain ? centre.y + label_size() * 0.5 : centre.y};
        canvas_.polyline({from, {at_.x(mark.at), row.bottom() + theme_.px(4)}},
                         {p_.ink, theme_.px(1.25)});
        draw_mark(canvas_, mark.kind, mark.text, centre, spot.size, theme_);
      }
    }
  }

  void draw_now() {
    if (!has_now()) return;
    const double x = at_.x(*chart_.now);
    const Box flag = now_flag();
    const double tip = theme_.px(6);
    canvas_.line({x, flag.bottom()}, {x, at_.plot.bottom()}, {p_.ink, theme_.px(2.5)});
    canvas_.rectangle(flag, {p_.ink, {}}, theme_.px(4));
    canvas_.polygon({{x - tip, flag.bottom()}, {x + tip, flag.bottom()}, {x, flag.bottom() + tip}},
                    {p_.ink, {}});
    canvas_.text(flag.centre(), view_.words.now,
                 {label_size(), p_.card, Weight::bold, Align::centre, Level::middle});
  }

  void draw_names(std::size_t index) {
    const LaneRows& rows = at_.lanes[index];
    const double room = at_.names.width - theme_.px(8);
    const std::string name =
        shorten(canvas_, chart_.lanes[index].name, room, label_size(), Weight::bold);
    TextStyle bold = style(p_.ink);
    bold.weight = Weight::bold;
    canvas_.text({at_.names.x, rows.main.front().centre().y}, name, bold);
    if (!rows.planned.empty()) {
      canvas_.text({at_.names.x, rows.planned.front().centre().y},
                   shorten(canvas_, view_.words.planned, room, label_size()), style(p_.ink_soft));
    }
  }

  void draw_shares(std::size_t index) {
    const Shares& s = chart_.lanes[index].shares;
    if (s.sum() <= 0) return;
    const LaneRows& rows = at_.lanes[index];
    const Box room{at_.shares.x + theme_.px(14), rows.all.y, at_.shares.width - theme_.px(14),
                   rows.all.height};
    const std::array parts{std::pair{Activity::work, s.work}, std::pair{Activity::cover, s.cover},
                           std::pair{Activity::waiting, s.waiting},
                           std::pair{Activity::avoidable_idle, s.avoidable_idle},
                           std::pair{Activity::standby, s.standby}};
    const double bar_height = theme_.px(18);
    const double line = label_size() * 1.3;
    const bool two_lines = room.height >= bar_height + 2 * line;
    const double used = bar_height + (two_lines ? 2 : 1) * line;
    double y = room.y + std::max(0.0, (room.height - used) / 2);
    double x = room.x;
    for (const auto& [activity, share] : parts) {
      const double width = room.width * share / s.sum();
      if (share > 0) draw_activity(canvas_, activity, {x, y, width, bar_height}, theme_);
      x += width;
    }
    canvas_.rectangle({room.x, y, room.width, bar_height}, {nothing, {p_.ink, theme_.px(1)}});
    y += bar_height + theme_.px(3);
    const auto percent = [](double v) { return std::to_string(std::llround(v)) + " %"; };
    canvas_.text({room.x, y + line / 2}, percent(s.work + s.cover) + ' ' + view_.words.busy,
                 style(p_.ink));
    if (!two_lines) return;
    const double lost = s.avoidable_idle > 0 ? s.avoidable_idle : s.waiting;
    const std::string& word =
        s.avoidable_idle > 0 ? view_.words.avoidable_idle : view_.words.waiting;
    canvas_.text({room.x, y + line * 1.5},
                 shorten(canvas_, percent(lost) + ' ' + word, room.width, label_size()),
                 style(p_.ink_soft));
  }

  void draw_entry(const LegendEntry& entry) {
    const Box swatch{entry.box.x, entry.box.y + theme_.px(5), at_.swatch_width,
                     entry.box.height - theme_.px(10)};
    draw_swatch(entry.kind, swatch);
    canvas_.text({swatch.right() + theme_.px(8), entry.box.centre().y}, entry.word, style(p_.ink));
  }

  void draw_swatch(LegendEntry::Kind kind, const Box& box) {
    using Kind = LegendEntry::Kind;
    const Point left{box.x + theme_.px(4), box.bottom()};
    const Point right{box.right() - theme_.px(8), box.y};
    switch (kind) {
      case Kind::work:
        return draw_activity(canvas_, Activity::work, box, theme_);
      case Kind::cover:
        return draw_activity(canvas_, Activity::cover, box, theme_);
      case Kind::waiting:
        return draw_activity(canvas_, Activity::waiting, box, theme_);
      case Kind::standby:
        return draw_activity(canvas_, Activity::standby, box, theme_);
      case Kind::avoidable_idle:
        return draw_activity(canvas_, Activity::avoidable_idle, box, theme_);
      case Kind::critical:
        draw_activity(canvas_, Activity::work, box, theme_);
        return draw_critical(canvas_, box, theme_);
      case Kind::window:
        return draw_bracket(canvas_, box, theme_);
      case Kind::need:
        return draw_link(canvas_, left, right, false, theme_);
      case Kind::waited:
        return draw_link(canvas_, left, right, true, theme_);
      case Kind::request:
        return draw_mark(canvas_, ChartMark::Kind::request, "1", box.centre(), box.height, theme_);
      case Kind::error:
        return draw_mark(canvas_, ChartMark::Kind::error, "1", box.centre(), box.height, theme_);
      case Kind::signal:
        return draw_mark(canvas_, ChartMark::Kind::signal, "!", box.centre(), box.height, theme_);
    }
  }

  Canvas& canvas_;
  const ActivityChart& chart_;
  const ChartView& view_;
  const Theme& theme_;
  const Palette& p_;
  const ChartLayout& at_;
};

}  // namespace

bool is_named(const Bar& bar) {
  return (bar.activity == Activity::work || bar.activity == Activity::cover) && !bar.label.empty();
}

ChartView whole(const ActivityChart& chart) {
  Ms end{1000};
  for (const Lane& lane : chart.lanes) {
    for (const Bar& bar : lane.bars) end = std::max(end, bar.to);
    for (const Bar& bar : lane.planned) end = std::max(end, bar.to);
    for (const WindowBracket& window : lane.windows) end = std::max(end, window.latest);
  }
  ChartView view;
  view.to = end + end / 100;
  return view;
}

void draw_chart(Canvas& canvas, const ActivityChart& chart, const ChartView& view,
                const Theme& theme, const Box& box) {
  const ChartLayout layout = lay_out(canvas, chart, view, theme, box);
  ChartPainter(canvas, chart, view, theme, layout).draw();
}

std::optional<Ms> moment_at(const Canvas& canvas, const ActivityChart& chart, const ChartView& view,
                            const Theme& theme, const Box& box, Point point) {
  const ChartLayout layout = lay_out(canvas, chart, view, theme, box);
  if (!layout.plot.contains(point)) return std::nullopt;
  const double share = (point.x - layout.plot.x) / layout.plot.width;
  return view.from + Ms{std::llround(share * static_cast<double>((view.to - view.from).count()))};
}

}  // namespace beforehand::picture
