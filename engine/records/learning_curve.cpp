// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "records/learning_curve.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "records/intervals.hpp"
#include "records/least_squares.hpp"

namespace beforehand::records {
namespace {

using Values = std::vector<double>;

// exp(-rate (n - 1)) or n^-rate, and its derivative by the rate.
struct Shape {
  double value = 0, slope = 0;
};
Shape shape(Law law, double rate, double n) {
  const double log_base = law == Law::power ? std::log(n) : n - 1;
  const double value = std::exp(-rate * log_base);
  return {value, -log_base * value};
}

// Parameters: gain, rate, and the floor unless it is held at 0.
Model model_of(Law law) {
  if (law == Law::level) {
    return [](double, std::span<const double> p, std::span<double> slopes) {
      slopes[0] = 1;
      return p[0];
    };
  }
  return [law](double n, std::span<const double> p, std::span<double> slopes) {
    const auto s = shape(law, p[1], n);
    slopes[0] = s.value;
    slopes[1] = p[0] * s.slope;
    if (p.size() > 2) slopes[2] = 1;
    return p[0] * s.value + (p.size() > 2 ? p[2] : 0);
  };
}

// Gain and floor by linear least squares for a given rate.
Values linear(Law law, double rate, const Values& n, const Values& y) {
  double sf = 0, sy = 0, sff = 0, sfy = 0;
  const auto count = static_cast<double>(n.size());
  for (std::size_t i = 0; i < n.size(); ++i) {
    const double f = shape(law, rate, n[i]).value;
    sf += f;
    sy += y[i];
    sff += f * f;
    sfy += f * y[i];
  }
  const double gain = (count * sfy - sf * sy) / (count * sff - sf * sf);
  return {gain, rate, (sy - gain * sf) / count};
}

// The best of a row of rates: near enough for the fit to find the bottom.
Values start_of(Law law, const Values& n, const Values& y) {
  const auto model = model_of(law);
  Values best, slopes(3);
  double least = std::numeric_limits<double>::infinity();
  for (double rate = 0.01; rate < 8; rate *= 1.3) {
    const auto p = linear(law, rate, n, y);
    double squares = 0;
    for (std::size_t i = 0; i < n.size(); ++i) {
      const double rest = y[i] - model(n[i], p, slopes);
      squares += rest * rest;
    }
    if (squares < least) {
      least = squares;
      best = p;
    }
  }
  return best;
}

constexpr double slowest = 1e-3, fastest = 10;

bool sensible(const Fit& f) {
  return f.converged && f.parameters[0] > 0 && f.parameters[1] > slowest &&
         f.parameters[1] < fastest;
}

std::optional<Fit> fit_law(Law law, const Values& n, const Values& y) {
  const auto model = model_of(law);
  auto start = start_of(law, n, y);
  if (start.empty()) return std::nullopt;
  auto f = fit(model, n, y, start);
  if (sensible(f) && f.parameters[2] >= 0) return f;
  start.pop_back();
  f = fit(model, n, y, start);
  if (sensible(f)) return f;
  return std::nullopt;
}

Fit fit_level(const Values& n, const Values& y) { return fit(model_of(Law::level), n, y, {y[0]}); }

double judge(const std::optional<Fit>& f, std::size_t points) {
  if (!f) return std::numeric_limits<double>::infinity();
  return aicc(f->squares, points, f->parameters.size());
}

CurvePoint point_at(const Model& model, const Fit& f, double t, double n) {
  Values slopes(f.parameters.size());
  const double value = 100 - model(n, f.parameters, slopes), half = t * value_error(model, f, n);
  const auto total = [](double v) { return std::clamp(v, 0.0, 100.0); };
  return {total(value), total(value - half), total(value + half)};
}

}  // namespace

std::optional<LearningCurve> learning_curve(std::span<const double> totals, std::size_t ahead) {
  if (totals.size() < fewest_for_law) return std::nullopt;
  Values n, missing;
  for (const double total : totals) {
    n.push_back(static_cast<double>(n.size() + 1));
    missing.push_back(100 - total);
  }
  const std::optional<Fit> level = fit_level(n, missing);
  const auto exponential = fit_law(Law::exponential, n, missing);
  const auto power = fit_law(Law::power, n, missing);
  LearningCurve c;
  c.aicc_level = judge(level, n.size());
  c.aicc_exponential = judge(exponential, n.size());
  c.aicc_power = judge(power, n.size());
  if (std::min(c.aicc_exponential, c.aicc_power) < c.aicc_level)
    c.law = c.aicc_exponential <= c.aicc_power ? Law::exponential : Law::power;
  const auto& chosen = c.law == Law::level         ? *level
                       : c.law == Law::exponential ? *exponential
                                                   : *power;
  const auto& p = chosen.parameters;
  if (c.law == Law::level) {
    c.floor = p[0];
  } else {
    c.gain = p[0];
    c.rate = p[1];
    c.floor = p.size() > 2 ? p[2] : 0;
  }
  c.residual_sd = chosen.residual_sd;
  const auto model = model_of(c.law);
  const double t = t_quantile(static_cast<double>(n.size() - p.size()), 0.975);
  for (std::size_t i = 1; i <= n.size() + ahead; ++i)
    c.points.push_back(point_at(model, chosen, t, static_cast<double>(i)));
  return c;
}

double missing_at(const LearningCurve& c, double n) {
  return c.floor + (c.law == Law::level ? 0 : c.gain * shape(c.law, c.rate, n).value);
}

double doubling_share(double rate) { return std::exp2(-rate); }
double rate_of_doubling(double share) { return -std::log2(share); }

}  // namespace beforehand::records
