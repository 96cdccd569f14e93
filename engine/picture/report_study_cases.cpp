// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include <fmt/format.h>

#include <algorithm>

#include "picture/case_chart.hpp"
#include "picture/chart_build.hpp"
#include "picture/plan_chart.hpp"
#include "picture/report_parts.hpp"
#include "picture/report_study.hpp"

namespace beforehand::picture {
namespace {

using procedure::Procedure;
using study::CaseFigures;

constexpr const char* case_limits =
    "Who waited for whom is guessed from times alone: a gap that ended as somebody else's work "
    "did. "
    "Materials' own instructions, the law on delegated duties and the clinician's direction come "
    "first.";

HtmlPage::Table time_table(const std::vector<std::string>& names,
                           const std::vector<scoring::TimeSplit>& time) {
  HtmlPage::Table t{"How the time went, in seconds",
                    {"Person", "Work", "Cover", "Waiting", "Standing by", "Avoidable", "Busy"},
                    {},
                    1};
  for (std::size_t i = 0; i < names.size(); ++i)
    t.rows.push_back({names[i], seconds_text(time[i].work), seconds_text(time[i].cover),
                      seconds_text(time[i].waiting), seconds_text(time[i].standby),
                      seconds_text(time[i].avoidable), percent_text(time[i].utilisation())});
  return t;
}

void write_order(HtmlPage& page, const CaseFigures& c, const Procedure& p) {
  page.paragraph(
      fmt::format("{} of {} pieces of work stand in an order that the protocol of {} "
                  "steps allows.",
                  c.order.kept, c.order.actions, c.order.steps));
  std::vector<std::string> list;
  const auto tell = [&](const char* what, const std::vector<std::size_t>& which) {
    for (const auto i : which)
      list.push_back(fmt::format("{}: {}: {}", clock_text(c.work[i].start), what, c.work[i].label));
  };
  tell("out of order", c.out_of_order);
  tell("once more", c.repeated);
  tell("not in the protocol", c.extra);
  for (const auto s : c.omitted) list.push_back("not seen: " + p.step(s).title);
  for (const auto& l : c.lags)
    list.push_back(fmt::format("\"{}\" came {} too {} after \"{}\"", p.step(l.step).title,
                               duration_text(l.off < Ms{0} ? -l.off : l.off),
                               l.off < Ms{0} ? "soon" : "late", p.step(l.before).title));
  if (!list.empty()) page.list(list);
}

void write_case(HtmlPage& page, const CaseFigures& c, const std::string& name, const Procedure* p) {
  page.heading(2, name);
  page.facts({{"Chair time", duration_text(c.chair_time)},
              {"Nobody at work", duration_text(c.both_idle)}});
  page.figure(activity_figure(case_chart(c, name), "A lane for each person, as it was timed.",
                              time_table(c.lanes, c.time)));
  std::vector<std::string> waits;
  for (const auto& a : c.apart)
    if (a.waiting)
      waits.push_back(fmt::format("{}: {} waited {} for \"{}\"", clock_text(a.from),
                                  c.lanes[a.lane], duration_text(a.to - a.from), a.for_what));
  if (!waits.empty()) page.list(waits);
  if (c.checked && p != nullptr) write_order(page, c, *p);
}

void write_durations(HtmlPage& page, const std::vector<study::ObservedStep>& steps,
                     const Procedure& p) {
  page.heading(2, "How long the steps took");
  HtmlPage::Table t{"By step, in seconds; far out: beyond Tukey's fences, shown and not dropped",
                    {"Step", "Seen", "Least", "Usual", "Most", "Usual lies between", "Sure",
                     "Next within", "Far out"},
                    {},
                    1};
  for (const auto& o : steps) {
    std::string out;
    for (const auto& d : o.seen)
      if (d.outlier)
        out += fmt::format("{}{} in {}", out.empty() ? "" : ", ", seconds_text(d.takes), d.in_case);
    const bool many = o.seen.size() > 1;
    t.rows.push_back({p.step(o.step).title, std::to_string(o.seen.size()),
                      seconds_text(o.estimate.least), seconds_text(o.estimate.usual),
                      seconds_text(o.estimate.most), many ? interval_text(o.usual_sure_s, "") : "–",
                      many ? percent_text(o.usual_confidence) : "–",
                      many ? percent_text(o.next_within) : "–", out.empty() ? "–" : out});
  }
  page.table(t);
}

}  // namespace

std::string observation_report(const std::vector<CaseFigures>& cases,
                               const std::vector<std::string>& names, const Procedure* protocol,
                               const std::vector<study::ObservedStep>& steps) {
  const auto title = protocol == nullptr ? std::string("Timed cases")
                                         : fmt::format("Timed cases: {}", protocol->title);
  HtmlPage page("en", title);
  page.heading(1, title);
  page.paragraph(case_limits);
  if (protocol != nullptr) page.cautions(protocol->cautions);
  for (std::size_t i = 0; i < cases.size(); ++i) write_case(page, cases[i], names[i], protocol);
  if (protocol != nullptr && !steps.empty()) write_durations(page, steps, *protocol);
  return page.str();
}

std::string team_report(const Procedure& p, const drill::Session& session,
                        const timing::Plan* plan) {
  const auto told = study::team_debrief(p, session);
  HtmlPage page("en", fmt::format("Rehearsal: {}", p.title));
  page.heading(1, fmt::format("Rehearsal: {}", p.title));
  page.cautions(p.cautions);
  page.facts({{"Chair time", duration_text(told.score.chair_time)},
              {"Clinician waited", duration_text(told.score.clinician_wait)},
              {"Nobody at work", duration_text(told.both_idle)},
              {"Unasked", fmt::format("{} of {}", told.unasked, told.hand_overs.size())}});
  for (std::size_t i = 0; i < p.people.size(); ++i) {
    page.heading(2, "To change: " + p.people[i].name);
    if (told.change[i].empty())
      page.paragraph("Nothing stands out.");
    else
      page.list(told.change[i]);
  }
  auto chart = played_chart(p, session, told.score);
  if (plan != nullptr && plan->found()) add_planned(chart, p, *plan);
  chart.title = "What happened, person by person";
  std::vector<std::string> names;
  for (const auto& person : p.people) names.push_back(person.name);
  page.figure(activity_figure(chart, "A lane for each person; the plan pale below it.",
                              time_table(names, told.score.time)));
  page.heading(2, "Who waited for whom");
  std::vector<std::string> waits;
  for (const auto& w : told.waits)
    waits.push_back(fmt::format("{}: {} waited {} to begin \"{}\"{}, for {}: {}. {}",
                                clock_text(w.at), p.person(w.who).name, duration_text(w.wait),
                                p.step(w.step).title, w.asked ? " and asked" : "",
                                p.person(w.for_whom).name, p.step(w.from).title, w.why));
  if (waits.empty())
    page.paragraph("Nobody waited.");
  else
    page.list(waits);
  page.heading(2, "Nobody at work");
  std::vector<std::string> idle;
  for (const auto& n : told.nobody_busy)
    idle.push_back(fmt::format("{} to {}", clock_text(n.from), clock_text(n.to)));
  if (idle.empty())
    page.paragraph("Never for a second or longer.");
  else
    page.list(idle);
  page.heading(2, "Hand-overs");
  HtmlPage::Table t{
      "What the clinician needed of others, by time", {"What", "For", "By", "At", "How"}, {}, 1000};
  for (const auto& h : told.hand_overs)
    t.rows.push_back({p.step(h.from).title, p.step(h.step).title, p.person(h.by).name,
                      clock_text(h.at), h.unasked ? "unasked" : "asked, or done without"});
  page.table(t);
  return page.str();
}

}  // namespace beforehand::picture
