// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <functional>
#include <span>
#include <vector>

// Nonlinear least squares for a handful of parameters, by the method of Levenberg (1944) and
// Marquardt (1963). Our own: three parameters need a 3 x 3 solver, and a linear algebra library
// would be the largest thing the program is built with.

namespace beforehand::records {

/// The model's value at x, and its derivatives by the parameters into `slopes`.
using Model =
    std::function<double(double x, std::span<const double> parameters, std::span<double> slopes)>;

struct Fit {
  std::vector<double> parameters;
  std::vector<double> errors;  ///< standard deviations of the parameters
  std::vector<std::vector<double>> covariance;
  double squares = 0;      ///< residual sum of squares
  double residual_sd = 0;  ///< its root over the degrees of freedom
  bool converged = false;  ///< false: no minimum found, or the parameters cannot be told apart
};

/// Needs as many y as x, and more of them than parameters.
Fit fit(const Model&, std::span<const double> x, std::span<const double> y,
        std::vector<double> start);

/// The standard deviation of the fitted value at x (delta method).
double value_error(const Model&, const Fit&, double x);

/// Akaike's information criterion corrected for few points (Hurvich and Tsai 1989); the variance
/// counts as a parameter. Needs points > parameters + 2.
double aicc(double squares, std::size_t points, std::size_t parameters);

}  // namespace beforehand::records
