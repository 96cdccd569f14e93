// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <vector>

#include "procedure/procedure.hpp"

// The part of derive() that is about hands. Both functions add what is wrong to `problems`.

namespace beforehand::procedure {

/// `step` has no hand free before `take_back`.
struct Waiting {
  StepIx take_back, step;
};

/// Follows each person's hands down the file: what is handed over, kept and taken back. Needs the
/// order relation.
std::vector<Waiting> find_who_waits_for_a_take_back(const Procedure&,
                                                    std::vector<Problem>& problems);

/// Finds the steps for which one person would have to cover and offer with more hands than there
/// are. Needs the needs.
void check_hands_at_once(const Procedure&, std::vector<Problem>& problems);

}  // namespace beforehand::procedure
