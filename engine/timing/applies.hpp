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

}  // namespace beforehand::timing
