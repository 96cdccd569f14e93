// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include <fmt/format.h>

#include <algorithm>

#include "picture/html_page.hpp"
#include "picture/report.hpp"
#include "picture/report_words.hpp"
#include "picture/review_words.hpp"

namespace beforehand::picture {

namespace {

using procedure::Procedure;
using records::ScenarioReview;
using records::TraineeFile;

std::string part_of(const Procedure& p, const std::string& phase, const Strings& t) {
  if (phase.empty()) return t("report.sessions.whole");
  const auto at = std::find_if(p.phases.begin(), p.phases.end(),
                               [&](const auto& one) { return one.id == phase; });
  return at == p.phases.end() ? phase : at->title;
}

HtmlPage::Table session_table(const Procedure& p, const ScenarioReview& r, const Strings& t) {
  HtmlPage::Table table{t("report.sessions.table", {r.title}),
                        texts(t, "report.sessions.",
                              {"drill", "report.level", "part", "report.verdict", "compare.total",
                               "compare.anticipation", "compare.idle", "compare.sequence",
                               "compare.requests", "compare.errors"}),
                        {},
                        4};
  for (auto s = r.sessions.rbegin(); s != r.sessions.rend(); ++s)
    table.rows.push_back(
        {records::minute_text(s->started), level_words(s->level, t), part_of(p, s->phase, t),
         s->complete ? verdict_words(s->verdict, t) : t("review.drill.interrupted"),
         number_text(s->total, 1), percent_text(s->anticipation), percent_text(s->idle),
         percent_text(s->sequence), std::to_string(s->requests), std::to_string(s->errors)});
  return table;
}

HtmlPage::Table curve_table(const ScenarioReview& r, const Strings& t) {
  HtmlPage::Table table{
      t("report.curve.table", {r.title}),
      texts(t, "report.curve.",
            {"drill", "when", "report.verdict", "compare.total", "fitted", "from", "to"}),
      {},
      3};
  for (const auto& s : r.counted) {
    const auto i = table.rows.size();
    std::vector<std::string> row{std::to_string(i + 1), records::minute_text(s.started),
                                 verdict_words(s.verdict, t), number_text(s.total, 1)};
    for (int k = 0; k < 3; ++k) row.emplace_back("–");
    if (r.curve) {
      const auto& point = r.curve->points[i];
      row[4] = number_text(point.value, 1);
      row[5] = number_text(point.low, 1);
      row[6] = number_text(point.high, 1);
    }
    table.rows.push_back(std::move(row));
  }
  return table;
}

HtmlPage::Figure curve_figure(const ScenarioReview& r, const Strings& t) {
  CurveChart chart;
  for (const auto& s : r.counted) {
    chart.totals.push_back(s.total);
    chart.ready.push_back(s.verdict == scoring::Verdict::ready);
  }
  chart.curve = r.curve;
  HtmlPage::Figure f;
  f.title = t("report.curve", {r.title});
  f.description = t("report.curve.about",
                    {std::to_string(chart.totals.size()), number_text(chart.totals.front(), 0),
                     number_text(chart.totals.back(), 0),
                     r.curve ? law_words(*r.curve, t) : t("report.curve.few")});
  f.width = 1000;
  f.height = 380;
  f.draw = [chart, words = review_words(t)](Canvas& canvas) {
    draw_curve(canvas, chart, words, Theme{}, {0, 0, 1000, 380});
  };
  f.figures = curve_table(r, t);
  return f;
}

HtmlPage::Table step_table(const ScenarioReview& r, const Strings& t) {
  HtmlPage::Table table{
      t("report.steps.table", {r.title}),
      texts(t, "report.steps.",
            {"report.step", "report.severity", "evidence", "lately", "interval", "attempts"}),
      {},
      3};
  for (const auto& s : r.steps) {
    const bool tried = s.standing.attempts > 0;
    table.rows.push_back(
        {s.title, severity_words(s.severity, t), evidence_words(s.standing, t),
         share_words(s.recent_passed, s.recent, t),
         tried ? fmt::format("{:.0f}–{:.0f} %", 100 * s.share.low, 100 * s.share.high) : "–",
         std::to_string(s.standing.attempts)});
  }
  return table;
}

void write_next(HtmlPage& page, const Procedure& p, const ScenarioReview& r, const Strings& t) {
  page.heading(3, t("review.next"));
  if (r.next.empty()) {
    page.paragraph(t("review.next.none"));
    return;
  }
  std::vector<std::string> items;
  for (std::size_t i = 0; i < std::min<std::size_t>(3, r.next.size()); ++i)
    items.push_back(p.phases[r.next[i].phase.at()].title + ": " + reason_words(p, r.next[i], t));
  page.list(items);
}

void write_scenario(HtmlPage& page, const Procedure& p, const ScenarioReview& r, const Strings& t) {
  page.heading(2, r.title);
  const auto& last = r.sessions.back();
  double best = 0;
  for (const auto& s : r.counted) best = std::max(best, s.total);
  page.facts(
      {{t("review.column.standing"), readiness_words(r.readiness, t)},
       {t("report.drills"), std::to_string(r.sessions.size())},
       {t("report.whole-drills"), std::to_string(r.counted.size())},
       {t("report.last-total"), r.counted.empty() ? "–" : number_text(r.counted.back().total, 1)},
       {t("report.best-total"), r.counted.empty() ? "–" : number_text(best, 1)},
       {t("report.last-drill"), records::day_text(last.started)}});
  if (std::any_of(r.sessions.begin(), r.sessions.end(), [](const auto& s) { return s.unsafe; }))
    page.strong(t("report.trainee.unsafe"));
  write_next(page, p, r, t);
  if (!r.counted.empty()) page.figure(curve_figure(r, t));
  if (r.curve) page.paragraph(law_words(*r.curve, t));
  page.table(step_table(r, t));
  page.table(session_table(p, r, t));
  page.heading(3, t("report.trainee.cautions"));
  page.list(p.cautions);
}

void write_sign_offs(HtmlPage& page, const TraineeFile& f, const Strings& t) {
  page.heading(2, t("review.sign-offs"));
  if (f.sign_offs.empty()) page.paragraph(t("review.sign-offs.none"));
  for (const auto& s : f.sign_offs) {
    const auto review = std::find_if(f.scenarios.begin(), f.scenarios.end(),
                                     [&](const auto& r) { return r.scenario == s.scenario; });
    const auto& scenario = review == f.scenarios.end() ? s.scenario : review->title;
    auto text = t("report.sign-off", {scenario, s.trainer_name, records::day_text(s.at), s.note});
    if (!s.stands())
      text += " " + t("review.revoked", {records::day_text(s.revoked_at), s.revoked_why});
    page.paragraph(text);
    if (!s.criteria.empty()) page.kept(s.criteria);
  }
}

void write_unread(HtmlPage& page, const std::vector<std::string>& scenarios, const Strings& t) {
  if (scenarios.empty()) return;
  std::string all;
  for (const auto& id : scenarios) all += (all.empty() ? "" : ", ") + id;
  page.strong(t("report.trainee.unread", {all}));
}

}  // namespace

std::string trainee_report(const TraineeFile& f, const Strings& t) {
  const auto title = t("report.trainee", {f.trainee.name});
  HtmlPage page(t, title);
  page.heading(1, title);
  page.paragraph(t("report.trainee.as-of", {records::minute_text(f.now), f.trainee.id}));
  page.cautions({});
  const bool empty = f.scenarios.empty() && f.unread.empty();
  page.paragraph(empty ? t("report.trainee.empty") : test_words(t));
  for (std::size_t i = 0; i < f.scenarios.size(); ++i)
    write_scenario(page, *f.procedures[i], f.scenarios[i], t);
  write_unread(page, f.unread, t);
  write_sign_offs(page, f, t);
  if (!f.notes.empty()) {
    page.heading(2, t("review.notes"));
    for (const auto& n : f.notes) page.paragraph(records::day_text(n.at) + ": " + n.text);
  }
  return page.str();
}

}  // namespace beforehand::picture
