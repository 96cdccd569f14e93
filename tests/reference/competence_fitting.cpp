// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// The least squares against the Statistical Reference Datasets of the US National Institute of
// Standards and Technology (nonlinear regression): DanWood (lower difficulty), Misra1a (lower) and
// BoxBOD (higher). Data and certified values from memory; the data reproduce the certified values
// to the digits asked for, which wrong ones would not.
// The learning curves against T. P. Wright, Journal of the Aeronautical Sciences 3 (1936) 122, and
// J. R. Crawford's unit form of it, 80 and 90 per cent curves (values read in a handbook's table).
#include <gtest/gtest.h>

#include <cmath>

#include "records/learning_curve.hpp"
#include "records/least_squares.hpp"

namespace beforehand::records {
namespace {

using Row = std::vector<double>;

void expect_digits(double found, double certified) {
  EXPECT_NEAR(found, certified, 1e-8 * std::abs(certified));
}

void expect_certified(const Fit& f, const Row& parameters, const Row& errors, double squares,
                      double sd) {
  ASSERT_TRUE(f.converged);
  for (std::size_t i = 0; i < parameters.size(); ++i) {
    expect_digits(f.parameters[i], parameters[i]);
    expect_digits(f.errors[i], errors[i]);
  }
  expect_digits(f.squares, squares);
  expect_digits(f.residual_sd, sd);
}

const Model power = [](double x, std::span<const double> b, std::span<double> d) {
  d[0] = std::pow(x, b[1]);
  d[1] = b[0] * d[0] * std::log(x);
  return b[0] * d[0];
};
const Model saturation = [](double x, std::span<const double> b, std::span<double> d) {
  const double rest = std::exp(-b[1] * x);
  d[0] = 1 - rest;
  d[1] = b[0] * x * rest;
  return b[0] * (1 - rest);
};

TEST(LeastSquares, DanWood) {
  const Row x{1.309, 1.471, 1.490, 1.565, 1.611, 1.680},
      y{2.138, 3.421, 3.597, 4.340, 4.882, 5.660};
  for (const Row& start : {Row{1, 5}, Row{0.7, 4}})
    expect_certified(fit(power, x, y, start), {7.6886226176E-01, 3.8604055871E+00},
                     {1.8281973860E-02, 5.1726610913E-02}, 4.3173084083E-03, 3.2853114039E-02);
}

TEST(LeastSquares, Misra1a) {
  const Row x{77.6,  114.9, 141.1, 190.8, 239.9, 289.0, 332.8,
              378.4, 434.8, 477.3, 536.8, 593.1, 689.1, 760.0};
  const Row y{10.07, 14.73, 17.94, 23.93, 29.61, 35.18, 40.02,
              44.82, 50.76, 55.05, 61.01, 66.40, 75.47, 81.78};
  for (const Row& start : {Row{500, 0.0001}, Row{250, 0.0005}})
    expect_certified(fit(saturation, x, y, start), {2.3894212918E+02, 5.5015643181E-04},
                     {2.7070075241E+00, 7.2668688436E-06}, 1.2455138894E-01, 1.0187876330E-01);
}

TEST(LeastSquares, BoxBOD) {
  const Row x{1, 2, 3, 5, 7, 10}, y{109, 149, 149, 191, 213, 224};
  for (const Row& start : {Row{1, 1}, Row{100, 0.75}})
    expect_certified(fit(saturation, x, y, start), {2.1380940889E+02, 5.4723748542E-01},
                     {1.2354515176E+01, 1.0455993237E-01}, 1.1680088766E+03, 1.7088072423E+01);
}

// Two laws of the same data told apart: the criterion worked by hand, n = 10, 3 parameters and the
// variance.
TEST(LeastSquares, InformationCriterionByHand) {
  EXPECT_NEAR(aicc(20, 10, 3), 10 * std::log(2.0) + 8 + 2.0 * 4 * 5 / 5, 1e-12);
}

TEST(LearningCurve, CrawfordsUnitsGiveTheirOwnRateBack) {
  // 80 per cent: units 1, 2, 4, 8 take 100, 80, 64, 51.2; 3 takes 70.21.
  LearningCurve c;
  c.law = Law::power;
  c.gain = 100;
  c.rate = rate_of_doubling(0.8);
  EXPECT_NEAR(c.rate, 0.32193, 5e-6);
  const double units[] = {100, 80, 70.21, 64};
  for (int n = 1; n <= 4; ++n) EXPECT_NEAR(missing_at(c, n), units[n - 1], 0.005);
  EXPECT_NEAR(missing_at(c, 8), 51.2, 0.005);
  const Row x{1, 2, 3, 4, 8}, y{100, 80, 70.21, 64, 51.2};
  const Model falling = [](double n, std::span<const double> b, std::span<double> d) {
    d[0] = std::pow(n, -b[1]);
    d[1] = -b[0] * d[0] * std::log(n);
    return b[0] * d[0];
  };
  const auto f = fit(falling, x, y, {50, 1});
  EXPECT_NEAR(f.parameters[0], 100, 0.01);
  EXPECT_NEAR(doubling_share(f.parameters[1]), 0.8, 1e-4);
}

// Wright's curve is of the cumulative average: n units take n times it.
TEST(LearningCurve, WrightsCumulativeAverages) {
  LearningCurve c;
  c.law = Law::power;
  c.gain = 100;
  c.rate = rate_of_doubling(0.8);
  const auto total = [&](double n) { return n * missing_at(c, n); };
  EXPECT_NEAR(total(2), 160, 0.005);
  EXPECT_NEAR(total(2) - total(1), 60, 0.005);
  EXPECT_NEAR(total(3) - total(2), 50.63, 0.005);
  EXPECT_NEAR(total(4) - total(3), 45.37, 0.005);
  c.rate = rate_of_doubling(0.9);
  EXPECT_NEAR(missing_at(c, 4), 81, 0.005);
  EXPECT_NEAR(missing_at(c, 8), 72.9, 0.005);
  EXPECT_NEAR(missing_at(c, 10), 70.47, 0.005);
}

// The law of practice as textbooks write it, 10 s and 0.4 (worked by calculator).
TEST(LearningCurve, LawOfPractice) {
  LearningCurve c;
  c.law = Law::power;
  c.gain = 10;
  c.rate = 0.4;
  EXPECT_NEAR(missing_at(c, 2), 7.579, 5e-4);
  EXPECT_NEAR(missing_at(c, 4), 5.743, 5e-4);
  EXPECT_NEAR(missing_at(c, 10), 3.981, 5e-4);
}

}  // namespace
}  // namespace beforehand::records
