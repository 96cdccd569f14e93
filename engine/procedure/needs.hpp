// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <vector>

#include "procedure/procedure.hpp"

namespace beforehand::procedure {

/// The part of derive() that is about needs: finds who serves each supply a step needs and who
/// prepared it, and adds the needs for covers and for what only others do. Adds what is wrong to
/// `problems`.
void fill_in_needs(Procedure&, std::vector<Problem>& problems);

}  // namespace beforehand::procedure
