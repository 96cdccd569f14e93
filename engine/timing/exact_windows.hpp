// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <optional>
#include <vector>

#include "timing/plan.hpp"

namespace beforehand::timing {

/// When a step may start so that the best can still be reached.
struct StartRange {
  Ms earliest = never;  ///< no best plan starts it earlier; for what is handed over or held for a
                        ///< step: no best plan in which that lasts no longer than Procedure::offer
                        ///< before the step, if there is one
  Ms latest = never;    ///< no best plan starts it later
};

/// The range of starts of every step over all plans as good as this one, proven best for the same
/// procedure and request: the same chair time, no more waiting. Each bound is reached by some such
/// plan, though not all bounds by one. By step; what does not happen has never. Nothing when the
/// plan is not proven, or the search is stopped.
std::optional<std::vector<StartRange>> exact_windows(const Procedure&, const PlanRequest&,
                                                     const Plan&);

}  // namespace beforehand::timing
