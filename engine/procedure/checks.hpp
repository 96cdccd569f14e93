// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <vector>

#include "procedure/procedure.hpp"

namespace beforehand::procedure {

/// What derive() leaves open but nobody could play, or nobody should teach: lags that cannot be met
/// by least durations, working times shorter than what must happen within them, phases out of
/// order, conditions asked before they are known, too few hands, sharps away from the sharps
/// container. Needs a derived procedure without cycles.
std::vector<Problem> check(const Procedure&);

}  // namespace beforehand::procedure
