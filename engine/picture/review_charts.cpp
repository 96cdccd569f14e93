// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "picture/review_charts.hpp"

#include <algorithm>
#include <cmath>

#include "picture/text.hpp"

namespace beforehand::picture {

namespace {

using records::HeatMap;

constexpr double ready_total = 85;

struct Plot {
  Box box;
  double drills = 1;
  double x(double n) const { return box.x + box.width * (n - 0.5) / drills; }
  double y(double total) const { return box.bottom() - box.height * total / 100; }
};

TextStyle label(const Theme& t, Align align, Colour colour) {
  TextStyle s;
  s.size = t.size(TextSize::label);
  s.colour = colour;
  s.align = align;
  s.level = Level::middle;
  return s;
}

void draw_scale(Canvas& canvas, const Plot& plot, const ReviewWords& words, const Theme& t) {
  const auto& c = t.palette;
  canvas.rectangle(plot.box, {c.well, {c.edge, t.px(1)}});
  for (int total = 0; total <= 100; total += 25) {
    const double y = plot.y(total);
    canvas.line({plot.box.x, y}, {plot.box.right(), y}, {c.edge, t.px(1)});
    canvas.text({plot.box.x - t.px(8), y}, std::to_string(total),
                label(t, Align::right, c.ink_soft));
  }
  const double y = plot.y(ready_total);
  canvas.line({plot.box.x, y}, {plot.box.right(), y}, {c.good, t.px(1.5), t.px(7), t.px(5)});
  canvas.text({plot.box.right() + t.px(8), y}, words.ready_from + " 85",
              label(t, Align::left, c.good));
  const double most = plot.drills;
  const int every = std::max(1, static_cast<int>(std::ceil(most / (plot.box.width / t.px(46)))));
  for (int n = every; n <= static_cast<int>(most); n += every)
    canvas.text({plot.x(n), plot.box.bottom() + t.px(16)}, std::to_string(n),
                label(t, Align::centre, c.ink_soft));
  canvas.text({plot.box.right() + t.px(8), plot.box.bottom() + t.px(16)}, words.drill,
              label(t, Align::left, c.ink_soft));
  canvas.text({plot.box.x, plot.box.y - t.px(14)}, words.total, label(t, Align::left, c.ink_soft));
}

void draw_band(Canvas& canvas, const Plot& plot, const records::LearningCurve& curve,
               const Theme& t) {
  std::vector<Point> edge, line;
  const auto n = curve.points.size();
  for (std::size_t i = 0; i < n; ++i)
    edge.push_back({plot.x(static_cast<double>(i + 1)), plot.y(curve.points[i].high)});
  for (std::size_t i = n; i-- > 0;)
    edge.push_back({plot.x(static_cast<double>(i + 1)), plot.y(curve.points[i].low)});
  canvas.polygon(edge, {t.palette.accent.with_alpha(38), {}});
  for (std::size_t i = 0; i < n; ++i)
    line.push_back({plot.x(static_cast<double>(i + 1)), plot.y(curve.points[i].value)});
  canvas.polyline(line, {t.palette.accent, t.px(2.5)});
}

void draw_mark(Canvas& canvas, Point at, bool ready, const Theme& t) {
  const auto& c = t.palette;
  const Stroke outline{c.ink, t.px(1.2)};
  if (ready) {
    canvas.circle(at, t.px(5), {okabe_ito::bluish_green, outline});
  } else {
    const double r = t.px(4.2);
    canvas.polygon({{at.x, at.y - r * 1.3},
                    {at.x + r * 1.3, at.y},
                    {at.x, at.y + r * 1.3},
                    {at.x - r * 1.3, at.y}},
                   {okabe_ito::orange, outline});
  }
}

void draw_curve_key(Canvas& canvas, const CurveChart& chart, const ReviewWords& words,
                    const Theme& t, Point at) {
  const auto style = label(t, Align::left, t.palette.ink);
  const auto entry = [&](const std::string& text, auto&& mark) {
    mark(Point{at.x + t.px(10), at.y});
    canvas.text({at.x + t.px(26), at.y}, text, style);
    at.x += t.px(50) + canvas.measure(text, style.size, Weight::regular).width;
  };
  entry(words.ready, [&](Point p) { draw_mark(canvas, p, true, t); });
  entry(words.other, [&](Point p) { draw_mark(canvas, p, false, t); });
  if (!chart.curve) return;
  entry(words.band, [&](Point p) {
    canvas.line({p.x - t.px(10), p.y}, {p.x + t.px(10), p.y}, {t.palette.accent, t.px(2.5)});
  });
}

constexpr double heat_row = 28, heat_column = 78, heat_steps = 330, heat_head = 50;
constexpr double heat_steps_most = 620;

// A name over its column, the first of its words on a line of its own: many share one.
void draw_name(Canvas& canvas, const std::string& name, const Theme& t, double x, double y) {
  const double size = t.size(TextSize::label), room = t.px(heat_column) - t.px(6);
  const auto space = name.find(' ');
  const auto put = [&](const std::string& text, double at) {
    canvas.text({x + t.px(heat_column) / 2, at}, shorten(canvas, text, room, size),
                label(t, Align::centre, t.palette.ink));
  };
  if (space == std::string::npos) return put(name, y + t.px(heat_head) / 2);
  put(name.substr(0, space), y + t.px(heat_head) * 0.28);
  put(name.substr(space + 1), y + t.px(heat_head) * 0.70);
}

}  // namespace

void draw_curve(Canvas& canvas, const CurveChart& chart, const ReviewWords& words, const Theme& t,
                const Box& box) {
  const double right =
      canvas.measure(words.ready_from + " 85", t.size(TextSize::label), Weight::regular).width +
      t.px(16);
  Plot plot{
      {box.x + t.px(46), box.y + t.px(28), box.width - t.px(46) - right, box.height - t.px(88)}, 1};
  plot.drills = static_cast<double>(std::max<std::size_t>(
      {1, chart.totals.size(), chart.curve ? chart.curve->points.size() : 0}));
  draw_scale(canvas, plot, words, t);
  if (chart.curve) draw_band(canvas, plot, *chart.curve, t);
  std::vector<Point> marks;
  for (std::size_t i = 0; i < chart.totals.size(); ++i)
    marks.push_back({plot.x(static_cast<double>(i + 1)), plot.y(chart.totals[i])});
  if (!chart.curve) canvas.polyline(marks, {t.palette.edge_strong, t.px(1)});
  for (std::size_t i = 0; i < marks.size(); ++i) draw_mark(canvas, marks[i], chart.ready[i], t);
  draw_curve_key(canvas, chart, words, t, {box.x + t.px(46), box.bottom() - t.px(16)});
}

double heat_height(const HeatMap& map, const Theme& t) {
  return t.px(heat_head) + t.px(heat_row) * static_cast<double>(map.steps.size());
}

double heat_width(const HeatMap& map, const Theme& t) {
  return t.px(heat_steps) + t.px(heat_column) * static_cast<double>(map.trainees.size());
}

int heat_columns(const Theme& t, double width) {
  const double room = width - std::min(t.px(heat_steps), width * 0.65);
  return std::max(1, static_cast<int>((room + 0.5) / t.px(heat_column)));
}

std::size_t heat_rows(const Theme& t, double height) {
  const double room = height - t.px(heat_head) + 0.5;
  return room < t.px(heat_row) ? 1 : static_cast<std::size_t>(room / t.px(heat_row));
}

// One hue, from pale to full: it is an amount. Text stays dark on all of it.
Colour heat_colour(const HeatMap::Cell& cell) {
  if (cell.attempts == 0) return nothing;
  const double share = static_cast<double>(cell.passed) / cell.attempts;
  return blend(
      okabe_ito::bluish_green.with_alpha(static_cast<std::uint8_t>(std::lround(20 + 140 * share))),
      Colour::hex(0xFFFFFF));
}

std::string heat_text(const HeatMap::Cell& cell) {
  if (cell.attempts == 0) return "–";
  return std::to_string(cell.passed) + "/" + std::to_string(cell.attempts) +
         (cell.competent ? " ✓" : "");
}

void draw_heat(Canvas& canvas, const HeatMap& map, const HeatView& view, const ReviewWords&,
               const Theme& t, const Box& box) {
  const auto& c = t.palette;
  const Clip clip(canvas, box);
  // Steps take the room that the trainees leave.
  const double shown = static_cast<double>(map.trainees.size() - view.first_column);
  const double free = std::min(t.px(heat_steps_most), box.width - t.px(heat_column) * shown);
  const double left = box.x + std::max(std::min(t.px(heat_steps), box.width * 0.65), free);
  const double size = t.size(TextSize::label);
  for (std::size_t col = view.first_column; col < map.trainees.size(); ++col) {
    const double x = left + t.px(heat_column) * static_cast<double>(col - view.first_column);
    if (x + t.px(heat_column) > box.right() + 0.5) break;
    draw_name(canvas, map.trainees[col], t, x, box.y);
  }
  for (std::size_t row = view.first_row; row < map.steps.size(); ++row) {
    const double y =
        box.y + t.px(heat_head) + t.px(heat_row) * static_cast<double>(row - view.first_row);
    if (y + t.px(heat_row) > box.bottom() + 0.5) break;
    const auto& title = row < view.step_titles.size() ? view.step_titles[row] : map.steps[row];
    canvas.text({box.x + t.px(4), y + t.px(heat_row) / 2},
                shorten(canvas, title, left - box.x - t.px(12), size),
                label(t, Align::left, c.ink));
    for (std::size_t col = view.first_column; col < map.trainees.size(); ++col) {
      const double x = left + t.px(heat_column) * static_cast<double>(col - view.first_column);
      if (x + t.px(heat_column) > box.right() + 0.5) break;
      const auto& cell = map.cells[row][col];
      canvas.rectangle(Box{x, y, t.px(heat_column), t.px(heat_row)}.inset(t.px(1)),
                       {heat_colour(cell), {c.edge, t.px(1)}}, t.px(3));
      canvas.text({x + t.px(heat_column) / 2, y + t.px(heat_row) / 2}, heat_text(cell),
                  label(t, Align::centre, cell.attempts == 0 ? c.ink_soft : c.ink));
    }
  }
}

}  // namespace beforehand::picture
