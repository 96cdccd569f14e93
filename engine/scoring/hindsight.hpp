// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <vector>

#include "scoring/trace.hpp"

// When each of the trainee's steps could have been done and was due, judged afterwards by what the
// others did and when.

namespace beforehand::scoring {

/// The reaction and hand-over allowance: a hand-over between two who sit close and aligned takes
/// under a second (Korkiakangas and others 2014), and a choice among a few things to do 0.2 to 0.7
/// s (Hick 1952).
inline constexpr Ms allowance{1000};

struct HindsightStep {
  bool trainees = false;  ///< the trainee's to do, and it applied
  Ms takes{0};            ///< as long as it took, or usually takes when it was not done; a cover: 0
  Ms soonest = never;     ///< the soonest it could have ended, given what others did and when
  Ms opened = never;      ///< from when it could really be begun, and would have been of use
  Ms wanted = never;      ///< a step of somebody else's: from when all it needs was due
  Ms due = never;         ///< by when it had to have ended so that nobody waited for it
};

/// By step, into `out`, which keeps its memory.
void look_back(const Frame&, const Session&, const Trace&, std::vector<HindsightStep>& out);

}  // namespace beforehand::scoring
