// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "study/crew.hpp"

#include <gtest/gtest.h>

#include <atomic>
#include <stdexcept>
#include <vector>

namespace beforehand::study {
namespace {

class Crew : public testing::TestWithParam<unsigned> {};

TEST_P(Crew, DoesEveryPieceOnce) {
  std::vector<int> done(200);
  std::size_t told = 0;
  Watch watch;
  watch.progress = [&](std::size_t n, std::size_t of) {
    EXPECT_EQ(of, 200u);
    told = n;
  };
  const auto hire = [&]() -> Work { return [&](std::size_t piece) { ++done[piece]; }; };
  EXPECT_EQ(share_out(200, GetParam(), hire, watch), 200u);
  EXPECT_EQ(done, std::vector<int>(200, 1));
  EXPECT_EQ(told, 200u);
}

TEST_P(Crew, WhatWasDoneWhenStoppedAreTheFirst) {
  std::vector<int> done(100'000);
  Watch watch;
  watch.stopped = [&, asked = 0]() mutable { return ++asked > 3; };
  const auto hire = [&]() -> Work { return [&](std::size_t piece) { ++done[piece]; }; };
  const auto n = share_out(done.size(), GetParam(), hire, watch);
  for (std::size_t i = 0; i < done.size(); ++i) ASSERT_EQ(done[i], i < n ? 1 : 0) << i;
}

TEST_P(Crew, AFailureComesBack) {
  const auto hire = []() -> Work {
    return [](std::size_t piece) {
      if (piece == 5) throw std::runtime_error("no");
    };
  };
  EXPECT_THROW(share_out(10, GetParam(), hire), std::runtime_error);
}

INSTANTIATE_TEST_SUITE_P(Threads, Crew, testing::Values(1u, 2u, 7u));

TEST(CrewOfNone, NothingToDoIsDone) {
  EXPECT_EQ(share_out(0, 4, [] { return [](std::size_t) {}; }), 0u);
}

}  // namespace
}  // namespace beforehand::study
