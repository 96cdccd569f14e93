// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// The figures that simulations are told in, against tables.
#include <gtest/gtest.h>

#include "study/statistics.hpp"

namespace beforehand::study {
namespace {

// NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.2, upper critical values of Student's t
// at 0.975 and 0.95 (from memory).
TEST(StudyStatistics, StudentsTable) {
  EXPECT_NEAR(student_quantile(0.975, 1), 12.706, 0.0005);
  EXPECT_NEAR(student_quantile(0.975, 2), 4.303, 0.0005);
  EXPECT_NEAR(student_quantile(0.975, 4), 2.776, 0.0005);
  EXPECT_NEAR(student_quantile(0.975, 10), 2.228, 0.0005);
  EXPECT_NEAR(student_quantile(0.975, 30), 2.042, 0.0005);
  EXPECT_NEAR(student_quantile(0.975, 100), 1.984, 0.0005);
  EXPECT_NEAR(student_quantile(0.95, 5), 2.015, 0.0005);
  EXPECT_NEAR(student_quantile(0.025, 10), -2.228, 0.0005);
}

// Newcombe 1998, Statistics in Medicine 17:857, table I, method 3 (from memory).
TEST(StudyStatistics, ProbabilityIntervalsOfNewcombe) {
  const auto expect = [](double hits, double n, double low, double high) {
    const auto i = probability_interval(hits, n);
    EXPECT_NEAR(i.low, low, 5e-5) << hits << '/' << n;
    EXPECT_NEAR(i.high, high, 5e-5) << hits << '/' << n;
  };
  expect(81, 263, 0.2553, 0.3662);
  expect(15, 148, 0.0624, 0.1605);
  expect(0, 20, 0.0000, 0.1611);
  expect(1, 29, 0.0061, 0.1718);
}

// I_x(a, b) is a binomial tail: of 5 throws of a fair coin at least 3 heads come in 16 of 32 ways,
// at least 4 in 6 of 32; and I_x(1, 1) = x.
TEST(StudyStatistics, IncompleteBetaIsABinomialTail) {
  EXPECT_NEAR(incomplete_beta(3, 3, 0.5), 0.5, 1e-12);
  EXPECT_NEAR(incomplete_beta(4, 2, 0.5), 6.0 / 32, 1e-12);
  EXPECT_NEAR(incomplete_beta(1, 1, 0.3), 0.3, 1e-12);
}

}  // namespace
}  // namespace beforehand::study
