// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <string>
#include <vector>

#include "stage/sitting.hpp"

namespace beforehand::stage {

/// A line of what the guided level tells the trainee.
struct GuideLine {
  enum class Kind {
    now,     ///< somebody will wait for it, and it can be done
    loose,   ///< nobody waits for it, but it is theirs and can be done
    soon,    ///< its time has not come
    late,    ///< somebody waits already
    let_go,  ///< held although nothing needs it
    but,     ///< why the first line cannot be done
    why,
    then,     ///< what comes after it
    nothing,  ///< nothing is needed
  };
  Kind kind = Kind::nothing;
  std::string text;
  ActionIx action = {};  ///< of what is to be done or let go
};

/// What the trainee is told now, the most important first; never empty.
std::vector<GuideLine> guide_of(const Sitting&, const Strings&);

}  // namespace beforehand::stage
