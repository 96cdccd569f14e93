// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "drill/durations.hpp"

#include <gtest/gtest.h>

#include <boost/math/distributions/triangular.hpp>

namespace beforehand {
namespace {

using procedure::Estimate;

// Reference: Boost.Math, boost::math::triangular_distribution.
TEST(Durations, QuantilesAgreeWithBoostMath) {
  const Estimate estimate{Ms{8000}, Ms{10000}, Ms{17000}};
  const boost::math::triangular_distribution<> reference(8000, 10000, 17000);
  for (int i = 0; i < 1000; ++i) {
    const double u = (i + 0.5) / 1000;
    const auto expected = boost::math::quantile(reference, u);
    EXPECT_NEAR(static_cast<double>(drill::triangular(estimate, u).count()), expected, 0.51) << u;
  }
}

TEST(Durations, MeanAgreesWithBoostMath) {
  procedure::Step step;
  step.takes = {Ms{8000}, Ms{10000}, Ms{17000}};
  const boost::math::triangular_distribution<> reference(8000, 10000, 17000);
  constexpr int draws = 20000;
  double sum = 0;
  for (std::uint64_t i = 0; i < draws; ++i) {
    sum += static_cast<double>(drill::draw_duration(step, fnv1a("x"), i, 0).count());
  }
  const double standard_error = boost::math::standard_deviation(reference) / std::sqrt(draws);
  EXPECT_NEAR(sum / draws, boost::math::mean(reference), 4 * standard_error);
}

TEST(Durations, AFixedTimeIsThatTimeAndReachIsAdded) {
  procedure::Step step;
  step.takes = {Ms{15000}, Ms{15000}, Ms{15000}};
  step.reach = Ms{500};
  EXPECT_EQ(drill::draw_duration(step, 1, 2, 3), Ms{15500});
}

TEST(Durations, NeverLessThanAMillisecond) {
  EXPECT_EQ(drill::draw_duration(procedure::Step{}, 1, 2, 3), Ms{1});
}

TEST(Durations, DependOnSeedStepAndOccurrenceOnly) {
  procedure::Step step;
  step.takes = {Ms{1000}, Ms{5000}, Ms{9000}};
  const auto one = drill::draw_duration(step, fnv1a("rinse"), 7, 0);
  EXPECT_EQ(one, drill::draw_duration(step, fnv1a("rinse"), 7, 0));
  EXPECT_NE(one, drill::draw_duration(step, fnv1a("rinse"), 8, 0));
  EXPECT_NE(one, drill::draw_duration(step, fnv1a("etch"), 7, 0));
  EXPECT_NE(one, drill::draw_duration(step, fnv1a("rinse"), 7, 1));
}

}  // namespace
}  // namespace beforehand
