// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <string>
#include <vector>

#include "scoring/score.hpp"

namespace beforehand::scoring {

/// One habit to change, with the first moment at which it showed; of idleness, the longest.
struct Advice {
  ErrorKind kind = ErrorKind::late;
  std::string change;   ///< what to do differently, as a rule: "Have it ready before it is wanted."
  std::string example;  ///< what happened at `first`
  std::string why;
  std::string instead;  ///< what to do at that moment
  Ms first{0};
  StepIx step;  ///< the example's; its phase is the stretch to try again
  int times = 1;
  double points = 0;  ///< of 100, lost by all of it
};

/// What a trainee is told afterwards: first what went well, then at most three things to change,
/// the dearest first (an unsafe act before everything).
struct Debrief {
  std::string verdict;
  std::vector<std::string> well;
  std::vector<Advice> change;
};

Debrief debrief(const Procedure&, const Score&);

/// Median and tenth and ninetieth percentile, by linear interpolation between order statistics
/// (definition 7 of Hyndman and Fan 1996); zeros for an empty list.
struct Quantiles {
  Ms p10{0}, median{0}, p90{0};
};
Quantiles quantiles(std::vector<Ms> values);

/// Of the leads of the needs that were met, and of the waits of all.
Quantiles leads(const Score&);
Quantiles waits(const Score&);

/// From the request to when it was ready, or to when the clinician's own help was over, summed over
/// the needs that were asked for.
Ms request_time(const Score&);

}  // namespace beforehand::scoring
