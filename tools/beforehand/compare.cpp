// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include <fmt/format.h>

#include <cmath>
#include <cstdio>
#include <nlohmann/json.hpp>

#include "chart_svg.hpp"
#include "commands.hpp"
#include "language.hpp"
#include "picture/plan_chart.hpp"
#include "picture/report_study.hpp"
#include "planned.hpp"
#include "procedure/title.hpp"
#include "study/comparison.hpp"
#include "study_json.hpp"
#include "timing/explain.hpp"
#include "watching.hpp"

namespace beforehand::command {
namespace {

using nlohmann::ordered_json;
using procedure::Procedure;
using study::Comparison;
using study::Measure;
using timing::Plan;

constexpr std::size_t most_runs = 200'000;
constexpr double close_enough_s = 1;

struct Side {
  Procedure procedure;
  Plan plan;
};

ordered_json plan_json(const Side& s) {
  return {{"scenario", s.procedure.id},
          {"card", s.procedure.card},
          {"title", procedure::full_title(s.procedure)},
          {"plan",
           {{"chair_time_s", to_seconds(s.plan.chair_time)},
            {"lower_bound_s", to_seconds(s.plan.lower_bound)},
            {"proven", s.plan.proven()},
            {"clinician_wait_s", to_seconds(s.plan.clinician_wait)}}}};
}

ordered_json step_json(const study::StepShare& s) {
  ordered_json step;
  if (!s.step.empty()) step = s.step;
  return {{"step", step},
          {"in_a", s.in_a},
          {"in_b", s.in_b},
          {"a_s", s.a_s},
          {"b_s", s.b_s},
          {"a_before_s", s.a_before_s},
          {"b_before_s", s.b_before_s},
          {"b_less_a_s", s.b_less_a_s},
          {"b_less_a_95", interval_json(s.sure)}};
}

ordered_json as_json(const Side& a, const Side& b, const CompareOptions& o, const Comparison& c) {
  ordered_json j{{"a", plan_json(a)}, {"b", plan_json(b)}, {"assistant", o.assistant},
                 {"seed", o.seed},    {"runs", c.runs},    {"runs_wanted", c.wanted}};
  for (const auto& d : c.differences)
    j[std::string(key(d.measure))] = {{"a", summary_json(d.a)},
                                      {"b", summary_json(d.b)},
                                      {"b_less_a", summary_json(d.b_less_a)},
                                      {"b_better", d.b_better},
                                      {"b_better_95", interval_json(d.b_better_sure)}};
  j["steps"] = ordered_json::array();
  for (const auto& s : c.steps) j["steps"].push_back(step_json(s));
  return j;
}

std::string figures(const Comparison& c) {
  auto out = fmt::format("  {:<17}{:>10}{:>10}{:>24}   {}\n", "mean", "A", "B",
                         "B less A (95 % sure)", "B better in");
  for (const auto& d : c.differences) {
    const auto difference = fmt::format("{:+.2f} -+ {:.2f}{}", d.b_less_a.mean,
                                        d.b_less_a.mean_sure.half_width(), unit(d.measure));
    out += fmt::format("  {:<17}{:>10.2f}{:>10.2f}{:>24}   {:.0f} % of the runs\n", word(d.measure),
                       d.a.mean, d.b.mean, difference, 100 * d.b_better);
  }
  return out;
}

std::string verdict(const Comparison& c) {
  const auto& d = c[Measure::chair_time];
  const auto& sure = d.b_less_a.mean_sure;
  if (sure.low <= 0 && 0 <= sure.high)
    return "The runs do not show that either takes less chair time.\n";
  return fmt::format("{} takes less chair time by {:.1f} s on average ({:.1f} to {:.1f} s).\n",
                     d.b_less_a.mean < 0 ? "B" : "A", std::abs(d.b_less_a.mean),
                     std::min(std::abs(sure.low), std::abs(sure.high)),
                     std::max(std::abs(sure.low), std::abs(sure.high)));
}

std::string steps(const Comparison& c) {
  std::string out;
  for (const auto& s : c.steps) {
    if (std::abs(s.b_less_a_s) < 0.05) break;
    const bool sure = s.sure.low > 0 || s.sure.high < 0;
    const std::string where = !s.in_b ? " (only in A)" : !s.in_a ? " (only in B)" : "";
    out += fmt::format(
        "  {:>+8.2f} s{}  {}{}; standing still before it {:.1f} s in A, {:.1f} s in B\n",
        s.b_less_a_s, sure ? " " : "?",
        s.step.empty() ? "after the clinician's last step" : s.title, where, s.a_before_s,
        s.b_before_s);
  }
  return out.empty() ? "No step of the clinician makes a difference.\n"
                     : "Which of the clinician's steps make the difference in chair time, waiting "
                       "before them included\n(they add up; ?: may be chance)\n" +
                           out;
}

void print_text(const Side& a, const Side& b, const CompareOptions& o, const Comparison& c) {
  fmt::print("A  {}\n   plan: {}\nB  {}\n   plan: {}\n\n", procedure::full_title(a.procedure),
             headline(a.plan), procedure::full_title(b.procedure), headline(b.plan));
  fmt::print("Played by {} with the same clinicians: {} pairs of runs{}\n", o.assistant, c.runs,
             c.runs < c.wanted ? fmt::format(" (stopped; {} were asked for)", c.wanted) : "");
  fmt::print("{}{}\n{}", figures(c), verdict(c), steps(c));
  fmt::print(
      "\nA simulation knows only what the scenarios say. Try it out before it meets a "
      "patient; materials' own\ninstructions, the law and the clinician's direction come "
      "first.\n");
}

void print_svg(const Side& a, const Side& b) {
  std::vector<picture::ActivityChart> charts;
  for (const auto* s : {&a, &b}) {
    charts.push_back(
        picture::plan_chart(s->procedure, s->plan, timing::explain(s->procedure, {}, s->plan)));
    charts.back().title =
        fmt::format("{}: {}", s == &a ? "A" : "B", procedure::full_title(s->procedure));
  }
  fmt::print("{}", charts_svg(charts, "Two plans",
                              fmt::format("A: {}. B: {}.", headline(a.plan), headline(b.plan))));
}

std::string page(const Side& a, const Side& b, const CompareOptions& o, const Comparison& c) {
  const auto one = told_in(o.language, a.procedure, o.a),
             other = told_in(o.language, b.procedure, o.b);
  return picture::comparison_report({one, a.plan}, {other, b.plan}, c, o.assistant,
                                    texts_in(o.language));
}

}  // namespace

int compare(const CompareOptions& o) {
  const auto habit = required_habit(o.assistant);
  const auto load = [&](const std::string& file) {
    auto p = load_scenario(file);
    auto plan = best_plan(p, o.time_limit_s);
    return Side{std::move(p), std::move(plan)};
  };
  const auto a = load(o.a), b = load(o.b);
  if (o.format == "svg") {
    print_svg(a, b);
    return done;
  }
  study::CompareRequest request;
  request.runs = {o.runs == 0 ? most_runs : o.runs, o.seed, o.threads, watch("pairs of runs")};
  request.within_s = o.runs == 0 ? close_enough_s : 0;
  const auto c = study::compare(a.procedure, b.procedure, habit, request);
  clear_progress();
  if (c.runs == 0) throw Failure(environment_at_fault, "stopped before the first runs were done");
  if (o.format == "html")
    fmt::print("{}", page(a, b, o, c));
  else if (o.format == "json")
    fmt::print("{}\n", as_json(a, b, o, c).dump(2));
  else
    print_text(a, b, o, c);
  return done;
}

}  // namespace beforehand::command
