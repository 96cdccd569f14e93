// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <vector>

#include "procedure/event_graph.hpp"
#include "procedure/procedure.hpp"

namespace beforehand::procedure {

/// Finds maximum lags and working times that what must come between overruns even at its quickest.
void check_lags(const Procedure&, const EventGraph&, std::vector<Problem>& problems);

}  // namespace beforehand::procedure
