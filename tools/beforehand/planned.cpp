// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "planned.hpp"

#include <fmt/format.h>

#include <chrono>

#include "commands.hpp"
#include "timing/feasible.hpp"
#include "watching.hpp"

namespace beforehand::command {

using procedure::Procedure;
using timing::Plan;
using timing::PlanRequest;

void limit(PlanRequest& request, double seconds) {
  const auto deadline =
      std::chrono::steady_clock::now() + Ms{static_cast<std::int64_t>(seconds * 1000)};
  heed_interrupts();
  request.stopped = [deadline] {
    return interrupted() || std::chrono::steady_clock::now() >= deadline;
  };
}

void require_plan(const Procedure& p, const PlanRequest& request, const Plan& plan) {
  if (plan.outcome == Plan::Outcome::impossible) {
    throw Failure(input_at_fault, fmt::format("{} cannot be carried out: its lags, hands and "
                                              "devices leave no plan",
                                              p.id));
  }
  if (!plan.found()) {
    throw Failure(environment_at_fault,
                  interrupted() ? "stopped before a plan was found"
                                : "no plan found in this time; give more with --time-limit");
  }
  const auto faults = timing::violations(p, request.happened, plan, request.phase);
  if (!faults.empty()) {
    throw Failure(environment_at_fault, "the plan does not pass its own check: " + faults.front());
  }
}

Plan best_plan(const Procedure& p, double seconds) {
  PlanRequest request;
  limit(request, seconds);
  const auto found = timing::plan(p, request);
  require_plan(p, request, found);
  return found;
}

std::string headline(const Plan& plan) {
  const auto chair = duration_text(plan.chair_time), wait = duration_text(plan.clinician_wait);
  if (plan.proven()) {
    return fmt::format(
        "chair time {} (proven: no plan is shorter), the clinician waits {} (proven)", chair, wait);
  }
  if (plan.chair_time_proven) {
    return fmt::format(
        "chair time {} (proven: no plan is shorter), the clinician waits {} (best "
        "found)",
        chair, wait);
  }
  return fmt::format(
      "chair time {} (best found; no plan is shorter than {}), the clinician waits {}", chair,
      duration_text(plan.lower_bound), wait);
}

}  // namespace beforehand::command
