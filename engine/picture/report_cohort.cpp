// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include <fmt/format.h>

#include <algorithm>

#include "picture/html_page.hpp"
#include "picture/report.hpp"
#include "picture/report_words.hpp"
#include "picture/review_words.hpp"
#include "picture/svg_canvas.hpp"

namespace beforehand::picture {

namespace {

using records::CohortFile;
using records::CohortScenario;
using records::HeatMap;
using records::Readiness;

// More columns than this do not fit a sheet of paper; the rest goes into the next picture.
constexpr std::size_t trainees_a_picture = 10;

HtmlPage::Table cohort_table(const CohortScenario& s, const Strings& t) {
  HtmlPage::Table table{t("report.class.table", {s.title}),
                        texts(t, "review.column.",
                              {"trainee", "standing", "verdict", "due", "last", "best", "trend",
                               "drills", "report.class.passes", "report.class.unsafe"}),
                        {},
                        4};
  for (std::size_t i = 0; i < s.summaries.size(); ++i) {
    const auto& x = s.summaries[i];
    const auto ready = s.readiness[i];
    const bool played = x.completed > 0;
    table.rows.push_back(
        {x.trainee_name, readiness_words(ready, t), played ? verdict_words(x.last_verdict, t) : "–",
         played ? records::day_text(due(x, ready)) : "–", played ? number_text(x.last, 1) : "–",
         played ? number_text(x.best, 1) : "–", played ? fmt::format("{:+.1f}", x.trend) : "–",
         std::to_string(x.sessions), std::to_string(x.assessed_passes),
         std::to_string(x.unsafe_acts)});
  }
  return table;
}

HtmlPage::Figure heat_figure(const CohortScenario& s, std::size_t from, std::size_t to,
                             const Strings& t) {
  const HeatMap map = records::heat_map({s.summaries.begin() + static_cast<std::ptrdiff_t>(from),
                                         s.summaries.begin() + static_cast<std::ptrdiff_t>(to)});
  const std::vector<std::string> range{s.title, std::to_string(from + 1), std::to_string(to)};
  HeatView view;
  HtmlPage::Figure f;
  f.title = t("report.heat", range);
  f.description = t("report.heat.about", {std::to_string(records::looked_back)});
  f.figures = {t("report.heat.table", range), {t("report.step")}, {}, 1};
  for (const auto& name : map.trainees) f.figures.head.push_back(name);
  for (std::size_t row = 0; row < map.steps.size(); ++row) {
    const auto title = s.step_titles.find(map.steps[row]);
    view.step_titles.push_back(title == s.step_titles.end() ? map.steps[row] : title->second);
    std::vector<std::string> cells{view.step_titles.back()};
    for (const auto& cell : map.cells[row]) cells.push_back(heat_text(cell));
    f.figures.rows.push_back(std::move(cells));
  }
  const Theme theme;
  f.width = heat_width(map, theme) + 4;
  view = heat_fitted(SvgCanvas(1, 1, "ruler"), map, view, theme, f.width);
  f.height = heat_height(map, view, theme) + 4;
  f.draw = [=, words = review_words(t), box = Box{0, 0, f.width, f.height}](Canvas& canvas) {
    draw_heat(canvas, map, view, words, theme, box);
  };
  return f;
}

void write_scenario(HtmlPage& page, const CohortScenario& s, const Strings& t) {
  page.heading(2, s.title);
  const auto n = [&](Readiness r) {
    return std::to_string(std::count(s.readiness.begin(), s.readiness.end(), r));
  };
  std::vector<std::pair<std::string, std::string>> facts{
      {t("report.class.trainees"), std::to_string(s.summaries.size())}};
  for (const auto r : {Readiness::signed_off, Readiness::evidence, Readiness::practising})
    facts.emplace_back(readiness_words(r, t), n(r));
  page.facts(facts);
  page.table(cohort_table(s, t));
  if (records::heat_map(s.summaries).steps.empty()) return page.paragraph(t("report.class.guided"));
  for (std::size_t from = 0; from < s.summaries.size(); from += trainees_a_picture)
    page.figure(heat_figure(s, from, std::min(from + trainees_a_picture, s.summaries.size()), t));
}

}  // namespace

std::string cohort_report(const CohortFile& f, const Strings& t) {
  HtmlPage page(t, t("report.class"));
  page.heading(1, t("report.class"));
  page.paragraph(t("report.as-of", {records::minute_text(f.now)}));
  page.cautions({});
  page.paragraph(f.scenarios.empty() ? t("report.class.empty") : test_words(t));
  for (const auto& s : f.scenarios) write_scenario(page, s, t);
  return page.str();
}

}  // namespace beforehand::picture
