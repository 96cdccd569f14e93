// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "picture/report_parts.hpp"

#include <fmt/format.h>

#include "picture/chart_words.hpp"
#include "picture/svg_canvas.hpp"

namespace beforehand::picture {
namespace {

constexpr double page_width = 1120;

}  // namespace

HtmlPage::Figure activity_figure(const ActivityChart& chart, const std::string& description,
                                 HtmlPage::Table figures, const Strings& t, Ms to) {
  auto view = whole(chart);
  view.words = chart_words(t);
  if (to != never) view.to = to;
  const double height = chart_height(SvgCanvas(1, 1, ""), chart, view, Theme{}, page_width);
  const auto draw = [=](Canvas& canvas) {
    draw_chart(canvas, chart, view, Theme{}, {0, 0, page_width, height});
  };
  return {chart.title, description, page_width, height, draw, std::move(figures)};
}

HtmlPage::Figure interval_figure(const IntervalChart& chart, const std::string& title,
                                 const std::string& description, HtmlPage::Table figures) {
  const double height = interval_height(SvgCanvas(1, 1, ""), chart, Theme{}, page_width);
  const auto draw = [=](Canvas& canvas) {
    draw_intervals(canvas, chart, Theme{}, {0, 0, page_width, height});
  };
  return {title, description, page_width, height, draw, std::move(figures)};
}

HtmlPage::Figure spread_figure(const SpreadChart& chart, const std::string& title,
                               const std::string& description, HtmlPage::Table figures) {
  const double height = spread_height(SvgCanvas(1, 1, ""), chart, Theme{}, page_width);
  const auto draw = [=](Canvas& canvas) {
    draw_spread(canvas, chart, Theme{}, {0, 0, page_width, height});
  };
  return {title, description, page_width, height, draw, std::move(figures)};
}

std::string plan_words(const timing::Plan& plan, const Strings& t) {
  if (!plan.found()) return t("report.plan.none");
  return t("report.plan",
           {duration_text(plan.chair_time),
            plan.chair_time_proven ? t("report.plan.proven")
                                   : t("report.plan.found", {duration_text(plan.lower_bound)}),
            duration_text(plan.clinician_wait)});
}

std::string measure_text(double value, study::Measure m) {
  const bool seconds = m != study::Measure::requests && m != study::Measure::total;
  return number_text(value, m == study::Measure::requests ? 2 : 1) + (seconds ? " s" : "");
}

std::string interval_words(const study::Interval& i, const Strings& t) {
  return t("report.to", {number_text(i.low, 1), number_text(i.high, 1)});
}

std::string measure_words(study::Measure m, const Strings& t) {
  return t("measure." + std::string(key(m)));
}

}  // namespace beforehand::picture
