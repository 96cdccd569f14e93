// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "picture/report_parts.hpp"

#include <fmt/format.h>

#include "picture/svg_canvas.hpp"

namespace beforehand::picture {
namespace {

constexpr double page_width = 1120;

}  // namespace

HtmlPage::Figure activity_figure(const ActivityChart& chart, const std::string& description,
                                 HtmlPage::Table figures, Ms to) {
  auto view = whole(chart);
  if (to != never) view.to = to;
  const double height = chart_height(SvgCanvas(1, 1, ""), chart, view, Theme{}, page_width);
  const auto draw = [=](Canvas& canvas) {
    draw_chart(canvas, chart, view, Theme{}, {0, 0, page_width, height});
  };
  return {chart.title, description, page_width, height, draw, std::move(figures)};
}

HtmlPage::Figure interval_figure(const IntervalChart& chart, const std::string& title,
                                 const std::string& description, HtmlPage::Table figures) {
  const double height = interval_height(chart, Theme{});
  const auto draw = [=](Canvas& canvas) {
    draw_intervals(canvas, chart, Theme{}, {0, 0, page_width, height});
  };
  return {title, description, page_width, height, draw, std::move(figures)};
}

HtmlPage::Figure spread_figure(const SpreadChart& chart, const std::string& title,
                               const std::string& description, HtmlPage::Table figures) {
  const double height = spread_height(chart, Theme{});
  const auto draw = [=](Canvas& canvas) {
    draw_spread(canvas, chart, Theme{}, {0, 0, page_width, height});
  };
  return {title, description, page_width, height, draw, std::move(figures)};
}

std::string plan_text(const timing::Plan& plan) {
  if (!plan.found()) return "no plan was found";
  return fmt::format("{} ({}), the clinician waits {}", duration_text(plan.chair_time),
                     plan.chair_time_proven
                         ? std::string("proven: no plan is shorter")
                         : "best found; no plan is shorter than " + duration_text(plan.lower_bound),
                     duration_text(plan.clinician_wait));
}

std::string measure_text(double value, study::Measure m) {
  const bool seconds = m != study::Measure::requests && m != study::Measure::total;
  return number_text(value, m == study::Measure::requests ? 2 : 1) + (seconds ? " s" : "");
}

std::string interval_text(const study::Interval& i, const std::string& unit) {
  return fmt::format("{:.1f} to {:.1f}{}", i.low, i.high, unit);
}

}  // namespace beforehand::picture
