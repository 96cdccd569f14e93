// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include <fmt/format.h>

#include <algorithm>

#include "base/text.hpp"
#include "picture/html_page.hpp"
#include "picture/report.hpp"
#include "picture/report_words.hpp"
#include "picture/review_charts.hpp"

namespace beforehand::picture {

namespace {

using procedure::Procedure;
using records::ScenarioReview;
using records::TraineeFile;

HtmlPage::Table session_table(const ScenarioReview& r) {
  HtmlPage::Table t{"Every drill, the newest first: " + r.title,
                    {"Drill (UTC)", "Level", "Part", "Verdict", "Total", "Anticipation",
                     "Use of time", "Sequence", "Requests", "Errors"},
                    {},
                    4};
  for (auto s = r.sessions.rbegin(); s != r.sessions.rend(); ++s)
    t.rows.push_back({records::minute_text(s->started), std::string(drill::word(s->level)),
                      s->phase.empty() ? "whole" : s->phase,
                      s->complete ? verdict_text(s->verdict) : "interrupted",
                      number_text(s->total, 1), percent_text(s->anticipation),
                      percent_text(s->idle), percent_text(s->sequence), std::to_string(s->requests),
                      std::to_string(s->errors)});
  return t;
}

HtmlPage::Figure curve_figure(const ScenarioReview& r) {
  CurveChart chart;
  HtmlPage::Figure f;
  f.figures = {"The curve, drill by drill: " + r.title,
               {"Drill", "When (UTC)", "Verdict", "Total", "Fitted", "Band from", "Band to"},
               {},
               3};
  for (const auto& s : r.counted) {
    const auto i = chart.totals.size();
    chart.totals.push_back(s.total);
    chart.ready.push_back(s.verdict == scoring::Verdict::ready);
    std::vector<std::string> row{std::to_string(i + 1), records::minute_text(s.started),
                                 verdict_text(s.verdict), number_text(s.total, 1)};
    for (int k = 0; k < 3; ++k) row.emplace_back("–");
    if (r.curve) {
      const auto& point = r.curve->points[i];
      row[4] = number_text(point.value, 1);
      row[5] = number_text(point.low, 1);
      row[6] = number_text(point.high, 1);
    }
    f.figures.rows.push_back(std::move(row));
  }
  chart.curve = r.curve;
  f.title = "Learning curve: " + r.title;
  f.description = fmt::format(
      "Totals of {} whole drills in order, the first {:.0f} and the last "
      "{:.0f} of 100. {}",
      chart.totals.size(), chart.totals.front(), chart.totals.back(),
      r.curve ? law_text(*r.curve) : "Too few drills to fit a law.");
  f.width = 1000;
  f.height = 380;
  f.draw = [chart](Canvas& canvas) { draw_curve(canvas, chart, {}, Theme{}, {0, 0, 1000, 380}); };
  return f;
}

HtmlPage::Table step_table(const ScenarioReview& r) {
  HtmlPage::Table t{"Step by step (right, ready in time, without error, unasked): " + r.title,
                    {"Step", "Severity", "Evidence", "Lately", "95 % interval", "Attempts"},
                    {},
                    3};
  for (const auto& s : r.steps) {
    const bool tried = s.standing.attempts > 0;
    t.rows.push_back(
        {s.title, std::string(procedure::word(s.severity)),
         tried ? standing_text(s.standing) : "not tried", share_text(s.recent_passed, s.recent),
         tried ? fmt::format("{:.0f}–{:.0f} %", 100 * s.share.low, 100 * s.share.high) : "–",
         std::to_string(s.standing.attempts)});
  }
  return t;
}

void write_next(HtmlPage& page, const Procedure& p, const ScenarioReview& r) {
  page.heading(3, "Practise next");
  if (r.next.empty()) {
    page.paragraph("No step is weak or forgotten. A whole drill keeps it so.");
    return;
  }
  std::vector<std::string> items;
  for (std::size_t i = 0; i < std::min<std::size_t>(3, r.next.size()); ++i)
    items.push_back(p.phases[r.next[i].phase.at()].title + ": " + reason(p, r.next[i]));
  page.list(items);
}

void write_scenario(HtmlPage& page, const Procedure& p, const ScenarioReview& r) {
  page.heading(2, r.title);
  const auto& last = r.sessions.back();
  double best = 0;
  for (const auto& s : r.counted) best = std::max(best, s.total);
  page.facts({{"Standing", std::string(word(r.readiness))},
              {"Drills", std::to_string(r.sessions.size())},
              {"Whole drills", std::to_string(r.counted.size())},
              {"Last total", r.counted.empty() ? "–" : number_text(r.counted.back().total, 1)},
              {"Best total", r.counted.empty() ? "–" : number_text(best, 1)},
              {"Last drill", records::day_text(last.started)}});
  if (std::any_of(r.sessions.begin(), r.sessions.end(), [](const auto& s) { return s.unsafe; }))
    page.strong("At least one of these drills had an unsafe act.");
  write_next(page, p, r);
  if (!r.counted.empty()) page.figure(curve_figure(r));
  if (r.curve) page.paragraph(law_text(*r.curve));
  page.table(step_table(r));
  page.table(session_table(r));
  page.heading(3, "Cautions of this scenario");
  page.list(p.cautions);
}

void write_sign_offs(HtmlPage& page, const TraineeFile& f) {
  page.heading(2, "Sign-offs");
  if (f.sign_offs.empty()) page.paragraph("None.");
  for (const auto& s : f.sign_offs) {
    auto text = fmt::format("{}: signed off by {} on {}. {}", s.scenario, s.trainer_name,
                            records::day_text(s.at), s.note);
    if (!s.stands())
      text += fmt::format(" Revoked on {}: {}", records::day_text(s.revoked_at), s.revoked_why);
    page.paragraph(text);
    if (!s.criteria.empty()) page.paragraph(s.criteria);
  }
}

}  // namespace

std::string trainee_report(const TraineeFile& f) {
  HtmlPage page("en", "Training record: " + f.trainee.name);
  page.heading(1, "Training record: " + f.trainee.name);
  page.paragraph(
      fmt::format("As of {} (UTC). Trainee {}.", records::minute_text(f.now), f.trainee.id));
  page.cautions({});
  if (f.scenarios.empty() && f.unread.empty())
    page.paragraph("No drill is in the store yet. Play one with this trainee's name to begin.");
  else
    page.paragraph(test_text());
  for (std::size_t i = 0; i < f.scenarios.size(); ++i)
    write_scenario(page, *f.procedures[i], f.scenarios[i]);
  if (!f.unread.empty())
    page.strong("Not shown, because this version of the program cannot read their scenario: " +
                list_text(f.unread) + ".");
  write_sign_offs(page, f);
  if (!f.notes.empty()) {
    page.heading(2, "Notes");
    for (const auto& n : f.notes) page.paragraph(records::day_text(n.at) + ": " + n.text);
  }
  return page.str();
}

}  // namespace beforehand::picture
