// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "study/statistics.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace beforehand::study {
namespace {

constexpr double z95 = 1.959963984540054;  // normal distribution, 0.975

double at_rank(const std::vector<double>& sorted, double rank) {  // from 0, may lie between two
  const double last = static_cast<double>(sorted.size() - 1);
  const double r = std::clamp(rank, 0.0, last);
  const auto below = static_cast<std::size_t>(r);
  const auto above = std::min(below + 1, sorted.size() - 1);
  return sorted[below] + (r - static_cast<double>(below)) * (sorted[above] - sorted[below]);
}

Quantile quantile(const std::vector<double>& sorted, double p) {
  const auto n = static_cast<double>(sorted.size());
  const double spread = z95 * std::sqrt(n * p * (1 - p));
  return {p,
          at_rank(sorted, (n - 1) * p),
          {at_rank(sorted, std::floor(n * p - spread) - 1),
           at_rank(sorted, std::ceil(n * p + spread) - 1)}};
}

double student_cdf(double t, double freedom) {
  const double tail = incomplete_beta(freedom / 2, 0.5, freedom / (freedom + t * t)) / 2;
  return t > 0 ? 1 - tail : tail;
}

// The continued fraction of the incomplete beta function by the method of Lentz (1976).
double beta_fraction(double a, double b, double x) {
  constexpr double tiny = 1e-300;
  const auto kept = [](double v) { return std::abs(v) < tiny ? tiny : v; };
  double c = 1, d = 1 / kept(1 - (a + b) * x / (a + 1)), f = d;
  for (int i = 1; i <= 500; ++i) {
    const double m = i;
    const double even = m * (b - m) * x / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 / kept(1 + even * d);
    c = kept(1 + even / c);
    f *= d * c;
    const double odd = -(a + m) * (a + b + m) * x / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 / kept(1 + odd * d);
    c = kept(1 + odd / c);
    f *= d * c;
    if (std::abs(d * c - 1) < 1e-15) break;
  }
  return f;
}

}  // namespace

double incomplete_beta(double a, double b, double x) {
  assert(a > 0 && b > 0 && x >= 0 && x <= 1);
  if (x <= 0 || x >= 1) return x;
  const double front = std::exp(std::lgamma(a + b) - std::lgamma(a) - std::lgamma(b) +
                                a * std::log(x) + b * std::log1p(-x));
  return x < (a + 1) / (a + b + 2) ? front * beta_fraction(a, b, x) / a
                                   : 1 - front * beta_fraction(b, a, 1 - x) / b;
}

double student_quantile(double p, double freedom) {
  assert(p > 0 && p < 1 && freedom >= 1);
  double low = -1e6, high = 1e6;
  for (int i = 0; i < 200 && high - low > 1e-12; ++i) {
    const double middle = (low + high) / 2;
    (student_cdf(middle, freedom) < p ? low : high) = middle;
  }
  return (low + high) / 2;
}

Interval probability_interval(double hits, double n) {
  if (n <= 0) return {0, 1};
  const double p = hits / n, z2 = z95 * z95;
  const double middle = (p + z2 / (2 * n)) / (1 + z2 / n);
  const double half = z95 / (1 + z2 / n) * std::sqrt(p * (1 - p) / n + z2 / (4 * n * n));
  return {std::max(0.0, middle - half), std::min(1.0, middle + half)};
}

Summary summarize(std::vector<double> sample) {
  Summary s;
  s.n = sample.size();
  if (sample.empty()) return s;
  const auto n = static_cast<double>(s.n);
  for (const double v : sample) s.mean += v;
  s.mean /= n;
  double squares = 0;
  for (const double v : sample) squares += (v - s.mean) * (v - s.mean);
  double half = 0;
  if (s.n > 1) {
    s.deviation = std::sqrt(squares / (n - 1));
    half = student_quantile(0.975, n - 1) * s.deviation / std::sqrt(n);
  }
  s.mean_sure = {s.mean - half, s.mean + half};
  std::sort(sample.begin(), sample.end());
  s.least = sample.front();
  s.most = sample.back();
  constexpr std::array<double, 5> ps{0.05, 0.25, 0.5, 0.75, 0.95};
  for (std::size_t i = 0; i < ps.size(); ++i) s.quantiles[i] = quantile(sample, ps[i]);
  return s;
}

}  // namespace beforehand::study
