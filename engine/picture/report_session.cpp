// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include <fmt/format.h>

#include <algorithm>

#include "base/text.hpp"
#include "picture/chart_build.hpp"
#include "picture/html_page.hpp"
#include "picture/report.hpp"
#include "picture/report_parts.hpp"
#include "picture/report_words.hpp"
#include "picture/review_words.hpp"
#include "procedure/title.hpp"
#include "scoring/debrief.hpp"

namespace beforehand::picture {

namespace {

using procedure::Procedure;
using records::SessionFile;
using scoring::Score;

HtmlPage::Table time_table(const Procedure& p, const Score& s, const Strings& t) {
  HtmlPage::Table table{
      t("report.time.table"),
      texts(t, "report.time.", {"person", "work", "cover", "waiting", "standby", "avoidable"}),
      {},
      1};
  for (std::size_t i = 0; i < s.time.size(); ++i) {
    const auto& x = s.time[i];
    table.rows.push_back({p.people[i].name, seconds_text(x.work), seconds_text(x.cover),
                          seconds_text(x.waiting), seconds_text(x.standby),
                          seconds_text(x.avoidable)});
  }
  return table;
}

std::string need_name(const Procedure& p, const scoring::NeedScore& n) {
  const auto& need = p.step(n.step).needs[n.need];
  if (need.supply) return p.supply(need.supply).name;
  return need.from ? p.step(need.from).title : p.step(n.step).title;
}

HtmlPage::Table need_table(const Procedure& p, const Score& s, const Strings& t) {
  HtmlPage::Table table{t("report.needs.table"),
                        texts(t, "report.needs.",
                              {"debrief.column.need", "debrief.column.for", "how", "due", "ready",
                               "lead", "compare.wait"}),
                        {},
                        3};
  for (const auto& n : s.needs) {
    const auto* how = n.helped      ? "report.how.helped"
                      : n.requested ? "report.how.asked"
                                    : "report.how.unasked";
    table.rows.push_back({need_name(p, n), p.step(n.step).title, t(how), seconds_text(n.due_at),
                          seconds_text(n.ready_at), seconds_text(n.lead()), seconds_text(n.wait)});
  }
  return table;
}

HtmlPage::Table error_table(const Score& s, const Strings& t) {
  HtmlPage::Table table{t("report.errors.table"),
                        texts(t, "report.errors.",
                              {"number", "debrief.column.at", "report.kind", "report.severity",
                               "what", "why", "instead"}),
                        {},
                        1000};
  for (const auto& e : s.errors)
    table.rows.push_back({std::to_string(table.rows.size() + 1), clock_text(e.at),
                          t("error." + std::string(scoring::word(e.kind))),
                          severity_words(e.severity, t), e.what, e.why, e.instead});
  return table;
}

HtmlPage::Figure chart_figure(const Procedure& p, const drill::Session& session, const Score& s,
                              const Strings& t) {
  auto chart = played_chart(p, session, s, t);
  chart.title = t("report.chart");
  const auto about = t("report.chart.about",
                       {duration_text(s.chair_time), duration_text(s.clinician_wait),
                        duration_text(s.time[p.who(procedure::Role::assistant).at()].avoidable)});
  return activity_figure(chart, about, time_table(p, s, t), t);
}

void write_points(HtmlPage& page, const scoring::Debrief& d, const Strings& t) {
  page.heading(2, t("debrief.well"));
  if (d.well.empty())
    page.paragraph(t("report.well.none"));
  else
    page.list(d.well);
  page.heading(2, t("debrief.change"));
  if (d.change.empty()) page.paragraph(t("report.change.none"));
  for (const auto& a : d.change) {
    page.heading(3, a.change);
    page.paragraph(t("report.at", {clock_text(a.first), a.example, a.why}));
    if (!a.instead.empty()) page.paragraph(t("debrief.instead", {a.instead}));
  }
}

void write_facts(HtmlPage& page, const SessionFile& f, const Score& s, const Strings& t) {
  page.facts({{t("report.total"), number_text(s.total, 1)},
              {t("report.verdict"), verdict_words(s.verdict, t)},
              {t("compare.anticipation"), percent_text(s.anticipation)},
              {t("compare.idle"), percent_text(s.idle)},
              {t("compare.sequence"), percent_text(s.sequence)},
              {t("compare.chair"), duration_text(s.chair_time)},
              {t(s.reference_proven ? "report.reference.proven" : "report.reference.bound"),
               duration_text(s.reference_chair_time)},
              {t("compare.wait"), duration_text(s.clinician_wait)},
              {t("compare.requests"), std::to_string(s.requests)},
              {t("report.level"), level_words(f.record.level, t)}});
}

std::string player_words(const std::string& assistant, const Strings& t) {
  if (!records::counts_for_standing(assistant)) return t("report.by.bot", {assistant});
  return t("report.by." + assistant);
}

void write_head(HtmlPage& page, const SessionFile& f, const Strings& t) {
  page.paragraph(t("report.session.about",
                   {records::minute_text(f.record.started), player_words(f.record.assistant, t),
                    f.record.id, f.record.scenario_hash.substr(0, 12)}));
  if (!f.record.complete) page.strong(t("report.session.interrupted"));
  if (f.record.unsafe) page.strong(t("report.session.unsafe"));
}

}  // namespace

std::string session_report(const SessionFile& f, const Strings& t) {
  const auto& p = *f.procedure;
  const auto s =
      scoring::score(p, f.session, p.who(procedure::Role::assistant), f.record.reference);
  const auto title = fmt::format("{}: {}", procedure::full_title(p), f.trainee_name);
  HtmlPage page(t, title + ", " + records::minute_text(f.record.started));
  page.heading(1, title);
  write_head(page, f, t);
  page.cautions(p.cautions);
  write_facts(page, f, s, t);
  write_points(page, scoring::debrief(p, s), t);
  page.heading(2, t("report.drill"));
  page.figure(chart_figure(p, f.session, s, t));
  page.heading(2, t("report.needs"));
  page.table(need_table(p, s, t));
  page.heading(2, t("debrief.errors"));
  if (s.errors.empty())
    page.paragraph(t("debrief.errors.none"));
  else
    page.table(error_table(s, t));
  if (!f.around.empty()) {
    page.heading(2, t("report.around"));
    page.list(around_words(f.around, t));
  }
  return page.str();
}

}  // namespace beforehand::picture
