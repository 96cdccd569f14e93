// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// The example of Dechter, Meiri, Pearl 1991, Temporal constraint networks, Artificial Intelligence
// 49:61, example 1.1 with its later simplification to a simple temporal problem (John by car, Fred
// by carpool): the constraints, and the minimal network of its second table. Figures from memory of
// the paper.
#include <gtest/gtest.h>

#include "timing/network.hpp"

namespace beforehand::timing {
namespace {

using Interval = TemporalNetwork::Interval;

Ms minutes(int m) { return Ms{m * 60'000}; }

// Point 0 is 7:00; 1 and 2: John leaves home and reaches work; 3 and 4: Fred does.
TemporalNetwork on_the_way_to_work() {
  TemporalNetwork n(5);
  n.add({0, 1, minutes(10), minutes(20)});
  n.add({1, 2, minutes(30), minutes(40)});
  n.add({3, 2, minutes(10), minutes(20)});
  n.add({3, 4, minutes(40), minutes(50)});
  n.add({0, 4, minutes(60), minutes(70)});
  return n;
}

TEST(TemporalNetworkOf1991, HasTheMinimalNetworkOfThePaper) {
  const auto minimal = on_the_way_to_work().minimal();
  const int least[5][5] = {{0, 10, 40, 20, 60},
                           {-20, 0, 30, 10, 50},
                           {-50, -40, 0, -20, 20},
                           {-30, -20, 10, 0, 40},
                           {-70, -60, -30, -50, 0}};
  for (std::size_t i = 0; i < 5; ++i) {
    for (std::size_t j = 0; j < 5; ++j) {
      const auto expected = Interval{minutes(least[i][j]), minutes(-least[j][i])};
      EXPECT_EQ(minimal[i * 5 + j], expected) << i << " to " << j;
    }
  }
}

TEST(TemporalNetworkOf1991, SingleSourceTimesAreItsFirstRow) {
  auto n = on_the_way_to_work();
  ASSERT_TRUE(n.propagate());
  EXPECT_EQ(n.times(1), (Interval{minutes(10), minutes(20)}));
  EXPECT_EQ(n.times(2), (Interval{minutes(40), minutes(50)}));
  EXPECT_EQ(n.times(3), (Interval{minutes(20), minutes(30)}));
  EXPECT_EQ(n.times(4), (Interval{minutes(60), minutes(70)}));
}

}  // namespace
}  // namespace beforehand::timing
