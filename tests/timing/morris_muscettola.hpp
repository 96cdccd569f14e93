// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include "timing/controllability.hpp"

namespace beforehand::timing {

/// Dynamic controllability by the reductions of Morris, Muscettola 2005, Temporal dynamic
/// controllability revisited (AAAI-05): a second opinion, slow, for small networks. The lower and
/// cross cases ask for a negative edge, as in Morris 2006 (CP 2006), since one may react at once.
bool controllable_by_reductions(const UncertainNetwork&);

/// Dynamic controllability by playing the game out in whole milliseconds against every possible
/// course of the contingent durations; for a few points and durations of a few milliseconds, all at
/// least 1. `horizon`: all points must be timed by then.
bool controllable_by_play(const UncertainNetwork&, int horizon);

}  // namespace beforehand::timing
