// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "timing/exact_windows.hpp"

#include <algorithm>

#include "timing/order_solver.hpp"
#include "timing/plan_model.hpp"

namespace beforehand::timing {

namespace {

using Answer = OrderSolver::Answer;

// Asks the solver for best plans in which a step starts earlier, or later, than in those known.
class RangeFinder {
 public:
  RangeFinder(const Procedure& p, const PlanRequest& request, const Plan& plan)
      : procedure_(p),
        model_(p, request),
        problem_(model_.problem),
        start_(model_.schedule_of(plan)),
        finish_(time(problem_.finish)),
        least_(start_.time),
        most_(start_.time) {
    search_.stopped = request.stopped;
    const int span = time(model_.clinician_last) - time(model_.clinician_first);
    problem_.differences.push_back({model_.clinician_last, model_.clinician_first, -span});
    problem_.differences.push_back({problem_.finish, 0, -finish_});
    paths_ = longest_paths(problem_, finish_).value();
    solver_ = std::make_unique<OrderSolver>(problem_, paths_, finish_);
  }

  std::optional<std::vector<StartRange>> run() {
    learn(start_);
    std::vector<StartRange> ranges(model_.placed.size());
    for (std::size_t i = 0; i < ranges.size(); ++i) {
      const int point = model_.placed[i].start;
      if (point < 0) continue;
      const auto earliest = useful_earliest(StepIx{i});
      if (!earliest || !push(point, Direction::later)) return std::nullopt;
      ranges[i] = {model_.unit * *earliest, model_.unit * most_[at(point)]};
    }
    return ranges;
  }

 private:
  enum class Direction : std::uint8_t { earlier, later };

  static std::size_t at(int point) { return static_cast<std::size_t>(point); }
  int time(int point) const { return start_.time[at(point)]; }
  int path(int from, int to) const { return paths_[at(from * problem_.points + to)]; }

  // The times that the order of a schedule leaves are those of best plans too.
  void learn(const Schedule& schedule) {
    auto all = resource_order(problem_, schedule);
    all.insert(all.end(), problem_.differences.begin(), problem_.differences.end());
    const auto first = earliest_times(problem_.points, all).value();
    const auto last = latest_times(problem_.points, all, finish_);
    for (std::size_t p = 0; p < first.size(); ++p) {
      least_[p] = std::min(least_[p], first[p]);
      most_[p] = std::max(most_[p], last[p]);
    }
  }

  // Makes least_ or most_ of the point exact; false: stopped. What is known is mostly exact, so one
  // unit further is asked for first, and only then halfway to the bound.
  bool push(int point, Direction direction) {
    const bool later = direction == Direction::later;
    int bound = later ? -path(point, 0) : path(0, point);
    int& known = later ? most_[at(point)] : least_[at(point)];
    bool first = true;
    while (known != bound) {
      const int step = first ? 1 : (std::abs(bound - known) + 1) / 2;
      const int target = later ? known + step : known - step;
      first = false;
      const int literal =
          later ? -solver_->not_later(point, target - 1) : solver_->not_later(point, target);
      const auto answer = solver_->solve({literal}, search_);
      if (answer == Answer::unknown) return false;
      if (answer == Answer::yes) {
        learn(solver_->schedule());
      } else {
        bound = later ? target - 1 : target + 1;
      }
    }
    return true;
  }

  // The first step in the file for which a hand is kept busy from the end of this one on, or, for a
  // cover, from its start.
  StepIx held_for(StepIx step) const {
    for (std::size_t i = 0; i < model_.placed.size(); ++i) {
      if (model_.placed[i].start < 0) continue;
      for (const auto& need : procedure_.steps[i].needs) {
        if (need.from == step && need.kind != procedure::Need::Kind::done) return StepIx{i};
      }
    }
    return {};
  }

  std::optional<int> useful_earliest(StepIx step) {
    const int point = model_.placed[step.at()].start;
    if (!push(point, Direction::earlier)) return std::nullopt;
    int least = least_[at(point)];
    const StepIx user = held_for(step);
    if (!user) return least;
    // Not held for longer than is of use.
    const auto& held = model_.placed[step.at()];
    const bool cover = held.start != held.end;
    const int offer = static_cast<int>(procedure_.offer / model_.unit);
    const int in_time = solver_->at_least(model_.placed[user.at()].start, held.start,
                                          -offer - (cover ? 0 : held.end_offset));
    int most = most_[at(point)] + 1;  // first known to do, or none
    while (least < most) {
      const int target = least + (most - least) / 2;
      const auto answer = solver_->solve({in_time, solver_->not_later(point, target)}, search_);
      if (answer == Answer::unknown) return std::nullopt;
      if (answer == Answer::yes) {
        learn(solver_->schedule());
        most = solver_->schedule().time[at(point)];
      } else {
        least = target + 1;
      }
    }
    return most > most_[at(point)] ? least_[at(point)] : most;
  }

  const Procedure& procedure_;
  const PlanModel model_;
  ScheduleProblem problem_;
  const Schedule start_;
  const int finish_;
  std::vector<int> least_, most_;  // by point, in the best plans known
  std::vector<int> paths_;
  std::unique_ptr<OrderSolver> solver_;
  Search search_;
};

}  // namespace

std::optional<std::vector<StartRange>> exact_windows(const Procedure& p, const PlanRequest& request,
                                                     const Plan& plan) {
  if (!plan.proven()) return std::nullopt;
  return RangeFinder(p, request, plan).run();
}

}  // namespace beforehand::timing
