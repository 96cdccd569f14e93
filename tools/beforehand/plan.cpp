// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include <fmt/format.h>

#include <algorithm>
#include <cstdio>
#include <nlohmann/json.hpp>

#include "base/text.hpp"
#include "chart_svg.hpp"
#include "commands.hpp"
#include "picture/plan_chart.hpp"
#include "planned.hpp"
#include "timing/explain.hpp"
#include "watching.hpp"

namespace beforehand::command {
namespace {

using procedure::Procedure;
using timing::Explanation;
using timing::Plan;
using timing::PlanRequest;

std::vector<SignalIx> signals_from(const Procedure& p, const std::vector<std::string>& ids) {
  std::vector<SignalIx> signals;
  for (const auto& id : ids) {
    const auto found =
        std::find_if(p.signals.begin(), p.signals.end(), [&](const auto& s) { return s.id == id; });
    if (found == p.signals.end()) {
      std::vector<std::string> known;
      for (const auto& s : p.signals) known.push_back(s.id);
      throw Failure(wrong_usage, known.empty() ? fmt::format("{} has no signals", p.id)
                                               : fmt::format("no signal '{}' in {}; it has {}", id,
                                                             p.id, list_text(known)));
    }
    signals.emplace_back(static_cast<std::size_t>(found - p.signals.begin()));
  }
  return signals;
}

// One line on a terminal that shows how far the search is; nothing elsewhere.
void show_progress(PlanRequest& request) {
  if (!on_terminal()) return;
  request.progress = [](Ms bound, std::optional<Ms> best) {
    fmt::print(stderr, "\r\033[Kchair time: not less than {}, {} (Ctrl-C keeps the best so far)",
               duration_text(bound),
               best ? fmt::format("best so far {}", duration_text(*best)) : "none found yet");
    std::fflush(stderr);
  };
}

nlohmann::json as_json(const Procedure& p, const PlanRequest& request, const Plan& plan,
                       const Explanation& e) {
  nlohmann::json signals = nlohmann::json::array(), steps = nlohmann::json::array(),
                 chain = nlohmann::json::array(), roles = nlohmann::json::array();
  for (const auto s : request.happened) signals.push_back(p.signal(s).id);
  std::vector<std::size_t> order;
  for (std::size_t i = 0; i < plan.steps.size(); ++i) {
    if (plan.steps[i].happens()) order.push_back(i);
  }
  std::stable_sort(order.begin(), order.end(),
                   [&](auto a, auto b) { return plan.steps[a].start < plan.steps[b].start; });
  for (const auto i : order) {
    const auto& s = plan.steps[i];
    steps.push_back({{"id", p.steps[i].id},
                     {"by", p.person(s.by).id},
                     {"start_s", to_seconds(s.start)},
                     {"end_s", to_seconds(s.end)},
                     {"earliest_s", to_seconds(s.earliest)},
                     {"latest_s", to_seconds(s.latest)}});
  }
  for (const auto& link : e.chain) chain.push_back(p.step(link.step).id);
  for (const auto& r : e.roles) {
    nlohmann::json longer;
    if (r.possible) longer = to_seconds(r.longer);
    roles.push_back({{"step", p.step(r.step).id},
                     {"by", p.person(r.by).id},
                     {"instead", p.person(r.instead).id},
                     {"longer_s", longer}});
  }
  return {{"scenario", p.id},
          {"signals", signals},
          {"chair_time_s", to_seconds(plan.chair_time)},
          {"lower_bound_s", to_seconds(plan.lower_bound)},
          {"proven", plan.proven()},
          {"clinician_wait_s", to_seconds(plan.clinician_wait)},
          {"steps", steps},
          {"critical_chain", chain},
          {"roles", roles}};
}

void print_section(const char* title, const std::vector<std::string>& lines) {
  if (lines.empty()) return;
  fmt::print("\n{}\n", title);
  for (const auto& line : lines) fmt::print("  {}\n", line);
}

void print_text(const Procedure& p, const Plan& plan, const Explanation& e) {
  fmt::print("{}\n{}\n", p.title, headline(plan));
  std::vector<std::size_t> order;
  std::size_t wide = 0;
  for (std::size_t i = 0; i < plan.steps.size(); ++i) {
    if (!plan.steps[i].happens()) continue;
    order.push_back(i);
    wide = std::max(wide, p.person(plan.steps[i].by).name.size());
  }
  std::stable_sort(order.begin(), order.end(),
                   [&](auto a, auto b) { return plan.steps[a].start < plan.steps[b].start; });
  fmt::print("\nThe plan (start, end; may start from .. to)\n");
  for (const auto i : order) {
    const auto& s = plan.steps[i];
    fmt::print("  {:>6} {:>6}  {:>6} .. {:>6}  {:<{}}  {}\n", clock_text(s.start),
               clock_text(s.end), clock_text(s.earliest), clock_text(s.latest), p.person(s.by).name,
               wide, p.steps[i].title);
  }
  print_section("What the chair time hangs on", timing::chain_in_words(p, plan, e));
  print_section("Who has time, and who waits", timing::gaps_in_words(p, e));
  print_section("What would change it", timing::advice_in_words(p, e));
}

}  // namespace

int plan(const PlanOptions& o) {
  const auto p = load_scenario(o.file);
  PlanRequest request;
  request.happened = signals_from(p, o.signals);
  limit(request, o.time_limit_s);
  show_progress(request);
  const auto found = timing::plan(p, request);
  if (request.progress) fmt::print(stderr, "\r\033[K");
  require_plan(p, request, found);
  const auto explanation = timing::explain(p, request, found);
  if (o.format == "json") {
    fmt::print("{}\n", as_json(p, request, found, explanation).dump(2));
  } else if (o.format == "svg") {
    fmt::print("{}",
               charts_svg({picture::plan_chart(p, found, explanation)}, p.title, headline(found)));
  } else {
    print_text(p, found, explanation);
  }
  return done;
}

}  // namespace beforehand::command
