// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "records/least_squares.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <limits>

namespace beforehand::records {
namespace {

using Vector = std::vector<double>;
using Matrix = std::vector<Vector>;

// The inverse by Gauss-Jordan elimination with pivoting; empty when there is none.
Matrix inverse(Matrix m) {
  const std::size_t n = m.size();
  for (std::size_t i = 0; i < n; ++i) {
    m[i].resize(2 * n);
    m[i][n + i] = 1;
  }
  for (std::size_t column = 0; column < n; ++column) {
    auto pivot = column;
    for (auto r = column; r < n; ++r)
      if (std::abs(m[r][column]) > std::abs(m[pivot][column])) pivot = r;
    if (!(std::abs(m[pivot][column]) > 1e-13)) return {};
    std::swap(m[column], m[pivot]);
    const double by = m[column][column];
    for (auto& v : m[column]) v /= by;
    for (std::size_t r = 0; r < n; ++r) {
      if (r == column) continue;
      const double times = m[r][column];
      for (std::size_t c = 0; c < 2 * n; ++c) m[r][c] -= times * m[column][c];
    }
  }
  for (auto& row : m) row.erase(row.begin(), row.begin() + static_cast<std::ptrdiff_t>(n));
  return m;
}

// The normal equations at one set of parameters, scaled so that the diagonal is 1 and neither the
// pivots nor the damping depend on the units.
struct Normal {
  double squares = 0;
  Vector scale, gradient;  // gradient of half the squares, scaled
  Matrix matrix;
};

double squares_of(const Model& model, std::span<const double> x, std::span<const double> y,
                  const Vector& at) {
  Vector slopes(at.size());
  double sum = 0;
  for (std::size_t i = 0; i < x.size(); ++i) {
    const double rest = y[i] - model(x[i], at, slopes);
    sum += rest * rest;
  }
  return std::isfinite(sum) ? sum : std::numeric_limits<double>::infinity();
}

Normal normal_equations(const Model& model, std::span<const double> x, std::span<const double> y,
                        const Vector& at) {
  const std::size_t n = at.size();
  Normal e{0, Vector(n), Vector(n), Matrix(n, Vector(n))};
  Vector slopes(n);
  for (std::size_t i = 0; i < x.size(); ++i) {
    const double rest = y[i] - model(x[i], at, slopes);
    e.squares += rest * rest;
    for (std::size_t r = 0; r < n; ++r) {
      e.gradient[r] += slopes[r] * rest;
      for (std::size_t c = 0; c < n; ++c) e.matrix[r][c] += slopes[r] * slopes[c];
    }
  }
  for (std::size_t r = 0; r < n; ++r) e.scale[r] = std::sqrt(e.matrix[r][r]);
  for (std::size_t r = 0; r < n; ++r) {
    e.gradient[r] /= e.scale[r];
    for (std::size_t c = 0; c < n; ++c) e.matrix[r][c] /= e.scale[r] * e.scale[c];
  }
  return e;
}

// The step the damped equations give; empty when they have no solution. Each parameter is damped by
// the steepest it has been (More 1978), so that one which has lost its effect cannot run away.
Vector step_of(const Normal& e, const Vector& steepest, double damping) {
  auto m = e.matrix;
  for (std::size_t r = 0; r < m.size(); ++r) {
    const double ratio = steepest[r] / e.scale[r];
    m[r][r] += damping * ratio * ratio;
  }
  const auto solved = inverse(std::move(m));
  Vector step(solved.size());
  for (std::size_t r = 0; r < solved.size(); ++r) {
    for (std::size_t c = 0; c < solved.size(); ++c) step[r] += solved[r][c] * e.gradient[c];
    step[r] /= e.scale[r];
  }
  return step;
}

bool negligible(const Vector& step, const Vector& at) {
  for (std::size_t r = 0; r < at.size(); ++r)
    if (std::abs(step[r]) > 1e-13 * (std::abs(at[r]) + 1e-13)) return false;
  return true;
}

// Walks down until a step no longer moves anything. False when it gets nowhere.
bool descend(const Model& model, std::span<const double> x, std::span<const double> y, Vector& at) {
  double damping = 1000;  // short steps first: the start may lie far off
  Vector steepest(at.size());
  for (int round = 0; round < 2000; ++round) {
    const auto e = normal_equations(model, x, y, at);
    for (std::size_t r = 0; r < at.size(); ++r) steepest[r] = std::max(steepest[r], e.scale[r]);
    const auto step = step_of(e, steepest, damping);
    if (step.empty()) return false;
    if (negligible(step, at)) return true;
    auto next = at;
    for (std::size_t r = 0; r < at.size(); ++r) next[r] += step[r];
    if (squares_of(model, x, y, next) <= e.squares) {
      at = next;
      damping = std::max(1e-15, damping / 10);
    } else {
      damping *= 10;
      if (damping > 1e12) return true;  // no step in any direction is better: the bottom
    }
  }
  return false;
}

}  // namespace

Fit fit(const Model& model, std::span<const double> x, std::span<const double> y, Vector start) {
  assert(x.size() == y.size() && x.size() > start.size());
  Fit f;
  f.converged = descend(model, x, y, start);
  f.parameters = std::move(start);
  const auto e = normal_equations(model, x, y, f.parameters);
  f.squares = e.squares;
  f.residual_sd = std::sqrt(f.squares / static_cast<double>(x.size() - f.parameters.size()));
  f.covariance = inverse(e.matrix);
  if (f.covariance.empty()) f.converged = false;
  for (std::size_t r = 0; r < f.covariance.size(); ++r) {
    for (std::size_t c = 0; c < f.covariance.size(); ++c)
      f.covariance[r][c] *= f.residual_sd * f.residual_sd / (e.scale[r] * e.scale[c]);
    f.errors.push_back(std::sqrt(f.covariance[r][r]));
  }
  return f;
}

double value_error(const Model& model, const Fit& f, double x) {
  Vector slopes(f.parameters.size());
  model(x, f.parameters, slopes);
  double variance = 0;
  for (std::size_t r = 0; r < f.covariance.size(); ++r)
    for (std::size_t c = 0; c < f.covariance.size(); ++c)
      variance += slopes[r] * f.covariance[r][c] * slopes[c];
  return std::sqrt(std::max(0.0, variance));
}

double aicc(double squares, std::size_t points, std::size_t parameters) {
  assert(points > parameters + 2);
  const auto n = static_cast<double>(points), k = static_cast<double>(parameters + 1);
  // An exact fit would be infinitely good; rounding makes it merely very good.
  const double variance = std::max(squares / n, 1e-18);
  return n * std::log(variance) + 2 * k + 2 * k * (k + 1) / (n - k - 1);
}

}  // namespace beforehand::records
