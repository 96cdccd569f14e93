// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "picture/report_study.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "picture/plan_chart.hpp"
#include "picture/report_parts.hpp"
#include "picture/report_words.hpp"

namespace beforehand::picture {
namespace {

using procedure::Procedure;
using study::Comparison;
using study::Measure;

std::string titled(const Procedure& p) {
  return p.card.empty() ? p.title : fmt::format("{} ({})", p.title, p.card_title);
}

HtmlPage::Table spread_table(const std::vector<Simulated>& all, Measure m, const Strings& t) {
  HtmlPage::Table table{
      measure_words(m, t),
      {t("report.study.assistant"), t("report.study.mean"), t("report.study.sure"),
       t("report.study.least"), "5 %", t("report.study.median"), "95 %", t("report.study.most")},
      {},
      1};
  for (const auto& one : all) {
    const auto s = one.simulation.summary(m);
    table.rows.push_back({one.assistant, measure_text(s.mean, m), interval_words(s.mean_sure, t),
                          measure_text(s.least, m), measure_text(s.quantiles[0].value, m),
                          measure_text(s.median().value, m), measure_text(s.quantiles[4].value, m),
                          measure_text(s.most, m)});
  }
  return table;
}

HtmlPage::Figure measure_figure(const std::vector<Simulated>& all, Measure m, const Strings& t) {
  SpreadChart chart;
  const bool seconds = m != Measure::requests && m != Measure::total;
  chart.unit = seconds ? "s" : m == Measure::total ? t("report.study.of-100") : "";
  for (const auto& one : all)
    chart.rows.push_back(spread_row(one.assistant, one.simulation.summary(m), seconds ? " s" : ""));
  return spread_figure(chart, measure_words(m, t), t("report.study.spread.about"),
                       spread_table(all, m, t));
}

HtmlPage::Table waiting_table(const Procedure& p, const Simulated& one, const Strings& t) {
  HtmlPage::Table table{t("report.study.waits.table", {one.assistant}),
                        texts(t, "report.study.",
                              {"begin", "debrief.column.for", "mean-all", "waited-in", "asked-in"}),
                        {},
                        2};
  auto waiting = one.simulation.waiting;
  std::stable_sort(waiting.begin(), waiting.end(),
                   [](const auto& a, const auto& b) { return a.wait > b.wait; });
  const auto runs = static_cast<double>(one.simulation.outcomes.size());
  for (const auto& w : waiting)
    if (w.waited > 0)
      table.rows.push_back({p.step(w.step).title, p.step(w.from).title,
                            number_text(to_seconds(w.wait) / runs, 2) + " s",
                            percent_text(static_cast<double>(w.waited) / runs),
                            percent_text(static_cast<double>(w.asked) / runs)});
  return table;
}

HtmlPage::Table plan_table(const ComparedPlan& side, const Strings& t) {
  const auto& p = side.procedure;
  HtmlPage::Table table{t("report.plan.table"),
                        texts(t, "report.plan.", {"report.step", "by", "begins", "ends"}),
                        {},
                        2};
  std::vector<std::size_t> order;
  for (std::size_t i = 0; i < side.plan.steps.size(); ++i)
    if (side.plan.steps[i].happens()) order.push_back(i);
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return side.plan.steps[a].start < side.plan.steps[b].start;
  });
  for (const auto i : order) {
    const auto& s = side.plan.steps[i];
    table.rows.push_back(
        {p.steps[i].title, p.person(s.by).name, seconds_text(s.start), seconds_text(s.end)});
  }
  return table;
}

void write_plan(HtmlPage& page, const char* name, const ComparedPlan& side, Ms to,
                const Strings& t) {
  if (!side.plan.found()) return page.paragraph(t("report.plan.no", {name}));
  auto chart = plan_chart(side.procedure, side.plan,
                          timing::explain(side.procedure, timing::PlanRequest{}, side.plan));
  chart.title = fmt::format("{}: {}", name, titled(side.procedure));
  page.figure(activity_figure(chart, t("report.plan.about", {plan_words(side.plan, t)}),
                              plan_table(side, t), t, to));
}

HtmlPage::Table difference_table(const Comparison& c, const Strings& t) {
  const auto sure = t("report.study.sure");
  HtmlPage::Table table{t("report.compare.means"),
                        {t("report.compare.what"), "A", "B", t("protocols.difference"), sure,
                         t("protocols.better"), sure},
                        {},
                        1};
  const auto range = [&](double from, double to, const char* format) {
    return t("report.to",
             {fmt::format(fmt::runtime(format), from), fmt::format(fmt::runtime(format), to)});
  };
  for (const auto& d : c.differences)
    table.rows.push_back(
        {measure_words(d.measure, t), measure_text(d.a.mean, d.measure),
         measure_text(d.b.mean, d.measure), fmt::format("{:+.2f}", d.b_less_a.mean),
         range(d.b_less_a.mean_sure.low, d.b_less_a.mean_sure.high, "{:+.2f}"),
         percent_text(d.b_better),
         range(100 * d.b_better_sure.low, 100 * d.b_better_sure.high, "{:.0f}") + " %"});
  return table;
}

HtmlPage::Table share_table(const Comparison& c, const Strings& t) {
  HtmlPage::Table table{
      t("report.compare.steps.table"),
      {t("report.step"), t("report.compare.in", {"A"}), t("report.compare.in", {"B"}),
       t("report.compare.waiting", {"A"}), t("report.compare.waiting", {"B"}),
       t("protocols.difference"), t("report.study.sure")},
      {},
      1};
  for (const auto& s : c.steps)
    table.rows.push_back({s.step.empty() ? t("protocols.steps.rest") : s.title,
                          s.in_a ? number_text(s.a_s, 1) : "–",
                          s.in_b ? number_text(s.b_s, 1) : "–", number_text(s.a_before_s, 1),
                          number_text(s.b_before_s, 1), fmt::format("{:+.1f}", s.b_less_a_s),
                          interval_words(s.sure, t)});
  return table;
}

std::string comparison_verdict(const Comparison& c, const Strings& t) {
  const auto& d = c[Measure::chair_time].b_less_a;
  if (d.mean_sure.low <= 0 && d.mean_sure.high >= 0) return t("report.compare.verdict.open");
  const bool b = d.mean < 0;
  return t("report.compare.verdict", {b ? "B" : "A", number_text(b ? -d.mean : d.mean, 1),
                                      number_text(b ? -d.mean_sure.high : d.mean_sure.low, 1),
                                      number_text(b ? -d.mean_sure.low : d.mean_sure.high, 1)});
}

StepWords step_chart_words(const Strings& t) {
  const auto only = [&](const char* side) { return " " + t("protocols.only", {side}); };
  return {t("protocols.steps.below"), t("protocols.steps.above"), t("protocols.steps.rest"),
          only("A"), only("B")};
}

std::string runs_words(const Comparison& c, const std::string& assistant, const Strings& t) {
  return t(c.runs < c.wanted ? "protocols.runs.stopped" : "protocols.runs",
           {std::to_string(c.runs), assistant});
}

HtmlPage::Table gain_table(const study::Improvements& all, const IntervalChart& chart,
                           const Strings& t) {
  HtmlPage::Table table{
      t("report.improve.table"),
      texts(t, "report.improve.",
            {"change", "report.kind", "first", "plan", "played", "report.study.sure"}),
      {},
      3};
  for (const auto& one : all.found) {
    const auto& sure = one.chair_time.b_less_a.mean_sure;
    const auto plan = seconds_text(one.plan_gain);
    table.rows.push_back(
        {chart.rows[table.rows.size()].label,
         t("report.improve." + std::string(word(one.change.kind))), one.change.caution,
         one.plan_proven ? plan : t("report.improve.unproven", {plan}),
         number_text(one.gain_s(), 2), interval_words({-sure.high, -sure.low}, t)});
  }
  return table;
}

}  // namespace

std::string simulation_report(const Procedure& p, const std::vector<Simulated>& all,
                              std::uint64_t seed, const Strings& t) {
  const auto title = t("report.study.runs", {titled(p)});
  HtmlPage page(t, title);
  page.heading(1, title);
  for (const auto& one : all) {
    const auto runs = one.simulation.outcomes.size();
    page.paragraph(t("report.study.by", {one.assistant, std::to_string(runs), std::to_string(seed),
                                         std::to_string(seed + runs - 1)}));
  }
  page.paragraph(t("report.study.limits"));
  page.cautions(p.cautions);
  for (const auto m : study::measures) page.figure(measure_figure(all, m, t));
  page.heading(2, t("report.study.waits"));
  for (const auto& one : all) {
    const auto table = waiting_table(p, one, t);
    if (table.rows.empty())
      page.paragraph(t("report.study.waits.none", {one.assistant}));
    else
      page.table(table);
  }
  return page.str();
}

std::string comparison_report(const ComparedPlan& a, const ComparedPlan& b, const Comparison& c,
                              const std::string& assistant, const Strings& t) {
  HtmlPage page(t, t("report.compare", {titled(a.procedure), titled(b.procedure)}));
  page.heading(1, t("protocols.title"));
  page.list({fmt::format("A: {}, {}", titled(a.procedure), plan_words(a.plan, t)),
             fmt::format("B: {}, {}", titled(b.procedure), plan_words(b.plan, t))});
  page.strong(comparison_verdict(c, t));
  page.paragraph(runs_words(c, assistant, t));
  page.paragraph(t("report.study.limits"));
  page.cautions(b.procedure.cautions);
  page.heading(2, t("report.compare.differs"));
  page.table(difference_table(c, t));
  const auto chart = step_chart(c, step_chart_words(t));
  if (!chart.rows.empty())
    page.figure(interval_figure(chart, t("protocols.steps"), t("report.compare.steps.about"),
                                share_table(c, t)));
  page.heading(2, t("protocols.plans"));
  const Ms to = std::max(a.plan.chair_time, b.plan.chair_time) * 105 / 100;
  write_plan(page, "A", a, to, t);
  write_plan(page, "B", b, to, t);
  return page.str();
}

std::string improvement_report(const study::Planned& now, const study::Improvements& all,
                               const std::string& assistant, const Strings& t) {
  const auto title = t("report.improve", {now.procedure.title});
  HtmlPage page(t, title);
  page.heading(1, title);
  page.paragraph(t("report.improve.now", {plan_words(now.plan, t)}));
  page.paragraph(
      t("report.improve.about", {std::to_string(all.looked_at), std::to_string(all.possible),
                                 std::to_string(all.unsound), assistant}));
  page.paragraph(t("report.study.limits"));
  page.cautions(now.procedure.cautions);
  if (all.found.empty()) {
    page.strong(t("report.improve.none"));
    return page.str();
  }
  const auto chart = gain_chart(all, t("report.improve.longer"), t("report.improve.saved"));
  page.figure(interval_figure(chart, t("report.improve.chart"), t("report.improve.chart.about"),
                              gain_table(all, chart, t)));
  return page.str();
}

}  // namespace beforehand::picture
