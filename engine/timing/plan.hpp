// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <functional>
#include <optional>
#include <vector>

#include "procedure/procedure.hpp"

namespace beforehand::timing {

using procedure::Procedure;

struct PlannedStep {
  PersonIx by;                          ///< none: the step does not happen
  Ms start = never, end = never;        ///< a cover ends with the last step it covers
  Ms earliest = never, latest = never;  ///< bounds of the start in which this plan's order of
                                        ///< steps keeps its chair time and waiting
  bool happens() const { return bool(by); }
};

/// The reference plan: the best this procedure can be with usual durations, for the signals that
/// happen. Best is, in this order: the shortest chair time; the least waiting of the clinician; and
/// then, unproven, whom the file prefers for what several may do; the freshest preps.
struct Plan {
  enum class Outcome : std::uint8_t {
    proven,      ///< no plan has less chair time, and with this chair time none has less waiting
    best_found,  ///< the search was stopped; what holds is `lower_bound`
    none_found,  ///< the search was stopped before it found a plan
    impossible,  ///< no plan exists: lags, hands or devices contradict each other
  };
  Outcome outcome = Outcome::none_found;
  Ms chair_time{0};
  Ms lower_bound{0};  ///< proven: no plan has less chair time
  bool chair_time_proven = false;
  Ms clinician_wait{0};        ///< from the clinician's first to last own work, all that is not own
                               ///< work; own is what only the clinician may do
  Ms clinician_wait_bound{0};  ///< proven, for this chair time; 0 while the chair time is not
  Ms unit{0};                  ///< all times are multiples of it (plan_model.hpp)
  std::vector<PlannedStep> steps;  ///< by step

  bool found() const { return outcome == Outcome::proven || outcome == Outcome::best_found; }
  bool proven() const { return outcome == Outcome::proven; }
};

/// The steps that happen, by their start; those that start together as in the file.
std::vector<StepIx> in_order(const Plan&);

struct PlanRequest {
  std::vector<SignalIx> happened;  ///< the signals that happen; all others do not
  PhaseIx phase;                   ///< only this, all before it done; none: the whole procedure
  std::function<bool()> stopped;   ///< asked often, also from inside the search: true ends it
  std::function<void(Ms bound, std::optional<Ms> best)> progress;  ///< when either gets better
};

/// Finds the reference plan. The same procedure and signals give the same plan unless the search is
/// stopped. Throws std::invalid_argument when the links run in a circle.
Plan plan(const Procedure&, const PlanRequest& = {});

}  // namespace beforehand::timing
