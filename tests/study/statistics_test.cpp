// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "study/statistics.hpp"

#include <gtest/gtest.h>

namespace beforehand::study {
namespace {

TEST(Statistics, OfNothingAndOfOneValue) {
  EXPECT_EQ(summarize({}).n, 0u);
  const auto one = summarize({7});
  EXPECT_EQ(one.mean, 7);
  EXPECT_EQ(one.deviation, 0);
  EXPECT_EQ(one.median().value, 7);
  EXPECT_EQ(one.median().sure.low, 7);
}

TEST(Statistics, OfASmallSampleByHand) {
  const auto s = summarize({4, 1, 3, 2});
  EXPECT_DOUBLE_EQ(s.mean, 2.5);
  EXPECT_NEAR(s.deviation, 1.290994449, 1e-9);                                 // sqrt(5 / 3)
  EXPECT_NEAR(s.mean_sure.half_width(), 3.182446305 * 1.290994449 / 2, 1e-6);  // t for 3 degrees
  EXPECT_EQ(s.least, 1);
  EXPECT_EQ(s.most, 4);
  EXPECT_DOUBLE_EQ(s.median().value, 2.5);
  EXPECT_DOUBLE_EQ(s.quantiles[1].value, 1.75);  // rank 0.25 * 3 from the least
}

TEST(Statistics, TheIntervalOfAQuantileNarrowsAsTheSampleGrows) {
  std::vector<double> few, many;
  for (int i = 0; i < 10'000; ++i) {
    if (i % 100 == 0) few.push_back(i);
    many.push_back(i);
  }
  const auto small = summarize(few).median(), large = summarize(many).median();
  EXPECT_NEAR(large.sure.half_width(), 98, 2);  // 1.96 * sqrt(10,000 / 4) ranks
  EXPECT_GT(small.sure.half_width(), 5 * large.sure.half_width());
  EXPECT_TRUE(large.sure.low < 5000 && 5000 < large.sure.high);
}

TEST(Statistics, NothingSeenSaysNothingOfAProbability) {
  const auto i = probability_interval(0, 0);
  EXPECT_EQ(i.low, 0);
  EXPECT_EQ(i.high, 1);
}

}  // namespace
}  // namespace beforehand::study
