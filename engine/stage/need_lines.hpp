// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <string>

#include "base/strings.hpp"
#include "procedure/procedure.hpp"
#include "scoring/score.hpp"

namespace beforehand::stage {

/// What a need asked for: the supply, or what was to be done.
std::string name_of(const procedure::Procedure&, const scoring::NeedScore&);

/// Whether it was served as it should be: unasked, and ready when it was due. What the clinician
/// waits for before that is nobody's lateness: curing takes its time.
bool went_well(const scoring::NeedScore&);

/// "3.0 s early", "just in time", "the clinician waited 4.0 s, and asked", "the clinician
/// had to fetch it, 14.0 s lost".
std::string lead_text(const procedure::Procedure&, const scoring::NeedScore&, const Strings&);

}  // namespace beforehand::stage
