// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// Intervals against Boost.Math (tests only) and against R. G. Newcombe, Statistics in Medicine 17
// (1998) 857, whose table of the score interval without correction is quoted from memory.
#include "records/intervals.hpp"

#include <gtest/gtest.h>

#include <boost/math/distributions/beta.hpp>
#include <boost/math/distributions/normal.hpp>
#include <boost/math/distributions/students_t.hpp>
#include <cmath>

namespace beforehand::records {
namespace {

TEST(Intervals, BetaLikeBoost) {
  for (const double a : {0.5, 1.0, 1.7, 4.0, 30.0, 400.0}) {
    for (const double b : {0.5, 1.0, 2.3, 9.0, 120.0}) {
      const boost::math::beta_distribution<> boosts(a, b);
      for (const double x : {0.001, 0.05, 0.3, 0.5, 0.77, 0.99})
        EXPECT_NEAR(beta_cdf(a, b, x), boost::math::cdf(boosts, x), 1e-12) << a << ' ' << b;
      for (const double chance : {0.025, 0.1, 0.5, 0.975})
        EXPECT_NEAR(beta_quantile(a, b, chance), boost::math::quantile(boosts, chance), 1e-11);
    }
  }
}

TEST(Intervals, StudentsTLikeBoost) {
  for (const double freedom : {1.0, 2.0, 3.0, 7.0, 30.0, 200.0}) {
    const boost::math::students_t boosts(freedom);
    for (const double chance : {0.6, 0.9, 0.975, 0.995})
      EXPECT_NEAR(t_quantile(freedom, chance), boost::math::quantile(boosts, chance),
                  1e-9 * boost::math::quantile(boosts, chance));
  }
}

// Wilson's bounds are the shares from which the one observed is just z standard errors away.
TEST(Intervals, WilsonSolvesItsEquationWithBoostsNormal) {
  const double z = boost::math::quantile(boost::math::normal(), 0.975);
  EXPECT_NEAR(z_975, z, 1e-15);
  for (const int n : {1, 7, 30, 500}) {
    for (int passed = 0; passed <= n; passed += std::max(1, n / 6)) {
      const auto i = wilson(passed, n);
      const double share = static_cast<double>(passed) / n;
      for (const double bound : {i.low, i.high}) {
        if (bound == 0 || bound == 1) continue;  // the ends of the range, where it has no room
        EXPECT_NEAR(std::abs(share - bound), z * std::sqrt(bound * (1 - bound) / n), 1e-12);
      }
      EXPECT_LE(i.low, share);
      EXPECT_GE(i.high, share);
    }
  }
}

TEST(Intervals, WilsonAsTabulated) {
  const auto holds = [](int passed, int n, double low, double high) {
    const auto i = wilson(passed, n);
    EXPECT_NEAR(i.low, low, 5e-5);
    EXPECT_NEAR(i.high, high, 5e-5);
  };
  holds(81, 263, 0.2553, 0.3662);
  holds(15, 148, 0.0624, 0.1605);
  holds(0, 20, 0, 0.1611);
  holds(1, 29, 0.0061, 0.1718);
}

}  // namespace
}  // namespace beforehand::records
