// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <vector>

#include "procedure/procedure.hpp"

// The part of derive() that is about needs. Both functions want the order relation filled in and
// add what is wrong to `problems`.

namespace beforehand::procedure {

/// `step` has no hand free before `take_back`.
struct Waiting {
  StepIx take_back, step;
};

/// Follows each person's hands down the file: what is handed over, kept and taken back.
std::vector<Waiting> find_who_waits_for_a_take_back(const Procedure&,
                                                    std::vector<Problem>& problems);

/// Finds who serves each supply a step needs and who prepared it, and adds the needs for covers and
/// for what only others do.
void fill_in_needs(Procedure&, std::vector<Problem>& problems);

}  // namespace beforehand::procedure
