// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/pace.hpp"

#include <gtest/gtest.h>

#include <vector>

namespace beforehand::stage {
namespace {

using std::chrono::microseconds;

TEST(PaceClock, PassesAsInTheClinicAtHundredPerCent) {
  PaceClock clock(usual);
  EXPECT_EQ(clock.pass(microseconds(16'667)), Ms{16});
  EXPECT_EQ(clock.pass(microseconds(16'667)), Ms{33});  // the rest of a millisecond is not lost
}

TEST(PaceClock, LosesNothingHoweverTimeIsCut) {
  for (const int percent : {50, 75, 100, 125, 300}) {
    PaceClock fine(Pace{percent}), coarse(Pace{percent});
    for (int i = 0; i < 7'000; ++i) fine.pass(microseconds(143));
    for (int i = 0; i < 7; ++i) coarse.pass(microseconds(143'000));
    EXPECT_EQ(fine.now(), coarse.now()) << percent;
    EXPECT_EQ(fine.now(), Ms{1001 * percent / 100}) << percent;
  }
}

TEST(PaceClock, AJumpingClockCountsForNoMoreThanAQuarterSecond) {
  PaceClock clock(usual);
  EXPECT_EQ(clock.pass(std::chrono::hours(5)), Ms{250});
  EXPECT_EQ(clock.pass(-std::chrono::hours(5)), Ms{250});
}

TEST(PaceClock, StandsStillWhilePaused) {
  PaceClock clock(usual);
  clock.set_paused(true);
  EXPECT_EQ(clock.pass(microseconds(100'000)), Ms{0});
  clock.set_paused(false);
  EXPECT_EQ(clock.pass(microseconds(100'000)), Ms{100});
}

TEST(PaceClock, ALapseRunsFastAndEndsOnTheMomentThenTheRestAtThePace) {
  PaceClock clock(usual);
  EXPECT_EQ(clock.pass(microseconds(10'000), Ms{900}), Ms{300});  // 10 ms thirty times over
  // 20 ms bring the lapse to its end at 900 ms, the other 80 ms pass as usual.
  EXPECT_EQ(clock.pass(microseconds(100'000), Ms{900}), Ms{980});
  EXPECT_EQ(clock.pass(microseconds(10'000), Ms{900}), Ms{990});
}

TEST(PaceClock, StepsThroughItsPacesAndStopsAtTheEnds) {
  std::vector<int> seen;
  Pace pace = slowest;
  for (int i = 0; i < 10; ++i, pace = quicker(pace)) seen.push_back(pace.percent);
  EXPECT_EQ(seen, (std::vector{50, 75, 100, 125, 150, 200, 250, 300, 300, 300}));
  EXPECT_EQ(slower(usual).percent, 75);
  EXPECT_EQ(slower(slowest).percent, 50);
}

}  // namespace
}  // namespace beforehand::stage
