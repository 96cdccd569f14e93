// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "base/random.hpp"

#include <gtest/gtest.h>

#include <set>

namespace beforehand {
namespace {

// The generator of Steele, Lea and Flood (2014) adds a constant to its state at each step, so its
// n-th value is mix64 of the seed and n-1 times that constant.
std::uint64_t nth_value(std::uint64_t seed, std::uint64_t n) {
  return mix64(seed + (n - 1) * 0x9e3779b97f4a7c15u);
}

// The five values of the task "Pseudo-random numbers/Splitmix64" of Rosetta Code for this seed,
// found alike in the tests of several independent implementations.
TEST(Mix64, GivesTheReferenceValues) {
  EXPECT_EQ(nth_value(1234567, 1), 6457827717110365317u);
  EXPECT_EQ(nth_value(1234567, 2), 3203168211198807973u);
  EXPECT_EQ(nth_value(1234567, 3), 9817491932198370423u);
  EXPECT_EQ(nth_value(1234567, 4), 4593380528125082431u);
  EXPECT_EQ(nth_value(1234567, 5), 16408922859458223821u);
}

// Test values published with the hash (Eastlake et al., The FNV Non-Cryptographic Hash Algorithm,
// internet draft); taken from tests of other implementations that cite them.
TEST(Fnv1a, GivesThePublishedValues) {
  EXPECT_EQ(fnv1a(""), 0xcbf29ce484222325u);
  EXPECT_EQ(fnv1a("a"), 0xaf63dc4c8601ec8cu);
  EXPECT_EQ(fnv1a("foobar"), 0x85944171f73967e8u);
}

TEST(KeyedRandom, DependsOnEveryPartOfItsKey) {
  std::set<std::uint64_t> drawn;
  for (std::uint64_t seed = 0; seed < 10; ++seed) {
    for (std::uint64_t name = 0; name < 10; ++name) {
      for (std::uint64_t occurrence = 0; occurrence < 10; ++occurrence)
        drawn.insert(keyed_bits({seed, name, occurrence}));
    }
  }
  EXPECT_EQ(drawn.size(), 1000u);
  EXPECT_NE(keyed_bits({1, 2, 0}), keyed_bits({2, 1, 0}));
}

// Mean 1/2 and variance 1/12; with 100,000 draws the mean's standard error is 0.0009.
TEST(KeyedRandom, IsUniform) {
  double sum = 0, squares = 0;
  constexpr int draws = 100'000;
  for (int i = 0; i < draws; ++i) {
    const double x = keyed_uniform({7, fnv1a("rinse"), static_cast<std::uint64_t>(i)});
    ASSERT_GE(x, 0.0);
    ASSERT_LT(x, 1.0);
    sum += x;
    squares += x * x;
  }
  const double mean = sum / draws;
  EXPECT_NEAR(mean, 0.5, 0.004);
  EXPECT_NEAR(squares / draws - mean * mean, 1.0 / 12, 0.003);
}

}  // namespace
}  // namespace beforehand
