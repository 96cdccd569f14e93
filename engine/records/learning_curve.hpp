// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

// How a trainee's totals grow from drill to drill. The law is fitted to what is missing to 100.

namespace beforehand::records {

/// A law of practice: what is missing at the n-th drill.
enum class Law : std::uint8_t {
  level,        ///< floor: no learning to be seen
  exponential,  ///< floor + gain * exp(-rate * (n - 1)): fits one person best (Heathcote 2000)
  power,        ///< floor + gain * n^-rate (Newell and Rosenbloom 1981; with floor 0 Crawford's)
};

struct CurvePoint {
  double value = 0, low = 0, high = 0;  ///< totals, 0..100; the band holds the mean with 95 %
};

struct LearningCurve {
  Law law = Law::level;
  double floor = 0, gain = 0, rate = 0;                         ///< of what is missing
  double aicc_level = 0, aicc_exponential = 0, aicc_power = 0;  ///< the smallest is chosen
  double residual_sd = 0;                                       ///< points
  std::vector<CurvePoint> points;                               ///< one a drill, then `ahead` more
};

/// The fewest drills a law can be chosen from.
inline constexpr std::size_t fewest_for_law = 6;

/// Fits level, exponential and power law and takes the best by AICc. A law that would promise more
/// than 100 is fitted again with floor 0; one by which the trainee gets worse is left out, and so
/// is one the drills do not determine. Nothing for fewer than fewest_for_law drills.
std::optional<LearningCurve> learning_curve(std::span<const double> totals, std::size_t ahead = 5);

/// What is missing at the n-th drill, n >= 1, by the law.
double missing_at(const LearningCurve&, double n);

/// The share that remains at each doubling of the drills under a power law with floor 0: 0.8 for
/// Wright's and Crawford's "80 per cent curve".
double doubling_share(double rate);
double rate_of_doubling(double share);

}  // namespace beforehand::records
