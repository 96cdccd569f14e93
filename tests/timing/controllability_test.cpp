// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "timing/controllability.hpp"

#include <gtest/gtest.h>

#include <random>

#include "morris_muscettola.hpp"

namespace beforehand::timing {
namespace {

using Point = TemporalNetwork::Point;

TEST(Controllability, OneCanReactToWhatOneSees) {
  UncertainNetwork n;  // the clinician's step 1 ends at 2; the rinse 3 follows it within 5
  n.points = 4;
  n.constraints = {{0, 1, Ms{0}, Ms{0}}, {2, 3, Ms{0}, Ms{5}}};
  n.contingent = {{1, 2, Ms{10}, Ms{60}}};
  EXPECT_TRUE(dynamic_controllability(n).controllable);
}

TEST(Controllability, OneCannotPrepareForWhatOneCannotForesee) {
  UncertainNetwork n;  // what is ready at 3 is to be ready 2 to 5 before the contingent end 2
  n.points = 4;
  n.constraints = {{0, 1, Ms{0}, Ms{0}}, {3, 2, Ms{2}, Ms{5}}};
  n.contingent = {{1, 2, Ms{10}, Ms{60}}};
  const auto found = dynamic_controllability(n);
  EXPECT_FALSE(found.controllable);
  EXPECT_EQ(found.constraints, std::vector<std::size_t>{1});
  EXPECT_EQ(found.contingent, std::vector<std::size_t>{0});
  n.contingent[0].least = Ms{57};
  EXPECT_TRUE(dynamic_controllability(n).controllable);
}

TEST(Controllability, AContradictionIsNotControllable) {
  UncertainNetwork n;
  n.points = 2;
  n.constraints = {{0, 1, Ms{5}, never}, {0, 1, -never, Ms{4}}};
  EXPECT_FALSE(dynamic_controllability(n).controllable);
}

// `links` contingent links, each between two points of its own, and random constraints.
UncertainNetwork random_network(std::mt19937& random, std::size_t links, std::size_t free,
                                int longest) {
  const auto up_to = [&](int n) {
    return static_cast<int>(random() % static_cast<unsigned>(n + 1));
  };
  UncertainNetwork n;
  n.points = 1 + 2 * links + free;
  for (std::size_t i = 0; i < links; ++i) {
    const Ms least{1 + up_to(longest - 1)};
    n.contingent.push_back({static_cast<Point>(1 + 2 * i), static_cast<Point>(2 + 2 * i), least,
                            least + Ms{up_to(longest)}});
  }
  for (std::size_t p = 1; p < n.points; ++p) {
    n.constraints.push_back({0, static_cast<Point>(p), Ms{0}, never});
  }
  const auto count = n.points + random() % n.points;
  for (std::size_t i = 0; i < count; ++i) {
    const auto from = static_cast<Point>(1 + random() % (n.points - 1));
    const auto to = static_cast<Point>(1 + random() % (n.points - 1));
    if (from == to) continue;
    TemporalNetwork::Constraint c{from, to, -never, never};
    if (random() % 2) c.at_least = Ms{up_to(2 * longest) - longest};
    if (random() % 2)
      c.at_most = Ms{std::max<std::int64_t>(c.at_least.count(), 0) + up_to(longest)};
    n.constraints.push_back(c);
  }
  return n;
}

TEST(Controllability, TwoAlgorithmsAgree) {
  std::mt19937 random(3);
  int controllable = 0;
  constexpr int rounds = 3000;
  for (int i = 0; i < rounds; ++i) {
    const auto n = random_network(random, 1 + random() % 5, random() % 4, 12);
    const bool found = dynamic_controllability(n).controllable;
    ASSERT_EQ(found, controllable_by_reductions(n)) << "network " << i;
    controllable += found;
  }
  EXPECT_GT(controllable, rounds / 10);
  EXPECT_LT(controllable, rounds * 9 / 10);
}

TEST(Controllability, PlayingItOutAgrees) {
  std::mt19937 random(5);
  int controllable = 0;
  constexpr int rounds = 400;
  for (int i = 0; i < rounds; ++i) {
    const auto n = random_network(random, 1 + random() % 3, random() % 2, 2);
    const bool found = dynamic_controllability(n).controllable;
    ASSERT_EQ(found, controllable_by_play(n, 14)) << "network " << i;
    controllable += found;
  }
  EXPECT_GT(controllable, rounds / 10);
  EXPECT_LT(controllable, rounds * 9 / 10);
}

}  // namespace
}  // namespace beforehand::timing
