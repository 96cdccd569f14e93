// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include <cmath>
#include <nlohmann/json.hpp>

#include "picture/plan_chart.hpp"
#include "plan_output.hpp"

namespace beforehand::command {
namespace {

using nlohmann::json;

json steps_of(const PlanOutput& o) {
  auto steps = json::array();
  for (const auto i : timing::in_order(o.plan)) {
    const auto& s = o.plan.steps[i.at()];
    steps.push_back({{"id", o.procedure.step(i).id},
                     {"by", o.procedure.person(s.by).id},
                     {"start_s", to_seconds(s.start)},
                     {"end_s", to_seconds(s.end)},
                     {"earliest_s", to_seconds(s.earliest)},
                     {"latest_s", to_seconds(s.latest)}});
  }
  return steps;
}

json roles_of(const PlanOutput& o) {
  auto roles = json::array();
  for (const auto& r : o.explanation.roles) {
    roles.push_back({{"step", o.procedure.step(r.step).id},
                     {"by", o.procedure.person(r.by).id},
                     {"instead", o.procedure.person(r.instead).id},
                     {"longer_s", r.possible ? json(to_seconds(r.longer)) : json()}});
  }
  return roles;
}

json shortenings_of(const PlanOutput& o) {
  auto all = json::array();
  for (const auto& s : o.explanation.shortenings) {
    all.push_back({{"step", o.procedure.step(s.step).id},
                   {"shorter_s", to_seconds(s.shorter)},
                   {"gain_s", to_seconds(s.gain)}});
  }
  return all;
}

json shares_of(const PlanOutput& o) {
  auto all = json::object();
  const auto chart = picture::plan_chart(o.procedure, o.plan, o.explanation);
  const auto rounded = [](double percent) { return std::round(percent * 10) / 10; };
  for (std::size_t i = 0; i < chart.lanes.size(); ++i) {
    const auto& s = chart.lanes[i].shares;
    all[o.procedure.people[i].id] = {{"work_percent", rounded(s.work)},
                                     {"cover_percent", rounded(s.cover)},
                                     {"waiting_percent", rounded(s.waiting)},
                                     {"standby_percent", rounded(s.standby)}};
  }
  return all;
}

}  // namespace

std::string plan_json(const PlanOutput& o) {
  auto signals = json::array(), chain = json::array();
  for (const auto s : o.request.happened) signals.push_back(o.procedure.signal(s).id);
  for (const auto& link : o.explanation.chain) chain.push_back(o.procedure.step(link.step).id);
  const auto phase = o.request.phase;
  const json out = {
      {"scenario", o.procedure.id},
      {"card", o.procedure.card.empty() ? json() : json(o.procedure.card)},
      {"materials", o.procedure.materials.empty() ? json() : json(o.procedure.materials)},
      {"signals", signals},
      {"phase", phase ? json(o.procedure.phases[phase.at()].id) : json()},
      {"chair_time_s", to_seconds(o.plan.chair_time)},
      {"lower_bound_s", to_seconds(o.plan.lower_bound)},
      {"proven", o.plan.proven()},
      {"clinician_wait_s", to_seconds(o.plan.clinician_wait)},
      {"exact_windows", o.exact_windows},
      {"steps", steps_of(o)},
      {"critical_chain", chain},
      {"time", shares_of(o)},
      {"roles", roles_of(o)},
      {"shortenings", shortenings_of(o)}};
  return out.dump(2) + "\n";
}

}  // namespace beforehand::command
