// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "base/time.hpp"

#include <gtest/gtest.h>

namespace beforehand {
namespace {

TEST(ClockText, CountsWholeSeconds) {
  EXPECT_EQ(clock_text(Ms{0}), "0:00");
  EXPECT_EQ(clock_text(Ms{7'999}), "0:07");
  EXPECT_EQ(clock_text(Ms{60'000}), "1:00");
  EXPECT_EQ(clock_text(Ms{754'000}), "12:34");
  EXPECT_EQ(clock_text(Ms{-61'000}), "-1:01");
}

TEST(DurationText, IsWrittenAsInScenarios) {
  EXPECT_EQ(duration_text(Ms{0}), "0 s");
  EXPECT_EQ(duration_text(Ms{7'000}), "7 s");
  EXPECT_EQ(duration_text(Ms{2'500}), "2.5 s");
  EXPECT_EQ(duration_text(Ms{60'000}), "1 min");
  EXPECT_EQ(duration_text(Ms{90'000}), "1 min 30 s");
  EXPECT_EQ(duration_text(Ms{-90'000}), "-1 min 30 s");
}

TEST(DurationText, RoundsToTenths) {
  EXPECT_EQ(duration_text(Ms{2'449}), "2.4 s");
  EXPECT_EQ(duration_text(Ms{2'450}), "2.5 s");
  EXPECT_EQ(duration_text(Ms{59'960}), "1 min");
  EXPECT_EQ(duration_text(Ms{465'500}), "7 min 45.5 s");
  EXPECT_EQ(duration_text(Ms{60'400}), "1 min 0.4 s");
}

TEST(Never, IsLaterThanAnyDrillAndCanBeAddedTo) {
  EXPECT_GT(never, Ms{std::chrono::hours{24 * 365}});
  EXPECT_GT(never + never, never);
}

}  // namespace
}  // namespace beforehand
