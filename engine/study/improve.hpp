// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "study/change.hpp"
#include "study/comparison.hpp"
#include "timing/plan.hpp"

namespace beforehand::study {

/// A scenario's text, what was read from it, and its reference plan.
struct Planned {
  std::string yaml;
  Procedure procedure;
  timing::Plan plan;
};

/// A change and what it gains. Gains are seconds less, so that more is better.
struct Improvement {
  Change change;
  Ms plan_gain{0};
  bool plan_proven = false;               ///< both plans are
  Ms plan_wait_gain{0};                   ///< the clinician's waiting in the plan
  Difference chair_time, clinician_wait;  ///< in simulation, A without and B with the change

  double gain_s() const { return -chair_time.b_less_a.mean; }
};

struct ImproveRequest {
  drill::Habit habit;
  Runs runs;  ///< of each comparison; its watch counts changes looked at
  std::function<timing::PlanRequest()> plan_request;  ///< one a plan, asked for as it begins
};

struct Improvements {
  std::size_t possible = 0, looked_at = 0;  ///< fewer when stopped
  std::size_t unsound = 0;                  ///< the changed scenario has errors, or no plan
  /// Those that gain chair time in plan or simulation, or waiting in a plan no longer; the most
  /// chair time in simulation first.
  std::vector<Improvement> found;
};

/// Reads and plans a scenario. Throws std::runtime_error when it has errors or no plan is found, or
/// when the separate check (timing/feasible.hpp) refuses the plan.
Planned planned(std::string yaml, const timing::PlanRequest&);

/// Tries every possible change: the text changed, read and checked anew, planned anew, the plan
/// verified by the separate check, and both ways simulated with common random numbers.
Improvements improve(const Planned&, const ImproveRequest&);

/// The text with several changes, one after the other. Throws procedure::EditError when they do not
/// go together.
std::string applied(std::string yaml, const std::vector<Change>&);

}  // namespace beforehand::study
