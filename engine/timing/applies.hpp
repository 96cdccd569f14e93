// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <algorithm>
#include <vector>

#include "procedure/procedure.hpp"

namespace beforehand::timing {

/// Whether a step is done when exactly the signals `happened` happen.
inline bool applies(const procedure::Step& step, const std::vector<SignalIx>& happened) {
  const auto has = [&](SignalIx s) {
    return std::find(happened.begin(), happened.end(), s) != happened.end();
  };
  return std::all_of(step.when.begin(), step.when.end(), has) &&
         std::none_of(step.unless.begin(), step.unless.end(), has);
}

/// Whether a step takes place when only `phase` is done: the steps of the phase, and what is handed
/// over for them though it belongs to an earlier one. No phase: all steps.
inline bool in_part(const procedure::Procedure& p, StepIx i, PhaseIx phase) {
  const auto& step = p.step(i);
  if (!phase || step.phase == phase) return true;
  return step.phase < phase && step.serves && p.step(step.serves).phase == phase;
}

}  // namespace beforehand::timing
