// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <vector>

#include "procedure/procedure.hpp"

namespace beforehand::timing {

/// What the times of a procedure make unlikely to be meant, without signals: a prep whose window is
/// shorter than two seconds, and a person who has nothing to do for more than a third of the time
/// that is not marked as a lapse. Warnings only, ordered by place.
std::vector<Problem> advice(const procedure::Procedure&);

}  // namespace beforehand::timing
