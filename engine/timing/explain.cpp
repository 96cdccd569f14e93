// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "timing/explain.hpp"

#include <algorithm>

#include "timing/optimum.hpp"

namespace beforehand::timing {

namespace {

using Difference = ScheduleProblem::Difference;

// A difference and why it is one.
struct Reason {
  Difference difference;
  ChainLink link;
};

ChainLink::Kind kind_of(PlanModel::Means::Kind means) {
  switch (means) {
    case PlanModel::Means::Kind::attention:
      return ChainLink::Kind::attention;
    case PlanModel::Means::Kind::hands:
      return ChainLink::Kind::hands;
    default:
      return ChainLink::Kind::device;
  }
}

// The procedure's own lags first: where one of them says the same as a resource, it says it better.
std::vector<Reason> reasons(const PlanModel& model, const Schedule& schedule) {
  std::vector<Reason> all;
  for (std::size_t i = 0; i < model.because.size(); ++i) {
    const auto& d = model.problem.differences[i];
    all.push_back(
        {d,
         {ChainLink::Kind::lag, model.step_at(d.to), model.step_at(d.from), model.because[i], 0}});
  }
  for (std::size_t r = 0; r < model.means.size(); ++r) {
    ScheduleProblem one;
    one.resources = {model.problem.resources[r]};
    for (const auto& d : resource_order(one, schedule)) {
      all.push_back({d,
                     {kind_of(model.means[r].kind),
                      model.step_at(d.to),
                      model.step_at(d.from),
                      {},
                      model.means[r].index}});
    }
  }
  return all;
}

std::vector<int> earliest(const PlanModel& model, const std::vector<Reason>& reasons) {
  std::vector<Difference> differences;
  for (const auto& r : reasons) differences.push_back(r.difference);
  return earliest_times(model.problem.points, differences).value_or(std::vector<int>{});
}

// Back from the finish, always to what holds a point where it is, until the beginning. Lags that
// leave no room hold two points against each other; no point is passed twice.
class CriticalChain {
 public:
  CriticalChain(const PlanModel& model, const Schedule& schedule)
      : model_(model),
        reasons_(reasons(model, schedule)),
        time_(earliest(model, reasons_)),
        passed_(time_.size(), false) {}

  std::vector<ChainLink> run() {
    if (!time_.empty()) trace(model_.problem.finish);
    return std::move(chain_);
  }

 private:
  int time(int point) const { return time_[static_cast<std::size_t>(point)]; }

  bool trace(int point) {
    if (time(point) == 0) {
      if (const auto step = model_.step_at(point))
        chain_.push_back({ChainLink::Kind::start, step, {}, {}, 0});
      return true;
    }
    passed_[static_cast<std::size_t>(point)] = true;
    return std::any_of(reasons_.begin(), reasons_.end(), [&](const Reason& r) {
      const auto& d = r.difference;
      const bool holds = d.to == point && !passed_[static_cast<std::size_t>(d.from)] &&
                         time(d.from) + d.lag == time(point);
      if (!holds || !trace(d.from)) return false;
      if (r.link.step && r.link.step != r.link.after) chain_.push_back(r.link);
      return true;
    });
  }

  const PlanModel& model_;
  const std::vector<Reason> reasons_;
  const std::vector<int> time_;
  std::vector<bool> passed_;
  std::vector<ChainLink> chain_;
};

// What of somebody else's ends just as `step` starts and has to come before it.
StepIx awaited(const PlanModel& model, const Plan& plan, StepIx step) {
  for (const auto& why : model.because) {
    if (why.to != step || !why.from || why.from == step) continue;
    const bool precedes = why.kind == Because::Kind::link || why.kind == Because::Kind::need;
    const auto& before = plan.steps[why.from.at()];
    if (precedes && before.by != plan.steps[step.at()].by &&
        before.end == plan.steps[step.at()].start) {
      return why.from;
    }
  }
  return {};
}

std::vector<Gap> find_gaps(const Procedure& p, const PlanModel& model, const Plan& plan) {
  std::vector<Gap> gaps;
  for (std::size_t n = 0; n < p.people.size(); ++n) {
    std::vector<std::size_t> own;
    for (std::size_t i = 0; i < plan.steps.size(); ++i) {
      const auto& s = plan.steps[i];
      if (s.happens() && s.by == PersonIx{n} && p.steps[i].attention && s.end > s.start) {
        own.push_back(i);
      }
    }
    std::sort(own.begin(), own.end(),
              [&](auto a, auto b) { return plan.steps[a].start < plan.steps[b].start; });
    Ms free{0};
    for (const auto i : own) {
      const auto& s = plan.steps[i];
      if (s.start > free) {
        gaps.push_back({PersonIx{n}, free, s.start, StepIx{i}, awaited(model, plan, StepIx{i})});
      }
      free = std::max(free, s.end);
    }
    if (!own.empty() && free < plan.chair_time) {
      gaps.push_back({PersonIx{n}, free, plan.chair_time, {}, {}});
    }
  }
  return gaps;
}

std::vector<RoleChoice> weigh_roles(const Procedure& p, const PlanModel& model,
                                    const Schedule& schedule, const Search& search) {
  std::vector<RoleChoice> roles;
  const int finish = schedule.time[static_cast<std::size_t>(model.problem.finish)];
  for (std::size_t i = 0; i < model.placed.size(); ++i) {
    const int choice = model.placed[i].choice;
    if (choice < 0) continue;
    const int taken = schedule.option[static_cast<std::size_t>(choice)];
    for (int other = 0; other < static_cast<int>(p.steps[i].by.size()); ++other) {
      if (other == taken) continue;
      auto forced = model.problem;
      for (int o = 0; o < static_cast<int>(p.steps[i].by.size()); ++o) {
        if (o != other) forced.excluded.push_back({{choice, o}});
      }
      const auto found = Minimizer(forced).shortest(search);
      const bool possible = found.kind == Optimum::Kind::proven;
      if (!possible && found.kind != Optimum::Kind::impossible) return roles;
      roles.push_back({StepIx{i}, p.steps[i].by[static_cast<std::size_t>(taken)],
                       p.steps[i].by[static_cast<std::size_t>(other)],
                       possible ? model.unit * (found.finish - finish) : Ms{0}, possible});
    }
  }
  return roles;
}

std::vector<Shortening> weigh_shortenings(const Procedure& p, const PlanRequest& request,
                                          const Plan& plan, const std::vector<ChainLink>& chain) {
  std::vector<Shortening> found;
  for (const auto& link : chain) {
    auto quicker = p;
    auto& takes = quicker.steps[link.step.at()].takes;
    const Ms shorter = takes.usual - takes.least;
    if (shorter <= Ms{0}) continue;
    takes.usual = takes.least;
    const PlanModel model(quicker, request);
    const auto time = earliest(model, reasons(model, model.schedule_of(plan)));
    if (time.empty()) continue;
    const Ms gain =
        plan.chair_time - model.unit * time[static_cast<std::size_t>(model.problem.finish)];
    if (gain > Ms{0}) found.push_back({link.step, shorter, gain});
  }
  std::stable_sort(found.begin(), found.end(),
                   [](const auto& a, const auto& b) { return a.gain > b.gain; });
  return found;
}

}  // namespace

Explanation explain(const Procedure& p, const PlanRequest& request, const Plan& plan) {
  Explanation e;
  if (!plan.found()) return e;
  const PlanModel model(p, request);
  const auto schedule = model.schedule_of(plan);
  Search search;
  search.stopped = request.stopped;
  e.chain = CriticalChain(model, schedule).run();
  e.gaps = find_gaps(p, model, plan);
  if (plan.chair_time_proven) e.roles = weigh_roles(p, model, schedule, search);
  e.shortenings = weigh_shortenings(p, request, plan, e.chain);
  return e;
}

}  // namespace beforehand::timing
