// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "picture/report_study.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "picture/plan_chart.hpp"
#include "picture/report_parts.hpp"

namespace beforehand::picture {
namespace {

using procedure::Procedure;
using study::Comparison;
using study::Measure;

std::string first_upper(std::string_view text) {
  std::string out(text);
  if (!out.empty() && out[0] >= 'a' && out[0] <= 'z') out[0] = static_cast<char>(out[0] - 32);
  return out;
}

constexpr const char* limits =
    "A simulation knows only what the scenario says: intervals tell how much more runs could "
    "change a figure, not how right the scenario is. Try a new way on the clock before it meets a "
    "patient; materials' own instructions, the law on delegated duties and the clinician's "
    "direction come first.";

std::string titled(const Procedure& p) {
  return p.card.empty() ? p.title : fmt::format("{} ({})", p.title, p.card_title);
}

HtmlPage::Table spread_table(const std::vector<Simulated>& all, Measure m) {
  HtmlPage::Table t{first_upper(word(m)),
                    {"Assistant", "Mean", "95 % sure", "Least", "5 %", "Median", "95 %", "Most"},
                    {},
                    1};
  for (const auto& one : all) {
    const auto s = one.simulation.summary(m);
    t.rows.push_back({one.assistant, measure_text(s.mean, m), interval_text(s.mean_sure, ""),
                      measure_text(s.least, m), measure_text(s.quantiles[0].value, m),
                      measure_text(s.median().value, m), measure_text(s.quantiles[4].value, m),
                      measure_text(s.most, m)});
  }
  return t;
}

HtmlPage::Figure measure_figure(const std::vector<Simulated>& all, Measure m) {
  SpreadChart chart;
  const bool seconds = m != Measure::requests && m != Measure::total;
  chart.unit = seconds ? "s" : m == Measure::total ? "of 100" : "";
  for (const auto& one : all)
    chart.rows.push_back(spread_row(one.assistant, one.simulation.summary(m), seconds ? " s" : ""));
  return spread_figure(chart, first_upper(word(m)),
                       "For each assistant: a thin line from the least to the most, a bar over the "
                       "middle nine tenths of the runs, a box over the middle half, the median "
                       "marked. The figures beside it are the median and the middle nine tenths.",
                       spread_table(all, m));
}

HtmlPage::Table waiting_table(const Procedure& p, const Simulated& one) {
  HtmlPage::Table t{fmt::format("Where the clinician waits, assisted by {}", one.assistant),
                    {"To begin", "For", "Mean of all runs", "Waited in", "Asked in"},
                    {},
                    2};
  auto waiting = one.simulation.waiting;
  std::stable_sort(waiting.begin(), waiting.end(),
                   [](const auto& a, const auto& b) { return a.wait > b.wait; });
  const auto runs = static_cast<double>(one.simulation.outcomes.size());
  for (const auto& w : waiting)
    if (w.waited > 0)
      t.rows.push_back({p.step(w.step).title, p.step(w.from).title,
                        number_text(to_seconds(w.wait) / runs, 2) + " s",
                        percent_text(static_cast<double>(w.waited) / runs),
                        percent_text(static_cast<double>(w.asked) / runs)});
  return t;
}

HtmlPage::Table plan_table(const ComparedPlan& side) {
  const auto& p = side.procedure;
  HtmlPage::Table t{
      "The plan, step by step, in seconds from the start", {"Step", "By", "Begins", "Ends"}, {}, 2};
  std::vector<std::size_t> order;
  for (std::size_t i = 0; i < side.plan.steps.size(); ++i)
    if (side.plan.steps[i].happens()) order.push_back(i);
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return side.plan.steps[a].start < side.plan.steps[b].start;
  });
  for (const auto i : order) {
    const auto& s = side.plan.steps[i];
    t.rows.push_back(
        {p.steps[i].title, p.person(s.by).name, seconds_text(s.start), seconds_text(s.end)});
  }
  return t;
}

void write_plan(HtmlPage& page, const char* name, const ComparedPlan& side, Ms to) {
  if (!side.plan.found()) return page.paragraph(fmt::format("{}: no plan was found.", name));
  auto chart = plan_chart(side.procedure, side.plan,
                          timing::explain(side.procedure, timing::PlanRequest{}, side.plan));
  chart.title = fmt::format("{}: {}", name, titled(side.procedure));
  page.figure(activity_figure(chart, "A lane for each person: " + plan_text(side.plan) + ".",
                              plan_table(side), to));
}

HtmlPage::Table difference_table(const Comparison& c) {
  HtmlPage::Table t{"Means, and B less A run by run",
                    {"What", "A", "B", "B less A", "95 % sure", "B better in", "95 % sure"},
                    {},
                    1};
  for (const auto& d : c.differences)
    t.rows.push_back(
        {first_upper(word(d.measure)), measure_text(d.a.mean, d.measure),
         measure_text(d.b.mean, d.measure), fmt::format("{:+.2f}", d.b_less_a.mean),
         fmt::format("{:+.2f} to {:+.2f}", d.b_less_a.mean_sure.low, d.b_less_a.mean_sure.high),
         percent_text(d.b_better),
         fmt::format("{:.0f} to {:.0f} %", 100 * d.b_better_sure.low, 100 * d.b_better_sure.high)});
  return t;
}

HtmlPage::Table share_table(const Comparison& c) {
  HtmlPage::Table t{
      "The clinician's steps, waiting before them included, in seconds",
      {"Step", "In A", "In B", "Waiting in A", "Waiting in B", "B less A", "95 % sure"},
      {},
      1};
  for (const auto& s : c.steps)
    t.rows.push_back({s.step.empty() ? "After the clinician's last step" : s.title,
                      s.in_a ? number_text(s.a_s, 1) : "–", s.in_b ? number_text(s.b_s, 1) : "–",
                      number_text(s.a_before_s, 1), number_text(s.b_before_s, 1),
                      fmt::format("{:+.1f}", s.b_less_a_s), interval_text(s.sure, "")});
  return t;
}

std::string verdict(const Comparison& c) {
  const auto& d = c[Measure::chair_time].b_less_a;
  if (d.mean_sure.low <= 0 && d.mean_sure.high >= 0)
    return "The runs do not show that either takes less chair time.";
  const bool b = d.mean < 0;
  return fmt::format(
      "{} takes {:.1f} s less chair time on average (95 % sure: {:.1f} to {:.1f} s).",
      b ? "B" : "A", b ? -d.mean : d.mean, b ? -d.mean_sure.high : d.mean_sure.low,
      b ? -d.mean_sure.low : d.mean_sure.high);
}

}  // namespace

std::string simulation_report(const Procedure& p, const std::vector<Simulated>& all,
                              std::uint64_t seed) {
  HtmlPage page("en", fmt::format("Many runs: {}", titled(p)));
  page.heading(1, fmt::format("Many runs: {}", titled(p)));
  for (const auto& one : all)
    page.paragraph(fmt::format("Assisted by {}: {} runs, seeds {} to {}.", one.assistant,
                               one.simulation.outcomes.size(), seed,
                               seed + one.simulation.outcomes.size() - 1));
  page.paragraph(limits);
  page.cautions(p.cautions);
  for (const auto m : study::measures) page.figure(measure_figure(all, m));
  page.heading(2, "Where the clinician waits");
  for (const auto& one : all) {
    const auto table = waiting_table(p, one);
    if (table.rows.empty())
      page.paragraph(fmt::format("Assisted by {}, for nothing.", one.assistant));
    else
      page.table(table);
  }
  return page.str();
}

std::string comparison_report(const ComparedPlan& a, const ComparedPlan& b, const Comparison& c,
                              const std::string& assistant) {
  const auto title = fmt::format("{} and {} compared", titled(a.procedure), titled(b.procedure));
  HtmlPage page("en", title);
  page.heading(1, "Two protocols compared");
  page.list({fmt::format("A: {}, {}", titled(a.procedure), plan_text(a.plan)),
             fmt::format("B: {}, {}", titled(b.procedure), plan_text(b.plan))});
  page.strong(verdict(c));
  page.paragraph(fmt::format(
      "{} pairs of runs with the same clinicians{}, assisted by {}.", c.runs,
      c.runs < c.wanted ? fmt::format(" (stopped; {} were wanted)", c.wanted) : "", assistant));
  page.paragraph(limits);
  page.cautions(b.procedure.cautions);
  page.heading(2, "What differs");
  page.table(difference_table(c));
  const auto chart = step_chart(c);
  if (!chart.rows.empty())
    page.figure(interval_figure(
        chart, "Which steps make the difference",
        "For each of the clinician's steps what it adds to B less A, with its 95 % interval; "
        "hollow points may be chance. Steps left of the line at zero are shorter in B.",
        share_table(c)));
  page.heading(2, "The best plan of each");
  const Ms to = std::max(a.plan.chair_time, b.plan.chair_time) * 105 / 100;
  write_plan(page, "A", a, to);
  write_plan(page, "B", b, to);
  return page.str();
}

std::string improvement_report(const study::Planned& now, const study::Improvements& all,
                               const std::string& assistant) {
  HtmlPage page("en", fmt::format("Ways to improve: {}", now.procedure.title));
  page.heading(1, fmt::format("Ways to improve: {}", now.procedure.title));
  page.paragraph("As it is: " + plan_text(now.plan) + ".");
  page.paragraph(fmt::format(
      "{} of {} changes were looked at, each alone; {} leave no sound scenario. Each plan was "
      "verified by a check that shares nothing with the search, and both ways were played by {} "
      "with the same clinicians.",
      all.looked_at, all.possible, all.unsound, assistant));
  page.paragraph(limits);
  page.cautions(now.procedure.cautions);
  if (all.found.empty()) {
    page.strong("None of them saves chair time or spares the clinician waiting.");
    return page.str();
  }
  HtmlPage::Table t{"What each change saves",
                    {"Change", "Kind", "Make sure first", "In the plan", "As played", "95 % sure"},
                    {},
                    3};
  const auto chart = gain_chart(all);
  for (const auto& one : all.found) {
    const auto& sure = one.chair_time.b_less_a.mean_sure;
    t.rows.push_back({chart.rows[t.rows.size()].label, std::string(word(one.change.kind)),
                      one.change.caution,
                      seconds_text(one.plan_gain) + (one.plan_proven ? "" : " (not proven)"),
                      number_text(one.gain_s(), 2), interval_text({-sure.high, -sure.low}, "")});
  }
  page.figure(interval_figure(chart, "Chair time saved as played",
                              "For each change the seconds of chair time it saves on average, with "
                              "the 95 % interval; hollow points may be chance.",
                              t));
  return page.str();
}

}  // namespace beforehand::picture
