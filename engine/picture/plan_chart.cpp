// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "picture/plan_chart.hpp"

#include <algorithm>

#include "picture/chart_build.hpp"
#include "procedure/title.hpp"

namespace beforehand::picture {

namespace {

using procedure::Procedure;
using timing::Explanation;
using timing::Gap;
using timing::Plan;

std::vector<bool> critical_steps(const Procedure& p, const Explanation& e) {
  std::vector<bool> critical(p.steps.size(), false);
  for (const auto& link : e.chain) critical[link.step.at()] = true;
  return critical;
}

// How long at least one of the bars goes on, and none of `before`.
Ms covered_time(const std::vector<Bar>& bars, Activity what, const std::vector<Activity>& before) {
  std::vector<Ms> edges;
  for (const auto& b : bars) edges.insert(edges.end(), {b.from, b.to});
  std::sort(edges.begin(), edges.end());
  const auto goes_on = [&](Activity a, Ms from, Ms to) {
    return std::any_of(bars.begin(), bars.end(), [&](const Bar& b) {
      return b.activity == a && b.from <= from && to <= b.to;
    });
  };
  Ms sum{0};
  for (std::size_t i = 1; i < edges.size(); ++i) {
    const bool other = std::any_of(before.begin(), before.end(),
                                   [&](Activity a) { return goes_on(a, edges[i - 1], edges[i]); });
    if (!other && goes_on(what, edges[i - 1], edges[i])) sum += edges[i] - edges[i - 1];
  }
  return sum;
}

Shares shares_of(const std::vector<Bar>& bars, Ms chair_time) {
  if (chair_time <= Ms{0}) return {};
  const auto percent = [&](Ms t) { return 100.0 * to_seconds(t) / to_seconds(chair_time); };
  Shares s;
  s.work = percent(covered_time(bars, Activity::work, {}));
  s.cover = percent(covered_time(bars, Activity::cover, {Activity::work}));
  s.waiting = percent(covered_time(bars, Activity::waiting, {Activity::work, Activity::cover}));
  s.standby = 100.0 - s.work - s.cover - s.waiting;
  return s;
}

// The steps somebody does in the plan, the critical ones marked.
std::vector<Bar> bars_of(const Procedure& p, const Plan& plan, PersonIx who,
                         const std::vector<bool>& critical) {
  std::vector<Bar> bars;
  for (std::size_t i = 0; i < plan.steps.size(); ++i) {
    const auto& planned = plan.steps[i];
    const auto& step = p.steps[i];
    if (!planned.happens() || planned.by != who) continue;
    Bar bar;
    bar.activity = activity_of_step(step);
    bar.from = planned.start;
    bar.to = planned.end;
    bar.label = step.title;
    bar.beside = step.is_cover() || !step.attention;
    bar.critical = critical[i];
    bars.push_back(std::move(bar));
  }
  return bars;
}

Lane lane_of(const Procedure& p, const Plan& plan, const Explanation& e, PersonIx who) {
  Lane lane;
  lane.name = p.person(who).name;
  lane.bars = bars_of(p, plan, who, critical_steps(p, e));
  const bool clinician = p.person(who).role == procedure::Role::clinician;
  for (const auto& gap : e.gaps) {
    if (gap.who != who) continue;
    Bar bar;
    bar.activity = clinician && gap.until ? Activity::waiting : Activity::standby;
    bar.from = gap.from;
    bar.to = gap.to;
    lane.bars.push_back(std::move(bar));
  }
  std::stable_sort(lane.bars.begin(), lane.bars.end(),
                   [](const Bar& a, const Bar& b) { return a.from < b.from; });
  lane.shares = shares_of(lane.bars, plan.chair_time);
  return lane;
}

}  // namespace

ActivityChart plan_chart(const Procedure& p, const Plan& plan, const Explanation& e) {
  ActivityChart chart;
  chart.title = procedure::full_title(p);
  for (std::size_t i = 0; i < p.people.size(); ++i) {
    chart.lanes.push_back(lane_of(p, plan, e, PersonIx{i}));
  }
  for (std::size_t i = 0; i < plan.steps.size(); ++i) {
    if (!plan.steps[i].happens()) continue;
    for (const auto& need : p.steps[i].needs) {
      if (!need.from || need.kind == procedure::Need::Kind::cover) continue;
      const auto& from = plan.steps[need.from.at()];
      if (!from.happens() || from.by == plan.steps[i].by) continue;
      chart.links.push_back(
          {from.by.at(), plan.steps[i].by.at(), from.end, plan.steps[i].start, false});
    }
  }
  return chart;
}

void add_planned(ActivityChart& played, const Procedure& p, const Plan& plan) {
  const std::vector<bool> critical(p.steps.size(), false);
  for (std::size_t i = 0; i < played.lanes.size(); ++i) {
    played.lanes[i].planned = bars_of(p, plan, PersonIx{i}, critical);
  }
}

}  // namespace beforehand::picture
