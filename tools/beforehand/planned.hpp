// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <string>

#include "timing/plan.hpp"

namespace beforehand::command {

/// Lets the search run no longer than so many seconds, and end at Ctrl-C.
void limit(timing::PlanRequest&, double seconds);

/// Ends the command unless a plan was found that the separate check accepts.
void require_plan(const procedure::Procedure&, const timing::PlanRequest&, const timing::Plan&);

/// The best plan when no signal comes, accepted by the separate check.
timing::Plan best_plan(const procedure::Procedure&, double seconds);

/// "chair time 11 min 30 s (proven: no plan is shorter), the clinician waits ...".
std::string headline(const timing::Plan&);

}  // namespace beforehand::command
