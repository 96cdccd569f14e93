// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "timing/network.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <random>

namespace beforehand::timing {
namespace {

using Interval = TemporalNetwork::Interval;

TEST(TemporalNetwork, NamesTheConstraintsThatContradictEachOther) {
  TemporalNetwork n(4);
  n.add({0, 1, Ms{0}, never});
  const auto within = n.add({1, 3, Ms{0}, Ms{30}});
  const auto first = n.add({1, 2, Ms{25}, never});
  const auto then = n.add({2, 3, Ms{15}, never});
  auto conflict = n.conflict().value();
  std::sort(conflict.begin(), conflict.end());
  EXPECT_EQ(conflict, (std::vector<std::size_t>{within, first, then}));
}

TEST(TemporalNetwork, IsConsistentAtTheLimit) {
  TemporalNetwork n(3);
  n.add({0, 1, Ms{25}, never});
  n.add({1, 2, Ms{15}, never});
  n.add({0, 2, Ms{0}, Ms{40}});
  EXPECT_FALSE(n.conflict());
  ASSERT_TRUE(n.propagate());
  EXPECT_EQ(n.times(1), (Interval{Ms{25}, Ms{25}}));
}

TEST(TemporalNetwork, TighteningSeesAContradiction) {
  TemporalNetwork n(3);
  n.add({0, 1, Ms{25}, never});
  n.add({1, 2, Ms{15}, never});
  ASSERT_TRUE(n.propagate());
  EXPECT_TRUE(n.tighten({0, 2, -never, Ms{41}}));
  EXPECT_EQ(n.times(1), (Interval{Ms{25}, Ms{26}}));
  EXPECT_FALSE(n.tighten({0, 2, -never, Ms{39}}));
}

TEST(TemporalNetwork, TighteningSeesACircleFarFromTheOrigin) {
  TemporalNetwork n(3);
  n.add({1, 2, Ms{10}, never});
  ASSERT_TRUE(n.propagate());
  EXPECT_FALSE(n.tighten({1, 2, -never, Ms{9}})) << "neither point is bound to the origin";
}

// On random networks, propagating one constraint after the other gives what computing anew and what
// all pairs give, and both say at the same constraint that there is no solution.
TEST(TemporalNetwork, IncrementalAndWholeAgree) {
  std::mt19937 random(7);
  int inconsistent = 0;
  for (int round = 0; round < 300; ++round) {
    TemporalNetwork grown(8), whole(8);
    ASSERT_TRUE(grown.propagate());
    for (int i = 0; i < 20; ++i) {
      TemporalNetwork::Constraint c;
      c.from = static_cast<TemporalNetwork::Point>(random() % 8);
      c.to = static_cast<TemporalNetwork::Point>((c.from + 1 + random() % 7) % 8);
      c.at_least = Ms{static_cast<int>(random() % 60) - 20};
      if (random() % 2) c.at_most = c.at_least + Ms{random() % 40};
      whole.add(c);
      const bool consistent = whole.propagate();
      ASSERT_EQ(grown.tighten(c), consistent);
      inconsistent += !consistent;
      if (!consistent) break;
      const auto minimal = whole.minimal();
      for (TemporalNetwork::Point p = 0; p < 8; ++p) {
        ASSERT_EQ(grown.times(p), whole.times(p));
        ASSERT_EQ(grown.times(p), minimal[p]);
      }
    }
  }
  EXPECT_GT(inconsistent, 50);
}

}  // namespace
}  // namespace beforehand::timing
