// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <cmath>

#include "procedure/procedure.hpp"

namespace beforehand::timing {

/// Expectation and variance of a duration, or of durations one after the other.
struct Spread {
  Ms mean{0};
  double variance_s2 = 0;  ///< square seconds

  friend Spread operator+(Spread a, Spread b) {
    return {a.mean + b.mean, a.variance_s2 + b.variance_s2};
  }
};

/// The three-point estimate of the programme evaluation and review technique (Malcolm, Roseboom,
/// Clark, Fazar 1959, Operations Research 7:646): mean (least + 4 usual + most) / 6, standard
/// deviation (most - least) / 6. An approximation for planning; drills draw from another
/// distribution.
inline Spread spread_of(const procedure::Estimate& e) {
  const double deviation = to_seconds(e.most - e.least) / 6;
  return {(e.least + 4 * e.usual + e.most) / 6, deviation * deviation};
}

/// The chance that it takes no longer than `limit`, taken as normally distributed.
inline double chance_within(const Spread& s, Ms limit) {
  const double above = to_seconds(limit - s.mean);
  if (s.variance_s2 <= 0) return above >= 0 ? 1 : 0;
  return 0.5 * std::erfc(-above / std::sqrt(2 * s.variance_s2));
}

}  // namespace beforehand::timing
