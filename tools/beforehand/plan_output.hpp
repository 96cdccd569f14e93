// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <string>

#include "timing/exact_windows.hpp"
#include "timing/explain.hpp"

namespace beforehand::command {

/// A plan with all that is known about it, for the standard output.
struct PlanOutput {
  const procedure::Procedure& procedure;
  const timing::PlanRequest& request;
  timing::Plan plan;
  timing::Explanation explanation;
  /// Whether each step's earliest and latest start are those of all best plans; else of this plan's
  /// order of steps.
  bool exact_windows = false;
};

/// For a terminal: the plan, what it hangs on, who waits, what would change it.
std::string plan_text(const PlanOutput&);
/// Keys as in docs/plan.md.
std::string plan_json(const PlanOutput&);
/// The multiple-activity chart, on one page as wide as A4 across.
std::string plan_svg(const PlanOutput&);

}  // namespace beforehand::command
