// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include "timing/order_solver.hpp"
#include "timing/schedule.hpp"

namespace beforehand::timing {

/// The earliest finish of a ScheduleProblem, as far as a search came.
struct Optimum {
  enum class Kind : std::uint8_t {
    proven,      ///< no schedule finishes earlier
    best_found,  ///< the search was stopped; none finishes before `bound`
    none_found,  ///< the search was stopped before it found a schedule
    impossible,  ///< no schedule exists
  };
  Kind kind = Kind::none_found;
  Schedule best;
  int finish = 0;
  int bound = 0;
};

/// Finds the earliest finish: lower bound first, then bisection between it and the best found.
class Minimizer {
 public:
  explicit Minimizer(const ScheduleProblem&);

  Optimum shortest(const Search&);

  /// The solver behind the last answer, for further questions up to the same horizon; none when
  /// there is no schedule.
  OrderSolver* solver() { return solver_.get(); }

 private:
  bool open_up(int horizon);
  void keep(const Search&);

  const ScheduleProblem& problem_;
  std::vector<int> paths_;
  std::unique_ptr<OrderSolver> solver_;
  Optimum result_;
};

}  // namespace beforehand::timing
