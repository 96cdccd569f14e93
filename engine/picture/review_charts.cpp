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
                    const Theme& t, Point at, double room) {
  const auto style = label(t, Align::left, t.palette.ink);
  const auto width = [&](const std::string& text) {
    return t.px(26) + canvas.measure(text, style.size, Weight::regular).width;
  };
  const double all = width(words.ready) + width(words.other) + width(words.band);
  const double gap = std::clamp((room - all) / 2, t.px(6), t.px(24));
  const auto entry = [&](const std::string& text, auto&& mark) {
    mark(Point{at.x + t.px(10), at.y});
    canvas.text({at.x + t.px(26), at.y}, text, style);
    at.x += width(text) + gap;
  };
  entry(words.ready, [&](Point p) { draw_mark(canvas, p, true, t); });
  entry(words.other, [&](Point p) { draw_mark(canvas, p, false, t); });
  if (!chart.curve) return;
  entry(words.band, [&](Point p) {
    canvas.line({p.x - t.px(10), p.y}, {p.x + t.px(10), p.y}, {t.palette.accent, t.px(2.5)});
  });
}

constexpr double heat_row = 28, heat_high_row = 44, heat_column = 78, heat_column_most = 210,
                 heat_steps = 330, heat_head = 66;
constexpr std::size_t heat_name_lines = 3;
constexpr double heat_steps_most = 620, heat_line = 1.2;

double row_height(const Theme& t, bool high) { return t.px(high ? heat_high_row : heat_row); }

double head_height(const Theme& t, const HeatView& view) {
  const auto more = std::max(view.name_lines, heat_name_lines) - heat_name_lines;
  return t.px(heat_head) + static_cast<double>(more) * heat_line * t.size(TextSize::label);
}

// A name in lines; a long one is broken behind its hyphens too.
std::vector<std::string> name_lines(const Canvas& canvas, std::string name, const Theme& t,
                                    double width) {
  for (auto at = name.find('-'); at != std::string::npos; at = name.find('-', at + 1))
    name.insert(at + 1, " ");
  return wrap(canvas, name, width - t.px(8), t.size(TextSize::label));
}

// Over its column, as low as it can be.
void draw_name(Canvas& canvas, const std::string& name, const Theme& t, const Box& box) {
  const double line = t.size(TextSize::label) * heat_line;
  const auto lines = name_lines(canvas, name, t, box.width);
  double y = box.bottom() - t.px(4) - line * (static_cast<double>(lines.size()) - 0.5);
  for (const auto& text : lines) {
    canvas.text({box.centre().x, y}, text, label(t, Align::centre, t.palette.ink));
    y += line;
  }
}

// As wide as the names need, where the steps leave so much.
double column_width(const Canvas& canvas, const HeatMap& map, const HeatView& view, const Theme& t,
                    double room) {
  const auto shown = static_cast<double>(map.trainees.size() - view.first_column);
  const double most = std::min(t.px(heat_column_most), room / std::max(1.0, shown));
  const auto fits = [&](double width) {
    return std::all_of(map.trainees.begin(), map.trainees.end(), [&](const auto& name) {
      return name_lines(canvas, name, t, width).size() <= heat_name_lines;
    });
  };
  double width = t.px(heat_column);
  while (width + t.px(6) <= most && !fits(width)) width += t.px(6);
  return width;
}

void draw_title(Canvas& canvas, const std::string& title, const Theme& t, const Box& box) {
  const auto style = label(t, Align::left, t.palette.ink);
  const double used = std::min(box.height, paragraph_height(canvas, title, box.width, style.size));
  paragraph(canvas, {box.x, box.centre().y - used / 2, box.width, used}, title, style);
}

double least_steps(const Theme& t, double width) {
  return std::min(t.px(heat_steps), width * 0.65);
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
  draw_curve_key(canvas, chart, words, t, {box.x, box.bottom() - t.px(16)}, box.width);
}

double heat_height(const HeatMap& map, const HeatView& view, const Theme& t) {
  return head_height(t, view) + row_height(t, view.high) * static_cast<double>(map.steps.size());
}

double heat_width(const HeatMap& map, const Theme& t) {
  return t.px(heat_steps) + t.px(heat_column) * static_cast<double>(map.trainees.size());
}

int heat_columns(const Theme& t, double width) {
  const double room = width - least_steps(t, width);
  return std::max(1, static_cast<int>((room + 0.5) / t.px(heat_column)));
}

std::size_t heat_rows(const Theme& t, double height, const HeatView& view) {
  const double room = height - head_height(t, view) + 0.5, row = row_height(t, view.high);
  return room < row ? 1 : static_cast<std::size_t>(room / row);
}

// Steps take the room that the trainees leave, as far as they need it.
double heat_titles(const Canvas& canvas, const HeatMap& map, const HeatView& view, const Theme& t,
                   double width) {
  double needed = 0;
  for (const auto& title : view.step_titles)
    needed = std::max(needed, canvas.measure(title, t.size(TextSize::label), {}).width + t.px(20));
  const auto shown = static_cast<double>(map.trainees.size() - view.first_column);
  const double free = std::min(t.px(heat_steps_most), width - t.px(heat_column) * shown);
  return std::max(least_steps(t, width), std::min(needed, free)) - t.px(12);
}

HeatView heat_fitted(const Canvas& canvas, const HeatMap& map, HeatView view, const Theme& t,
                     double width) {
  const double titles = heat_titles(canvas, map, view, t, width);
  view.high = std::any_of(view.step_titles.begin(), view.step_titles.end(), [&](const auto& title) {
    return canvas.measure(title, t.size(TextSize::label), {}).width > titles;
  });
  const double wide = column_width(canvas, map, view, t, width - titles - t.px(12));
  for (std::size_t i = view.first_column; i < map.trainees.size(); ++i)
    view.name_lines =
        std::max(view.name_lines, name_lines(canvas, map.trainees[i], t, wide).size());
  return view;
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
  const double titles = heat_titles(canvas, map, view, t, box.width),
               left = box.x + titles + t.px(12);
  const double wide = column_width(canvas, map, view, t, box.right() - left);
  const double high = row_height(t, view.high), head = head_height(t, view);
  const auto column = [&](std::size_t i) {
    return left + wide * static_cast<double>(i - view.first_column);
  };
  for (std::size_t i = view.first_column; i < map.trainees.size(); ++i) {
    if (column(i) + wide > box.right() + 0.5) break;
    draw_name(canvas, map.trainees[i], t, {column(i), box.y, wide, head});
  }
  for (std::size_t row = view.first_row; row < map.steps.size(); ++row) {
    const double y = box.y + head + high * static_cast<double>(row - view.first_row);
    if (y + high > box.bottom() + 0.5) break;
    draw_title(canvas, row < view.step_titles.size() ? view.step_titles[row] : map.steps[row], t,
               {box.x + t.px(4), y, titles, high});
    for (std::size_t i = view.first_column; i < map.trainees.size(); ++i) {
      const Box cell_box{column(i), y, wide, high};
      if (cell_box.right() > box.right() + 0.5) break;
      const auto& cell = map.cells[row][i];
      canvas.rectangle(cell_box.inset(t.px(1)), {heat_colour(cell), {c.edge, t.px(1)}}, t.px(3));
      canvas.text(cell_box.centre(), heat_text(cell),
                  label(t, Align::centre, cell.attempts == 0 ? c.ink_soft : c.ink));
    }
  }
}

}  // namespace beforehand::picture
