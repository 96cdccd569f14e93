// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include "procedure/procedure.hpp"

namespace beforehand::timing {

/// An invented procedure of about `steps` steps (never more), made up from its seed: a clinician's
/// chain of work with materials set out, mixed, passed and taken back, rinsing under suction,
/// curing that either of the two may do, and a few lags and working times. Durations are jittered
/// in whole seconds. Throws when the reader finds fault with it.
procedure::Procedure generated(unsigned seed, std::size_t steps);

}  // namespace beforehand::timing
