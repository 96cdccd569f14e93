// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// Competence charts against published figures and a simulation.
// - LC-CUSUM: D. J. Biau and R. Porcher, Statistics in Medicine 29 (2010) 1901: the likelihood
//   ratio form, from memory; sums worked by hand below.
// - CUSUM limits: A. Wald, Sequential Analysis (1947), as training studies in medicine tabulate
//   them (from a course's slide, read; the values worked out again by the arithmetic shown).
#include "records/competence.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <random>
#include <string>

namespace beforehand::records {
namespace {

TEST(LcCusum, ElevenPassesSignalAtTenAgainstTwentyPercent) {
  CompetenceTest t;
  t.adequate = 0.1;
  t.inadequate = 0.2;
  t.limit = 1.25;
  EXPECT_NEAR(t.step(true), 0.1178, 5e-5);    // ln(0.9 / 0.8)
  EXPECT_NEAR(t.step(false), -0.6931, 5e-5);  // ln(0.1 / 0.2)
  EXPECT_EQ(standing(std::string(10, '1'), t).signal_at, 0);
  EXPECT_EQ(standing(std::string(11, '1'), t).signal_at, 11);
}

TEST(LcCusum, ByHandWithTheProgramsRates) {
  const CompetenceTest t;
  const double up = std::log(0.95 / 0.70), down = std::log(0.05 / 0.30);
  const auto sums = competence_sums("1111111011", t);
  ASSERT_EQ(sums.size(), 10u);
  EXPECT_DOUBLE_EQ(sums[6], 7 * up);
  EXPECT_NEAR(sums[7], 7 * up + down, 1e-12);
  EXPECT_NEAR(sums[9], 9 * up + down, 1e-12);
  EXPECT_EQ(competence_sums("10", t).back(), 0) << "the sum is held at 0";
}

TEST(LcCusum, FalsePassChanceIsFourPointNinePercentInThirtyAttempts) {
  EXPECT_NEAR(signal_chance({}, 0.30, 30), 0.049, 0.0005);
  EXPECT_EQ(signal_chance({}, 0.30, 13), 0);
  EXPECT_NEAR(signal_chance({}, 0.30, 14), std::pow(0.7, 14), 1e-12) << "fourteen in a row";
  EXPECT_NEAR(signal_chance({}, 0.0, 14), 1, 1e-12);
}

// The chain against what it claims to be: many trainees, counted.
TEST(LcCusum, TheChainAgreesWithASimulation) {
  std::mt19937_64 random(20260302);
  for (const double rate : {0.05, 0.15, 0.30}) {
    int signals = 0;
    constexpr int people = 20'000;
    for (int i = 0; i < people; ++i) {
      std::string outcomes;
      for (int k = 0; k < 30; ++k)
        outcomes += static_cast<double>(random() >> 11) * 0x1p-53 < rate ? '0' : '1';
      const auto sums = competence_sums(outcomes);
      signals += sums.back() >= CompetenceTest{}.limit;
    }
    const double chance = signal_chance({}, rate, 30);
    EXPECT_NEAR(static_cast<double>(signals) / people, chance,
                4 * std::sqrt(chance * (1 - chance) / people));
  }
}

TEST(Cusum, LimitsOfTheSlide) {
  const auto strict = failure_limits(0.05, 0.15, 0.1, 0.1);
  EXPECT_NEAR(strict.reference, 0.0919, 5e-5);
  EXPECT_NEAR(strict.upper, 1.816, 5e-4);
  EXPECT_NEAR(strict.lower, -1.816, 5e-4);
  EXPECT_EQ(std::ceil(-strict.lower / strict.reference), 20) << "successes in a row to the lower";
  const auto wide = failure_limits(0.10, 0.20, 0.1, 0.1);
  EXPECT_NEAR(wide.reference, 0.1452, 5e-5);
  EXPECT_NEAR(wide.upper, 2.710, 5e-4);
  EXPECT_EQ(std::ceil(-wide.lower / wide.reference), 19);
  EXPECT_EQ(std::ceil(wide.upper / (1 - wide.reference)), 4) << "failures in a row to the upper";
  const auto close = failure_limits(0.05, 0.10, 0.1, 0.1);
  EXPECT_NEAR(close.reference, 0.0724, 5e-5);
  EXPECT_NEAR(close.upper, 2.941, 5e-4);
  EXPECT_EQ(std::ceil(-close.lower / close.reference), 41);
  const auto hard = failure_limits(0.35, 0.45, 0.1, 0.1);
  EXPECT_NEAR(hard.reference, 0.3993, 5e-5);
  EXPECT_NEAR(hard.upper, 5.252, 5e-4);
  const auto uneven = failure_limits(0.10, 0.20, 0.05, 0.2);
  EXPECT_NEAR(-uneven.lower, 1.921, 5e-4);
  EXPECT_NEAR(uneven.upper, 3.419, 5e-4);
}

}  // namespace
}  // namespace beforehand::records
