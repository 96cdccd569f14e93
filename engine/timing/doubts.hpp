// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <vector>

#include "procedure/procedure.hpp"

namespace beforehand::timing {

/// What the times of a procedure make impossible or doubtful, without signals, with each alone and
/// with all: an error where durations, lags and working times contradict each other, with all that
/// take part; a warning where an assistant who does everything right can still be made late, and by
/// what, as the clinician's steps may take between their least and most time.
std::vector<Problem> doubts(const procedure::Procedure&);

}  // namespace beforehand::timing
