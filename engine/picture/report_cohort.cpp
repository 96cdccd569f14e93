// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include <fmt/format.h>

#include <algorithm>

#include "picture/html_page.hpp"
#include "picture/report.hpp"
#include "picture/report_words.hpp"
#include "picture/review_charts.hpp"

namespace beforehand::picture {

namespace {

using records::CohortFile;
using records::CohortScenario;
using records::HeatMap;

// More columns than this do not fit a sheet of paper; the rest goes into the next picture.
constexpr std::size_t trainees_a_picture = 10;

HtmlPage::Table cohort_table(const CohortScenario& s) {
  HtmlPage::Table t{"Who is where: " + s.title,
                    {"Trainee", "Standing", "Last verdict", "Due again", "Last", "Best", "Trend",
                     "Drills", "Assessed passes", "Unsafe"},
                    {},
                    4};
  for (std::size_t i = 0; i < s.summaries.size(); ++i) {
    const auto& x = s.summaries[i];
    const auto ready = s.readiness[i];
    const bool played = x.completed > 0;
    t.rows.push_back({x.trainee_name, std::string(word(ready)),
                      played ? verdict_text(x.last_verdict) : "–",
                      played ? records::day_text(due(x, ready)) : "–",
                      played ? number_text(x.last, 1) : "–", played ? number_text(x.best, 1) : "–",
                      played ? fmt::format("{:+.1f}", x.trend) : "–", std::to_string(x.sessions),
                      std::to_string(x.assessed_passes), std::to_string(x.unsafe_acts)});
  }
  return t;
}

HtmlPage::Figure heat_figure(const CohortScenario& s, std::size_t from, std::size_t to) {
  const HeatMap map = records::heat_map({s.summaries.begin() + static_cast<std::ptrdiff_t>(from),
                                         s.summaries.begin() + static_cast<std::ptrdiff_t>(to)});
  HeatView view;
  HtmlPage::Figure f;
  f.title = fmt::format("Steps by trainee: {}, trainees {} to {}", s.title, from + 1, to);
  f.description = fmt::format(
      "Each cell says how many of the last {} attempts at a step were right, ready in time, "
      "without "
      "error and unasked; the darker, the more. A tick: the evidence is complete.",
      records::looked_back);
  f.figures = {
      fmt::format("Right of the last attempts: {}, trainees {} to {}", s.title, from + 1, to),
      {"Step"},
      {},
      1};
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
  f.height = heat_height(map, theme) + 4;
  f.draw = [=, box = Box{0, 0, f.width, f.height}](Canvas& canvas) {
    draw_heat(canvas, map, view, {}, theme, box);
  };
  return f;
}

}  // namespace

std::string cohort_report(const CohortFile& f) {
  HtmlPage page("en", "Training records of the class");
  page.heading(1, "Training records of the class");
  page.paragraph(fmt::format("As of {} (UTC).", records::minute_text(f.now)));
  page.cautions({});
  if (f.scenarios.empty())
    page.paragraph("No drill is in the store yet. Play one with a trainee's name to begin.");
  else
    page.paragraph(test_text());
  for (const auto& s : f.scenarios) {
    page.heading(2, s.title);
    const auto n = [&](records::Readiness r) {
      return std::to_string(std::count(s.readiness.begin(), s.readiness.end(), r));
    };
    page.facts({{"Trainees", std::to_string(s.summaries.size())},
                {"Signed off", n(records::Readiness::signed_off)},
                {"Evidence complete", n(records::Readiness::evidence)},
                {"Practising", n(records::Readiness::practising)}});
    page.table(cohort_table(s));
    if (records::heat_map(s.summaries).steps.empty()) {
      page.paragraph("Only guided drills so far, whose hints tell nothing about single steps.");
      continue;
    }
    for (std::size_t from = 0; from < s.summaries.size(); from += trainees_a_picture)
      page.figure(heat_figure(s, from, std::min(from + trainees_a_picture, s.summaries.size())));
  }
  return page.str();
}

}  // namespace beforehand::picture
