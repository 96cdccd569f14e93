// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <vector>

#include "procedure/procedure.hpp"

namespace beforehand::procedure {

/// What can be played but is likely not meant, or not said: a step that never takes place, a prep
/// that serves nothing, water that nobody takes up, a phase in which the clinician needs nothing of
/// anybody, an assistant's step without a cue or a why, a duty that the law commonly keeps from
/// assistants. Warnings only, ordered by place.
std::vector<Problem> advice(const Procedure&);

}  // namespace beforehand::procedure
