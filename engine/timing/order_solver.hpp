// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <map>
#include <memory>
#include <tuple>
#include <vector>

#include "timing/schedule.hpp"

namespace beforehand::timing {

/// A ScheduleProblem up to a horizon as propositional logic, in the order encoding (Crawford, Baker
/// 1994; Tamura et al. 2009): for each point and moment a literal "not later than". Differences are
/// clauses on these. That too many intervals lie at one moment is forbidden only when a solution
/// shows it: of the intervals found together, one must end before another begins.
class OrderSolver {
 public:
  enum class Answer { yes, no, unknown };

  /// The differences must not contradict each other within the horizon (longest_paths).
  OrderSolver(const ScheduleProblem&, const std::vector<int>& paths, int horizon);
  ~OrderSolver();

  /// Literal: the point lies at `t` or earlier. Moments outside the point's range give constants.
  int not_later(int point, int t);
  /// Literal that forces time of `to` - time of `from` >= lag (but not the other way round).
  int at_least(int from, int to, int lag);
  int takes(ScheduleProblem::Option);

  /// Whether a schedule exists in which all of `assumptions` hold; `schedule()` is then one.
  Answer solve(const std::vector<int>& assumptions, const Search&);
  const Schedule& schedule() const { return schedule_; }

 private:
  using Interval = ScheduleProblem::Interval;
  struct Range {
    int first, last, base;  // literal of moment t: base + t - first
  };

  int new_variable();
  void clause(std::vector<int> literals);
  void add_points(int horizon);
  void force_difference(int guard, int from, int to, int lag);
  int path(int from, int to) const;
  int separate(const Interval& first, const Interval& then);
  bool forbid_overloads();
  bool forbid_overload(const ScheduleProblem::Resource&, std::vector<const Interval*> together);
  void read_schedule();
  int begin(const Interval&) const;
  int end(const Interval&) const;
  bool counts(const Interval&) const;

  struct Core;
  std::unique_ptr<Core> core_;
  const ScheduleProblem& problem_;
  const std::vector<int>& paths_;
  std::vector<Range> ranges_;
  std::vector<std::vector<int>> option_literals_;
  std::map<std::tuple<int, int, int>, int> guards_;
  Schedule schedule_;
  int variables_ = 0;
  int true_ = 0;
};

}  // namespace beforehand::timing
