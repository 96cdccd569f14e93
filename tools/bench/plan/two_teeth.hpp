// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <string>
#include <vector>

#include "procedure/procedure.hpp"

namespace beforehand::bench {

/// The same procedure with some phases done at two teeth instead of one, the second with supplies
/// of its own, and what follows after both; every duration is stretched or shrunk by up to a tenth,
/// in steps of half a second, as the seed decides. Invented, for measuring: only what planning
/// reads is filled in.
procedure::Procedure two_teeth(const procedure::Procedure&, const std::vector<std::string>& phases,
                               unsigned seed);

}  // namespace beforehand::bench
