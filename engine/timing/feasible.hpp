// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <string>
#include <vector>

#include "timing/plan.hpp"

namespace beforehand::timing {

/// Everything in which a plan breaks the rules of its procedure: one sentence each, none for a plan
/// that can be carried out. Plays the plan moment by moment, and shares nothing with the search:
/// neither its model nor its network.
std::vector<std::string> violations(const Procedure&, const std::vector<SignalIx>& happened,
                                    const Plan&, PhaseIx phase = {});

}  // namespace beforehand::timing
