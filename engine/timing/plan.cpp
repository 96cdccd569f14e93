// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "timing/plan.hpp"

#include <algorithm>

#include "timing/optimum.hpp"
#include "timing/plan_model.hpp"
#include "timing/slide.hpp"

namespace beforehand::timing {

using procedure::Role;
using Difference = ScheduleProblem::Difference;

namespace {

class Planner {
 public:
  Planner(const Procedure& p, const PlanRequest& request)
      : procedure_(p), model_(p, request), minimizer_(model_.problem) {
    search_.stopped = request.stopped;
    if (!request.progress) return;
    search_.progress = [this, tell = request.progress](int bound, std::optional<int> best) {
      tell(bound_of(bound), best ? std::optional{ms(*best)} : std::nullopt);
    };
  }

  Plan run() {
    auto shortest = minimizer_.shortest(search_);
    plan_.unit = model_.unit;
    plan_.lower_bound = bound_of(shortest.bound);
    if (shortest.kind == Optimum::Kind::impossible) plan_.outcome = Plan::Outcome::impossible;
    if (shortest.best.time.empty()) return plan_;
    best_ = std::move(shortest.best);
    finish_ = shortest.finish;
    plan_.chair_time = ms(finish_);
    plan_.chair_time_proven = plan_.chair_time == plan_.lower_bound;
    const bool least = reduce_wait();
    prefer_roles();
    const bool proven = plan_.chair_time_proven && least && !model_.rounded;
    plan_.outcome = proven ? Plan::Outcome::proven : Plan::Outcome::best_found;
    fill_in();
    if (proven) plan_.clinician_wait_bound = plan_.clinician_wait;
    return plan_;
  }

 private:
  Ms ms(int units) const { return model_.unit * units; }
  // Rounding up makes a bound of the rounded problem no bound of the procedure.
  Ms bound_of(int units) const { return model_.rounded ? Ms{0} : ms(units); }
  static std::size_t at(int point) { return static_cast<std::size_t>(point); }

  bool reduce_wait();
  int span_of(const Schedule&) const;
  void prefer_roles();
  void fill_in();
  std::vector<int> settled(std::vector<Difference>) const;
  void slide_the_rest();
  void bound_starts();
  void end_covers();
  void measure_wait();
  std::vector<Difference> kept() const;
  std::vector<int> early(const std::vector<Difference>& all) const {
    return earliest_times(model_.problem.points, all).value();
  }
  std::vector<int> late(const std::vector<Difference>& all) const {
    return latest_times(model_.problem.points, all, finish_);
  }
  bool serves(std::size_t step, std::vector<signed char>& known) const;
  bool clinicians(std::size_t step) const;
  void pin(std::vector<Difference>&, int point, int time) const;

  const Procedure& procedure_;
  const PlanModel model_;
  Minimizer minimizer_;
  Search search_;
  Schedule best_;
  int finish_ = 0;
  int span_ = 0;  // from the clinician's first to last own work
  Plan plan_;
};

int Planner::span_of(const Schedule& s) const {
  int first = finish_, last = 0;
  for (const auto step : model_.clinicians_own) {
    const auto& placed = model_.placed[step.at()];
    first = std::min(first, s.time[at(placed.start)]);
    last = std::max(last, s.time[at(placed.end)] + placed.end_offset);
  }
  return std::max(0, last - first);
}

// The least span of the clinician's own work at the best chair time; false: the search was stopped.
bool Planner::reduce_wait() {
  using Answer = OrderSolver::Answer;
  span_ = span_of(best_);
  auto& solver = *minimizer_.solver();
  const int in_time = solver.not_later(model_.problem.finish, finish_);
  int bound = 0;
  for (const auto step : model_.clinicians_own) bound += model_.placed[step.at()].end_offset;
  while (bound < span_) {
    const int target = bound + (span_ - 1 - bound) / 2;
    const int within = solver.at_least(model_.clinician_last, model_.clinician_first, -target);
    const auto answer = solver.solve({in_time, within}, search_);
    if (answer == Answer::unknown) return false;
    if (answer == Answer::no) {
      bound = target + 1;
    } else {
      best_ = solver.schedule();
      span_ = span_of(best_);
    }
  }
  return true;
}

// What the plan must keep: the procedure's lags, the order on the resources, chair time and span.
std::vector<Difference> Planner::kept() const {
  auto all = model_.problem.differences;
  const auto order = resource_order(model_.problem, best_);
  all.insert(all.end(), order.begin(), order.end());
  all.push_back({model_.problem.finish, 0, -finish_});
  all.push_back({model_.clinician_last, model_.clinician_first, -span_});
  return all;
}

void Planner::pin(std::vector<Difference>& differences, int point, int time) const {
  differences.push_back({0, point, time});
  differences.push_back({point, 0, -time});
}

bool Planner::clinicians(std::size_t step) const {
  return procedure_.person(plan_.steps[step].by).role == Role::clinician;
}

// Whether a step of the clinician comes after this one; what serves nobody is not a prep.
bool Planner::serves(std::size_t step, std::vector<signed char>& known) const {
  if (known[step] >= 0) return known[step] != 0;
  known[step] = 0;
  for (const auto& why : model_.because) {
    const bool follows = (why.kind == Because::Kind::link || why.kind == Because::Kind::need) &&
                         why.from == StepIx{step};
    if (!follows) continue;
    if (clinicians(why.to.at()) || serves(why.to.at(), known)) known[step] = 1;
  }
  return known[step] != 0;
}

// Who does what both may do: as the file prefers where that costs neither chair time nor waiting;
// what it names first is asked for first.
void Planner::prefer_roles() {
  auto& solver = *minimizer_.solver();
  std::vector<int> fixed{solver.not_later(model_.problem.finish, finish_),
                         solver.at_least(model_.clinician_last, model_.clinician_first, -span_)};
  for (std::size_t choice = 0; choice < best_.option.size(); ++choice) {
    for (int option = 0; option <= best_.option[choice]; ++option) {
      fixed.push_back(solver.takes({static_cast<int>(choice), option}));
      if (option == best_.option[choice]) break;
      const auto answer = solver.solve(fixed, search_);
      if (answer == OrderSolver::Answer::unknown) return;
      if (answer == OrderSolver::Answer::no) {
        fixed.pop_back();
        continue;
      }
      best_ = solver.schedule();
      break;
    }
  }
}

// Start times: the clinician as early as can be, preps as late as then can be, the rest early.
void Planner::fill_in() {
  plan_.steps.resize(model_.placed.size());
  for (std::size_t i = 0; i < plan_.steps.size(); ++i) {
    const auto& placed = model_.placed[i];
    const auto option = placed.choice < 0 ? 0 : best_.option[at(placed.choice)];
    if (placed.start >= 0) plan_.steps[i].by = procedure_.steps[i].by[at(option)];
  }
  auto differences = kept();
  const auto first = early(differences);
  for (std::size_t i = 0; i < plan_.steps.size(); ++i) {
    if (!plan_.steps[i].happens() || !clinicians(i)) continue;
    pin(differences, model_.placed[i].start, first[at(model_.placed[i].start)]);
  }
  best_.time = late(differences);
  best_.time = settled(differences);
  slide_the_rest();
  bound_starts();
  end_covers();
  measure_wait();
}

// From the times above: preps fixed where they are, all else early.
std::vector<int> Planner::settled(std::vector<Difference> differences) const {
  std::vector<signed char> known(plan_.steps.size(), -1);
  for (std::size_t i = 0; i < plan_.steps.size(); ++i) {
    if (!plan_.steps[i].happens() || clinicians(i) || !serves(i, known)) continue;
    pin(differences, model_.placed[i].start, best_.time[at(model_.placed[i].start)]);
  }
  return early(differences);
}

// The order that the search happened to choose binds nobody: preps that fit later go there, and
// what serves nobody goes where it fits first.
void Planner::slide_the_rest() {
  std::vector<signed char> known(plan_.steps.size(), -1);
  std::vector<std::size_t> steps;
  for (std::size_t i = 0; i < plan_.steps.size(); ++i) {
    if (plan_.steps[i].happens() && !clinicians(i)) steps.push_back(i);
  }
  const auto start = [&](std::size_t i) { return model_.placed[i].start; };
  std::stable_sort(steps.begin(), steps.end(), [&](auto a, auto b) {
    return best_.time[at(start(a))] < best_.time[at(start(b))];
  });
  for (const auto i : steps) {
    if (!serves(i, known)) slide(model_.problem, best_, start(i), Direction::earlier);
  }
  std::reverse(steps.begin(), steps.end());
  for (const auto i : steps) {
    if (serves(i, known)) slide(model_.problem, best_, start(i), Direction::later);
  }
}

void Planner::bound_starts() {
  const auto differences = kept();
  const auto first = early(differences), last = late(differences);
  for (std::size_t i = 0; i < plan_.steps.size(); ++i) {
    PlannedStep& step = plan_.steps[i];
    if (!step.happens()) continue;
    const auto& placed = model_.placed[i];
    step.start = ms(best_.time[at(placed.start)]);
    step.end = step.start + placed.takes;
    step.earliest = ms(first[at(placed.start)]);
    step.latest = ms(last[at(placed.start)]);
  }
}

// A cover ends with the last step it covers.
void Planner::end_covers() {
  plan_.chair_time = Ms{0};
  for (std::size_t i = 0; i < plan_.steps.size(); ++i) {
    PlannedStep& step = plan_.steps[i];
    if (!step.happens()) continue;
    for (const auto covered : procedure_.steps[i].covers) {
      const auto& work = plan_.steps[covered.at()];
      if (work.happens()) step.end = std::max(step.end, work.end);
    }
    plan_.chair_time = std::max(plan_.chair_time, step.end);
  }
}

void Planner::measure_wait() {
  Ms first = never, last{0}, work{0};
  for (const auto step : model_.clinicians_own) {
    const auto& planned = plan_.steps[step.at()];
    first = std::min(first, planned.start);
    last = std::max(last, planned.end);
    work += planned.end - planned.start;
  }
  plan_.clinician_wait = model_.clinicians_own.empty() ? Ms{0} : last - first - work;
}

}  // namespace

std::vector<StepIx> in_order(const Plan& plan) {
  std::vector<StepIx> order;
  for (std::size_t i = 0; i < plan.steps.size(); ++i) {
    if (plan.steps[i].happens()) order.emplace_back(i);
  }
  std::stable_sort(order.begin(), order.end(), [&](StepIx a, StepIx b) {
    return plan.steps[a.at()].start < plan.steps[b.at()].start;
  });
  return order;
}

Plan plan(const Procedure& p, const PlanRequest& request) { return Planner(p, request).run(); }

}  // namespace beforehand::timing
