// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "timing/optimum.hpp"

#include <algorithm>

namespace beforehand::timing {

namespace {

// Every problem that has a schedule has one that finishes by then: with one point after the other,
// each as long after the last as its longest lag asks for.
int farthest_finish(const ScheduleProblem& p) {
  std::vector<int> longest(static_cast<std::size_t>(p.points), 0);
  for (const auto& d : p.differences) {
    auto& lag = longest[static_cast<std::size_t>(d.from)];
    lag = std::max(lag, d.lag);
  }
  int sum = 0;
  for (const auto lag : longest) sum += lag;
  return sum;
}

}  // namespace

Minimizer::Minimizer(const ScheduleProblem& problem) : problem_(problem) {}

bool Minimizer::open_up(int horizon) {
  auto paths = longest_paths(problem_, horizon);
  if (!paths) return false;
  solver_.reset();
  paths_ = std::move(*paths);
  solver_ = std::make_unique<OrderSolver>(problem_, paths_, horizon);
  return true;
}

void Minimizer::keep(const Search& search) {
  result_.best = pull_early(problem_, solver_->schedule());
  result_.finish = result_.best.time[static_cast<std::size_t>(problem_.finish)];
  result_.kind = Optimum::Kind::best_found;
  if (search.progress) search.progress(result_.bound, result_.finish);
}

Optimum Minimizer::shortest(const Search& search) {
  using Answer = OrderSolver::Answer;
  result_ = {};
  const int farthest = farthest_finish(problem_);
  result_.bound = timing::lower_bound(problem_);
  if (result_.bound > farthest) return {Optimum::Kind::impossible, {}, 0, 0};
  for (int horizon = result_.bound + result_.bound / 8 + 1; !solver_ || result_.best.time.empty();
       horizon = std::min(farthest, horizon + horizon / 2 + 1)) {
    if (search.progress) search.progress(result_.bound, std::nullopt);
    const auto answer = open_up(horizon) ? solver_->solve({}, search) : Answer::no;
    if (answer == Answer::unknown) return result_;
    if (answer == Answer::yes) keep(search);
    if (answer == Answer::no && horizon >= farthest) return {Optimum::Kind::impossible, {}, 0, 0};
    if (answer == Answer::no) result_.bound = horizon + 1;
  }
  bool first = true;
  while (result_.bound < result_.finish) {
    const int target =
        first ? result_.bound : result_.bound + (result_.finish - 1 - result_.bound) / 2;
    first = false;
    const auto answer = solver_->solve({solver_->not_later(problem_.finish, target)}, search);
    if (answer == Answer::unknown) return result_;
    if (answer == Answer::yes) {
      keep(search);
    } else {
      result_.bound = target + 1;
      if (search.progress) search.progress(result_.bound, result_.finish);
    }
  }
  result_.kind = Optimum::Kind::proven;
  return result_;
}

}  // namespace beforehand::timing
