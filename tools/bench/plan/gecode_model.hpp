// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <optional>

#include "timing/schedule.hpp"

namespace beforehand::bench {

/// CPU time of this program until now.
double cpu_seconds();

/// How far Gecode came with the same scheduling problem, on one thread.
struct Baseline {
  std::optional<int> finish;  ///< the best found
  std::optional<int> span;    ///< with a proven finish: the least found from `first` to `last`
  bool finish_proven = false, span_proven = false;
  double seconds = 0;  ///< CPU time until both were proven, or until it was stopped
};

/// Earliest finish up to `horizon`, then the least time between two points with that finish;
/// `limit_s` is for both together.
Baseline solve_with_gecode(const timing::ScheduleProblem&, int first, int last, int horizon,
                           double limit_s);

}  // namespace beforehand::bench
