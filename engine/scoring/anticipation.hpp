// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <vector>

#include "scoring/hindsight.hpp"
#include "scoring/score.hpp"

namespace beforehand::scoring {

/// What a need ready `lateness` after it was due is worth, 0 to 1. With P the patience: 1 up to one
/// second; from there straight down to 1/2 at P; from there straight down to 0 at 3 P. When it was
/// asked for, at most 1/2.
double credit(Ms lateness, Ms patience, bool asked);

/// The needs of the clinician's steps that were the trainee's to serve, in order of the steps. A
/// step that the clinician took over is worth as much as one asked for, one half.
void find_needs(const Frame&, const Session&, const Trace&, const std::vector<HindsightStep>&,
                std::vector<NeedScore>& out);

/// Mean credit, each need weighted by its severity; 1 when there are none.
double mean_credit(const std::vector<NeedScore>&);

}  // namespace beforehand::scoring
