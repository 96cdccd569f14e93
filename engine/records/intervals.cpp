// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "records/intervals.hpp"

#include <cassert>
#include <cmath>

#include "study/statistics.hpp"

namespace beforehand::records {

double beta_cdf(double a, double b, double x) {
  assert(a > 0 && b > 0);
  if (x <= 0) return 0;
  if (x >= 1) return 1;
  return study::incomplete_beta(a, b, x);
}

double beta_quantile(double a, double b, double chance) {
  assert(chance >= 0 && chance <= 1);
  double low = 0, high = 1;
  for (int i = 0; i < 200 && high - low > 1e-15 * high; ++i) {
    const double middle = (low + high) / 2;
    (beta_cdf(a, b, middle) < chance ? low : high) = middle;
  }
  return (low + high) / 2;
}

// t^2 / (f + t^2) is distributed as Beta(1/2, f/2).
double t_quantile(double freedom, double chance) {
  assert(freedom > 0 && chance >= 0.5 && chance < 1);
  const double rest = beta_quantile(freedom / 2, 0.5, 2 * (1 - chance));
  return std::sqrt(freedom * (1 - rest) / rest);
}

Interval wilson(int passed, int attempts) {
  assert(passed >= 0 && passed <= attempts);
  if (attempts == 0) return {};
  const double n = attempts, share = passed / n, z2 = z_975 * z_975;
  const double middle = (share + z2 / (2 * n)) / (1 + z2 / n);
  const double half = z_975 * std::sqrt(share * (1 - share) / n + z2 / (4 * n * n)) / (1 + z2 / n);
  return {passed == 0 ? 0 : middle - half, passed == attempts ? 1 : middle + half};
}

}  // namespace beforehand::records
