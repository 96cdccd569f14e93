// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <vector>

#include "scoring/hindsight.hpp"
#include "scoring/sequence.hpp"

namespace beforehand::scoring {

/// Everything the errors are found from.
struct Findings {
  const Frame& frame;
  const Session& session;
  const Trace& trace;
  const std::vector<HindsightStep>& hindsight;
  const Alignment& alignment;
  const std::vector<NeedScore>& needs;
};

/// The trainee's errors by time, without words yet. One mistake is one error: what followed from it
/// is listed in followed_by.
void find_errors(const Findings&, std::vector<Error>& out);

/// Puts an error into words: what, why and instead.
void describe(const Findings&, Error&);

/// The weight of the errors that an order of steps cannot show: contaminated, overrun, uncovered.
int faults(const std::vector<Error>&);

/// True for what was kept until the clinician asked for it: extra, its `cause` the step held up.
bool is_kept(const Error&);

/// True for an error that stands against `ready` at any total: an unsafe act, or a major or
/// critical one of another kind than late, extra or repeated (lateness is measured by
/// anticipation).
bool bars_ready(const Error&);

}  // namespace beforehand::scoring
