// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include <fmt/format.h>

#include <algorithm>

#include "base/text.hpp"
#include "picture/chart_build.hpp"
#include "picture/html_page.hpp"
#include "picture/report.hpp"
#include "picture/report_words.hpp"
#include "picture/svg_canvas.hpp"
#include "procedure/title.hpp"
#include "scoring/debrief.hpp"

namespace beforehand::picture {

namespace {

using procedure::Procedure;
using records::SessionFile;
using scoring::Score;

HtmlPage::Table time_table(const Procedure& p, const Score& s) {
  HtmlPage::Table t{"How the time went, in seconds",
                    {"Person", "Work", "Holding", "Waiting", "Standing by", "Avoidable idle"},
                    {},
                    1};
  for (std::size_t i = 0; i < s.time.size(); ++i) {
    const auto& x = s.time[i];
    t.rows.push_back({p.people[i].name, seconds_text(x.work), seconds_text(x.cover),
                      seconds_text(x.waiting), seconds_text(x.standby), seconds_text(x.avoidable)});
  }
  return t;
}

std::string need_name(const Procedure& p, const scoring::NeedScore& n) {
  const auto& need = p.step(n.step).needs[n.need];
  if (need.supply) return p.supply(need.supply).name;
  return need.from ? p.step(need.from).title : p.step(n.step).title;
}

HtmlPage::Table need_table(const Procedure& p, const Score& s) {
  HtmlPage::Table t{"What the clinician needed, in seconds from the start",
                    {"Needed", "For", "How", "Due", "Ready", "Lead", "Clinician waited"},
                    {},
                    3};
  for (const auto& n : s.needs) {
    const std::string how = n.helped      ? "the clinician did without"
                            : n.requested ? "after being asked"
                                          : "unasked";
    t.rows.push_back({need_name(p, n), p.step(n.step).title, how, seconds_text(n.due_at),
                      seconds_text(n.ready_at), seconds_text(n.lead()), seconds_text(n.wait)});
  }
  return t;
}

HtmlPage::Table error_table(const Score& s) {
  HtmlPage::Table t{
      "Errors, numbered as in the picture",
      {"Number", "At", "Kind", "Severity", "What happened", "Why it matters", "Instead"},
      {},
      1000};
  for (const auto& e : s.errors)
    t.rows.push_back({std::to_string(t.rows.size() + 1), clock_text(e.at),
                      std::string(scoring::word(e.kind)), std::string(procedure::word(e.severity)),
                      e.what, e.why, e.instead});
  return t;
}

HtmlPage::Figure chart_figure(const Procedure& p, const drill::Session& session, const Score& s) {
  const auto chart = played_chart(p, session, s);
  const auto view = whole(chart);
  constexpr double width = 1120;
  const double height = chart_height(SvgCanvas(1, 1, ""), chart, view, Theme{}, width);
  HtmlPage::Figure f;
  f.title = "What happened, person by person";
  f.description = fmt::format(
      "A lane for each person over {} of chair time. The clinician waited {}; the trainee could "
      "have started something and did not for {}.",
      duration_text(s.chair_time), duration_text(s.clinician_wait),
      duration_text(s.time[p.who(procedure::Role::assistant).at()].avoidable));
  f.width = width;
  f.height = height;
  f.draw = [=](Canvas& canvas) { draw_chart(canvas, chart, view, Theme{}, {0, 0, width, height}); };
  f.figures = time_table(p, s);
  return f;
}

void write_points(HtmlPage& page, const scoring::Debrief& d) {
  page.heading(2, "What went well");
  if (d.well.empty())
    page.paragraph("A start was made.");
  else
    page.list(d.well);
  page.heading(2, "What to change");
  if (d.change.empty()) page.paragraph("Nothing.");
  for (const auto& a : d.change) {
    page.heading(3, a.change);
    page.paragraph(fmt::format("At {}: {} {}", clock_text(a.first), a.example, a.why));
    if (!a.instead.empty()) page.paragraph("Instead: " + a.instead);
  }
}

void write_facts(HtmlPage& page, const SessionFile& f, const Score& s) {
  page.facts({{"Total of 100", number_text(s.total, 1)},
              {"Verdict", verdict_text(s.verdict)},
              {"Anticipation", percent_text(s.anticipation)},
              {"Use of time", percent_text(s.idle)},
              {"Sequence", percent_text(s.sequence)},
              {"Chair time", duration_text(s.chair_time)},
              {s.reference_proven ? "Proven best" : "Earliest possible",
               duration_text(s.reference_chair_time)},
              {"Clinician waited", duration_text(s.clinician_wait)},
              {"Requests", std::to_string(s.requests)},
              {"Level", std::string(drill::word(f.record.level))}});
}

}  // namespace

std::string session_report(const SessionFile& f) {
  const auto& p = *f.procedure;
  const auto s =
      scoring::score(p, f.session, p.who(procedure::Role::assistant), f.record.reference);
  HtmlPage page("en", fmt::format("{}: {}, {}", procedure::full_title(p), f.trainee_name,
                                  records::minute_text(f.record.started)));
  page.heading(1, fmt::format("{}: {}", procedure::full_title(p), f.trainee_name));
  page.paragraph(fmt::format("Drill of {} (UTC), assistant: {}. Session {}, scenario version {}.",
                             records::minute_text(f.record.started), f.record.assistant,
                             f.record.id, f.record.scenario_hash.substr(0, 12)));
  if (!f.record.complete) page.strong("This drill was interrupted; it is scored up to there.");
  if (f.record.unsafe) page.strong("An unsafe act happened in this drill; see the errors.");
  page.cautions(p.cautions);
  write_facts(page, f, s);
  write_points(page, scoring::debrief(p, s));
  page.heading(2, "The drill");
  page.figure(chart_figure(p, f.session, s));
  page.heading(2, "What the clinician needed");
  page.table(need_table(p, s));
  page.heading(2, "Errors");
  if (s.errors.empty())
    page.paragraph("None.");
  else
    page.table(error_table(s));
  return page.str();
}

}  // namespace beforehand::picture
