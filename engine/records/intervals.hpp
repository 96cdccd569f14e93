// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

// Chances and intervals of shares: how much is known about somebody after a few attempts.

namespace beforehand::records {

struct Interval {
  double low = 0, high = 1;
};

/// The regularised incomplete beta function: the chance that a share distributed as Beta(a, b) is
/// at most x. Needs a, b > 0. By its continued fraction (Abramowitz and Stegun 1964, 26.5.8).
double beta_cdf(double a, double b, double x);
/// Its inverse. Needs 0 <= chance <= 1.
double beta_quantile(double a, double b, double chance);

/// Student's t (1908): the value not exceeded with this chance, at least 1/2.
double t_quantile(double freedom, double chance);

/// The score interval of a share (Wilson 1927), 95 %: passed of attempts. Without an attempt 0 to
/// 1.
Interval wilson(int passed, int attempts);

/// The standard normal distribution's 97.5 % point.
inline constexpr double z_975 = 1.959963984540054;

}  // namespace beforehand::records
