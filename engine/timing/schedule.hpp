// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <vector>

namespace beforehand::timing {

/// Scheduling with minimum and maximum lags, renewable resources and alternatives, in whole units
/// of time. Point 0 is the origin, at time 0; no point lies before it.
struct ScheduleProblem {
  /// time of `to` - time of `from` >= `lag`; a maximum lag runs from `to` to `from`, negative.
  struct Difference {
    int from = 0, to = 0, lag = 0;
  };
  /// One of the options of `choice` is taken; none: choice < 0.
  struct Option {
    int choice = -1, option = 0;
  };
  /// `demand` of a resource from `begin` + begin_offset up to `end` + end_offset; counts only when
  /// its option is taken. Never empty.
  struct Interval {
    int begin = 0, begin_offset = 0, end = 0, end_offset = 0, demand = 1;
    Option when;
  };
  struct Resource {
    int capacity = 1;
    std::vector<Interval> intervals;
  };

  int points = 1;
  int finish = 0;  ///< the point to come as early as possible, after all others that matter
  std::vector<Difference> differences;
  std::vector<Resource> resources;
  std::vector<int> options;                   ///< by choice: how many options it has
  std::vector<std::vector<Option>> excluded;  ///< options not to be taken all together
};

/// The longest path between each pair of points, entry [from * points + to]: how much later than
/// `from` `to` is at least. Nothing when the differences contradict each other.
inline constexpr int no_path = -(1 << 29);
std::optional<std::vector<int>> longest_paths(const ScheduleProblem&, int horizon);

/// A lower bound of the finish: the network; what must fit one after the other on resources whose
/// intervals exclude each other (heads and tails, as for one machine); and all work that must be
/// done on some resources, by as many as there are.
int lower_bound(const ScheduleProblem&);

struct Schedule {
  std::vector<int> time;    ///< by point
  std::vector<int> option;  ///< by choice
};

/// The earliest time of each point that keeps all differences; nothing when they contradict each
/// other.
std::optional<std::vector<int>> earliest_times(int points,
                                               const std::vector<ScheduleProblem::Difference>&);
/// The latest time of each point up to `last`; the differences must not contradict each other.
std::vector<int> latest_times(int points, const std::vector<ScheduleProblem::Difference>&,
                              int last);

/// The schedule's order kept, each point as early as it can be: never later than before.
Schedule pull_early(const ScheduleProblem&, Schedule);

/// Differences that keep the order in which the intervals of a schedule use their resources.
std::vector<ScheduleProblem::Difference> resource_order(const ScheduleProblem&, const Schedule&);

/// Stops a search from outside, and hears how it goes.
struct Search {
  std::function<bool()> stopped;  ///< asked often; true ends the search with the best so far
  std::function<void(int bound, std::optional<int> best)> progress;  ///< told when either improves
};

}  // namespace beforehand::timing
