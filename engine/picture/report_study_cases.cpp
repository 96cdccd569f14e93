// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include <fmt/format.h>

#include <algorithm>

#include "picture/case_chart.hpp"
#include "picture/chart_build.hpp"
#include "picture/plan_chart.hpp"
#include "picture/report_parts.hpp"
#include "picture/report_study.hpp"
#include "picture/report_words.hpp"

namespace beforehand::picture {
namespace {

using procedure::Procedure;
using study::CaseFigures;

HtmlPage::Table case_time_table(const std::vector<std::string>& names,
                                const std::vector<scoring::TimeSplit>& time, const Strings& t) {
  HtmlPage::Table table{
      t("report.time.table"),
      texts(t, "report.time.",
            {"person", "work", "cover", "waiting", "standby", "avoidable", "busy"}),
      {},
      1};
  for (std::size_t i = 0; i < names.size(); ++i)
    table.rows.push_back({names[i], seconds_text(time[i].work), seconds_text(time[i].cover),
                          seconds_text(time[i].waiting), seconds_text(time[i].standby),
                          seconds_text(time[i].avoidable), percent_text(time[i].utilisation())});
  return table;
}

void write_order(HtmlPage& page, const CaseFigures& c, const Procedure& p, const Strings& t) {
  page.paragraph(t("observe.order", {std::to_string(c.order.kept), std::to_string(c.order.actions),
                                     std::to_string(c.order.steps)}));
  std::vector<std::string> list;
  const auto tell = [&](const char* what, const std::vector<std::size_t>& which) {
    for (const auto i : which)
      list.push_back(t(what, {clock_text(c.work[i].start), c.work[i].label}));
  };
  tell("observe.out_of_order", c.out_of_order);
  tell("observe.repeated", c.repeated);
  tell("observe.extra", c.extra);
  for (const auto s : c.omitted) list.push_back(t("observe.omitted", {p.step(s).title}));
  for (const auto& l : c.lags)
    list.push_back(t(l.off < Ms{0} ? "observe.too_soon" : "observe.too_late",
                     {p.step(l.step).title, p.step(l.before).title,
                      duration_text(l.off < Ms{0} ? -l.off : l.off)}));
  if (!list.empty()) page.list(list);
}

void write_case(HtmlPage& page, const CaseFigures& c, const std::string& name, const Procedure* p,
                const Strings& t) {
  page.heading(2, name);
  page.facts({{t("compare.chair"), duration_text(c.chair_time)},
              {t("measure.both_idle_s"), duration_text(c.both_idle)}});
  page.figure(activity_figure(case_chart(c, name), t("report.cases.about"),
                              case_time_table(c.lanes, c.time, t), t));
  std::vector<std::string> waits;
  for (const auto& a : c.apart)
    if (a.waiting)
      waits.push_back(t("observe.wait", {clock_text(a.from), c.lanes[a.lane],
                                         duration_text(a.to - a.from), a.for_what}));
  if (!waits.empty()) page.list(waits);
  if (c.checked && p != nullptr) write_order(page, c, *p, t);
}

std::string far_out(const study::ObservedStep& o, const Strings& t) {
  std::string out;
  for (const auto& d : o.seen)
    if (d.outlier)
      out +=
          (out.empty() ? "" : ", ") + t("report.cases.far.one", {seconds_text(d.takes), d.in_case});
  return out.empty() ? "–" : out;
}

void write_durations(HtmlPage& page, const std::vector<study::ObservedStep>& steps,
                     const Procedure& p, const Strings& t) {
  page.heading(2, t("report.cases.durations"));
  HtmlPage::Table table{t("report.cases.durations.table"),
                        texts(t, "report.cases.",
                              {"report.step", "seen", "report.study.least", "usual",
                               "report.study.most", "between", "confidence", "next", "far"}),
                        {},
                        1};
  for (const auto& o : steps) {
    const bool many = o.seen.size() > 1;
    table.rows.push_back({p.step(o.step).title, std::to_string(o.seen.size()),
                          seconds_text(o.estimate.least), seconds_text(o.estimate.usual),
                          seconds_text(o.estimate.most),
                          many ? interval_words(o.usual_sure_s, t) : "–",
                          many ? percent_text(o.usual_confidence) : "–",
                          many ? percent_text(o.next_within) : "–", far_out(o, t)});
  }
  page.table(table);
}

// A list, or the words for an empty one.
void write_list(HtmlPage& page, const std::vector<std::string>& items, const std::string& none) {
  if (items.empty())
    page.paragraph(none);
  else
    page.list(items);
}

void write_waits(HtmlPage& page, const study::TeamDebrief& told, const Procedure& p,
                 const Strings& t) {
  page.heading(2, t("observe.waits"));
  std::vector<std::string> waits;
  for (const auto& w : told.waits) {
    const auto words = t(w.asked ? "rehearse.wait.asked" : "rehearse.wait",
                         {clock_text(w.at), duration_text(w.wait), p.step(w.step).title,
                          p.person(w.for_whom).name, p.step(w.from).title, p.person(w.who).name});
    waits.push_back(w.why.empty() ? words : words + ". " + w.why);
  }
  write_list(page, waits, t("rehearse.nobody"));
  page.heading(2, t("measure.both_idle_s"));
  std::vector<std::string> idle;
  for (const auto& n : told.nobody_busy)
    idle.push_back(t("rehearse.from_to", {clock_text(n.from), clock_text(n.to)}));
  write_list(page, idle, t("report.team.never"));
}

void write_hand_overs(HtmlPage& page, const study::TeamDebrief& told, const Procedure& p,
                      const Strings& t) {
  page.heading(2, t("report.team.hand-overs"));
  HtmlPage::Table table{t("report.team.hand-overs.table"),
                        texts(t, "report.",
                              {"report.compare.what", "debrief.column.for", "report.plan.by",
                               "report.team.at", "report.needs.how"}),
                        {},
                        1000};
  for (const auto& h : told.hand_overs)
    table.rows.push_back({p.step(h.from).title, p.step(h.step).title, p.person(h.by).name,
                          clock_text(h.at),
                          t(h.unasked ? "report.how.unasked" : "report.how.not-unasked")});
  page.table(table);
}

}  // namespace

std::string observation_report(const std::vector<CaseFigures>& cases,
                               const std::vector<std::string>& names, const Procedure* protocol,
                               const std::vector<study::ObservedStep>& steps, const Strings& t) {
  const auto title =
      protocol == nullptr ? t("report.cases") : t("report.cases.of", {protocol->title});
  HtmlPage page(t, title);
  page.heading(1, title);
  page.paragraph(t("report.cases.limits"));
  if (protocol != nullptr) page.cautions(protocol->cautions);
  for (std::size_t i = 0; i < cases.size(); ++i) write_case(page, cases[i], names[i], protocol, t);
  if (protocol != nullptr && !steps.empty()) write_durations(page, steps, *protocol, t);
  return page.str();
}

std::string team_report(const Procedure& p, const drill::Session& session, const timing::Plan* plan,
                        const Strings& t) {
  const auto told = study::team_debrief(p, session);
  const auto title = t("report.team", {p.title});
  HtmlPage page(t, title);
  page.heading(1, title);
  page.cautions(p.cautions);
  page.facts(
      {{t("compare.chair"), duration_text(told.score.chair_time)},
       {t("compare.wait"), duration_text(told.score.clinician_wait)},
       {t("measure.both_idle_s"), duration_text(told.both_idle)},
       {t("report.team.unasked"),
        t("compare.of", {std::to_string(told.unasked), std::to_string(told.hand_overs.size())})}});
  std::vector<std::string> names;
  for (std::size_t i = 0; i < p.people.size(); ++i) {
    names.push_back(p.people[i].name);
    page.heading(2, t("rehearse.change", {names.back()}));
    write_list(page, told.change[i], t("rehearse.change.nothing"));
  }
  auto chart = played_chart(p, session, told.score, t);
  if (plan != nullptr && plan->found()) add_planned(chart, p, *plan);
  chart.title = t("report.chart");
  page.figure(activity_figure(chart, t("report.team.chart.about"),
                              case_time_table(names, told.score.time, t), t));
  write_waits(page, told, p, t);
  write_hand_overs(page, told, p, t);
  return page.str();
}

}  // namespace beforehand::picture
