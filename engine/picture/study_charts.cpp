// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "picture/study_charts.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "picture/svg_canvas.hpp"
#include "picture/text.hpp"

namespace beforehand::picture {
namespace {

constexpr double row_height = 34, foot = 34, head = 28;
constexpr double label_part = 0.34, beside_label = 12;  // of the width; units

double label_room(const Theme& t, double width) { return width * label_part - t.px(beside_label); }

// Rows are alike; as high as the longest label needs.
template <class Chart>
double row_of(const Canvas& canvas, const Chart& chart, const Theme& t, double width) {
  double most = t.px(row_height);
  for (const auto& row : chart.rows)
    most = std::max(most, t.px(10) + paragraph_height(canvas, row.label, label_room(t, width),
                                                      t.size(TextSize::label)));
  return most;
}

TextStyle style_of(const Theme& t, Align align, Colour colour) {
  TextStyle s;
  s.size = t.size(TextSize::label);
  s.colour = colour;
  s.align = align;
  s.level = Level::middle;
  return s;
}

/// Values from low to high on a box's width, with labels left of it and figures right of it.
class Rows {
 public:
  Rows(Canvas& canvas, const Theme& t, const Box& box, double row, double low, double high,
       double top)
      : canvas_(canvas), t_(t), box_(box), row_(row), low_(low), high_(high) {
    const double label = box.width * label_part, text = std::min(t.px(230), box.width * 0.24);
    plot_ = {box.x + label, box.y + top, box.width - label - text, box.height - top - t.px(foot)};
  }

  const Box& plot() const { return plot_; }
  double x(double value) const { return plot_.x + plot_.width * (value - low_) / (high_ - low_); }
  double y(std::size_t row) const { return plot_.y + row_ * (static_cast<double>(row) + 0.5); }

  void draw_scale(const std::string& unit) const {
    const auto& c = t_.palette;
    canvas_.rectangle(plot_, {c.well, {c.edge, t_.px(1)}});
    const double step = nice_step();
    for (double v = std::ceil(low_ / step) * step; v <= high_ + step / 1000; v += step) {
      canvas_.line({x(v), plot_.y}, {x(v), plot_.bottom()}, {c.edge, t_.px(1)});
      const auto text = fmt::format("{:g}", std::abs(v) < step / 1000 ? 0 : v);
      canvas_.text({x(v), plot_.bottom() + t_.px(16)}, text,
                   style_of(t_, Align::centre, c.ink_soft));
    }
    canvas_.text({plot_.right() + t_.px(24), plot_.bottom() + t_.px(16)}, unit,
                 style_of(t_, Align::left, c.ink_soft));
  }

  void draw_words(std::size_t row, const std::string& label, const std::string& text) const {
    const auto style = style_of(t_, Align::right, t_.palette.ink);
    const double room = label_room(t_, box_.width),
                 high = paragraph_height(canvas_, label, room, style.size);
    paragraph(canvas_, {box_.x, y(row) - high / 2, room, high + 1}, label, style);
    canvas_.text({plot_.right() + t_.px(12), y(row)}, text,
                 style_of(t_, Align::left, t_.palette.ink));
  }

 private:
  double nice_step() const {  // 1, 2 or 5 times a power of ten, a mark every 70 units or more
    const double least = (high_ - low_) / std::max(1.0, plot_.width / t_.px(70));
    const double power = std::pow(10, std::floor(std::log10(least)));
    for (const double m : {1.0, 2.0, 5.0})
      if (m * power >= least) return m * power;
    return 10 * power;
  }

  Canvas& canvas_;
  const Theme& t_;
  Box box_, plot_;
  double row_, low_, high_;
};

}  // namespace

IntervalChart step_chart(const study::Comparison& c, const StepWords& words, std::size_t most) {
  IntervalChart chart{words.below, words.above, "s", {}};
  for (const auto& s : c.steps) {
    if (std::abs(s.b_less_a_s) < 0.05 || chart.rows.size() == most) break;
    const std::string where = s.in_a == s.in_b ? "" : s.in_a ? words.only_in_a : words.only_in_b;
    chart.rows.push_back({(s.step.empty() ? words.rest : s.title) + where, s.b_less_a_s, s.sure.low,
                          s.sure.high, fmt::format("{:+.1f} s", s.b_less_a_s)});
  }
  return chart;
}

IntervalChart gain_chart(const study::Improvements& all, const std::string& longer,
                         const std::string& saved) {
  IntervalChart chart{longer, saved, "s", {}};
  chart.less_is_better = false;
  for (const auto& one : all.found) {
    const auto& sure = one.chair_time.b_less_a.mean_sure;
    chart.rows.push_back(
        {fmt::format("{}. {}", chart.rows.size() + 1, one.change.words), one.gain_s(), -sure.high,
         -sure.low,
         fmt::format("{:.1f} s; plan {:.1f} s", one.gain_s(), to_seconds(one.plan_gain))});
  }
  return chart;
}

std::string gains_svg(const study::Improvements& all, const std::string& title) {
  const auto chart = gain_chart(all);
  const double width = 1120, height = interval_height(SvgCanvas(1, 1, "ruler"), chart, {}, width);
  SvgCanvas canvas(width, height, "Chair time saved: " + title,
                   "For each change the seconds saved on average, with the 95 % interval");
  draw_intervals(canvas, chart, Theme{}, {0, 0, width, height});
  return canvas.str();
}

SpreadChart::Row spread_row(const std::string& label, const study::Summary& s,
                            const std::string& unit) {
  const auto& q = s.quantiles;
  return {label,
          s.least,
          q[0].value,
          q[1].value,
          q[2].value,
          q[3].value,
          q[4].value,
          s.most,
          fmt::format("{:.1f}{} ({:.1f}–{:.1f})", q[2].value, unit, q[0].value, q[4].value)};
}

double interval_height(const Canvas& canvas, const IntervalChart& chart, const Theme& t,
                       double width) {
  return t.px(head + foot) +
         row_of(canvas, chart, t, width) * static_cast<double>(chart.rows.size());
}

void draw_intervals(Canvas& canvas, const IntervalChart& chart, const Theme& t, const Box& box) {
  double low = 0, high = 0;
  for (const auto& row : chart.rows) {
    low = std::min({low, row.value, row.low});
    high = std::max({high, row.value, row.high});
  }
  const double room = std::max(0.5, (high - low) * 0.06);
  const Rows rows(canvas, t, box, row_of(canvas, chart, t, box.width), low - room, high + room,
                  t.px(head));
  const auto& c = t.palette;
  const double zero = rows.x(0), above = rows.plot().y - t.px(14);
  rows.draw_scale(chart.unit);
  canvas.line({zero, rows.plot().y - t.px(4)}, {zero, rows.plot().bottom()}, {c.ink, t.px(2)});
  const auto side = [&](const std::string& words, Align align, double x) {
    canvas.text({x, above}, words, style_of(t, align, c.ink_soft));
  };
  if (zero - rows.plot().x > t.px(120)) side("← " + chart.below, Align::right, zero - t.px(10));
  if (rows.plot().right() - zero > t.px(120))
    side(chart.above + " →", Align::left, zero + t.px(10));
  for (std::size_t i = 0; i < chart.rows.size(); ++i) {
    const auto& row = chart.rows[i];
    const double y = rows.y(i);
    const Colour colour =
        (row.value < 0) == chart.less_is_better ? okabe_ito::blue : okabe_ito::vermillion;
    rows.draw_words(i, row.label, row.text);
    canvas.line({zero, y}, {rows.x(row.value), y},
                {colour.with_alpha(row.sure() ? 255 : 90), t.px(8)});
    canvas.line({rows.x(row.low), y}, {rows.x(row.high), y}, {c.ink, t.px(2)});
    for (const double end : {row.low, row.high})
      canvas.line({rows.x(end), y - t.px(6)}, {rows.x(end), y + t.px(6)}, {c.ink, t.px(2)});
    canvas.circle({rows.x(row.value), y}, t.px(5),
                  {row.sure() ? colour : c.card, {c.ink, t.px(1.5)}});
  }
}

double spread_height(const Canvas& canvas, const SpreadChart& chart, const Theme& t, double width) {
  return t.px(foot) + row_of(canvas, chart, t, width) * static_cast<double>(chart.rows.size());
}

void draw_spread(Canvas& canvas, const SpreadChart& chart, const Theme& t, const Box& box) {
  if (chart.rows.empty()) return;
  double low = chart.rows.front().least, high = chart.rows.front().most;
  for (const auto& row : chart.rows) {
    low = std::min(low, row.least);
    high = std::max(high, row.most);
  }
  const double room = std::max(0.5, (high - low) * 0.04);
  const Rows rows(canvas, t, box, row_of(canvas, chart, t, box.width), low - room, high + room, 0);
  const auto& c = t.palette;
  rows.draw_scale(chart.unit);
  for (std::size_t i = 0; i < chart.rows.size(); ++i) {
    const auto& row = chart.rows[i];
    const double y = rows.y(i), half = t.px(9), thin = t.px(3);
    rows.draw_words(i, row.label, row.text);
    canvas.line({rows.x(row.least), y}, {rows.x(row.most), y}, {c.ink_soft, t.px(1.5)});
    canvas.rectangle({rows.x(row.p5), y - thin, rows.x(row.p95) - rows.x(row.p5), 2 * thin},
                     {okabe_ito::sky_blue, {c.ink, t.px(1)}});
    canvas.rectangle({rows.x(row.p25), y - half, rows.x(row.p75) - rows.x(row.p25), 2 * half},
                     {okabe_ito::sky_blue, {c.ink, t.px(1)}}, t.px(2));
    canvas.line({rows.x(row.median), y - half}, {rows.x(row.median), y + half}, {c.ink, t.px(3)});
  }
}

}  // namespace beforehand::picture
