// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <array>
#include <cstddef>
#include <vector>

// What can be said of a sample, and how sure it is. Plain sums in the order of the sample, so that
// the same sample gives the same figures everywhere.

namespace beforehand::study {

/// Ends of a two-sided 95 % confidence interval.
struct Interval {
  double low = 0, high = 0;
  double half_width() const { return (high - low) / 2; }
};

/// A quantile of a sample and the interval of the quantile it was drawn from.
struct Quantile {
  double p = 0, value = 0;
  Interval sure;
};

/// One sample, in the unit of its values.
struct Summary {
  std::size_t n = 0;
  double mean = 0, deviation = 0;  ///< standard deviation with n - 1; 0 for a single value
  Interval mean_sure;              ///< by Student's t; no wider than the mean itself for one value
  double least = 0, most = 0;
  std::array<Quantile, 5> quantiles;  ///< p 0.05, 0.25, 0.5, 0.75, 0.95

  const Quantile& median() const { return quantiles[2]; }
};

/// Quantiles by linear interpolation between order statistics (definition 7 of Hyndman and Fan
/// 1996), their intervals by the ranks n p -+ 1.96 sqrt(n p (1 - p)) (Conover 1999, Practical
/// Nonparametric Statistics, section 3.2). An empty sample gives zeros.
Summary summarize(std::vector<double> sample);

/// The value below which Student's t with `freedom` degrees of freedom lies with probability `p`
/// (Student 1908), found by bisection of its distribution function. 0 < p < 1, freedom >= 1.
double student_quantile(double p, double freedom);

/// The regularised incomplete beta function I_x(a, b), by its continued fraction (Abramowitz and
/// Stegun 1964, 26.5.8). a, b > 0; x in [0, 1].
double incomplete_beta(double a, double b, double x);

/// The interval of a probability of which `hits` of `n` were seen (Wilson 1927). `hits` may be a
/// half: a tie. n = 0 gives 0 to 1.
Interval probability_interval(double hits, double n);

}  // namespace beforehand::study
