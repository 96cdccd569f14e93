// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// How everybody's time was spent, and what idle time was avoidable.
#include <gtest/gtest.h>

#include "hand_made.hpp"

namespace beforehand::scoring {
namespace {

using drill::What;

TEST(TimeSplit, AddsUpToTheChairTimeForEverybody) {
  const auto p = made_of(lining);
  const Score s = in_time(p).score(44);
  ASSERT_EQ(s.time.size(), 2u);
  for (const auto& person : s.time) EXPECT_EQ(person.total(), sec(44));
  EXPECT_EQ(s.time[0].work, sec(40));
  EXPECT_EQ(s.time[0].standby, sec(4));
  EXPECT_EQ(s.time[1].work, sec(18));
  EXPECT_EQ(s.time[1].standby, sec(26));
  EXPECT_EQ(s.time[1].avoidable, Ms{0});
  EXPECT_DOUBLE_EQ(s.idle, 1);
  EXPECT_EQ(s.both_idle, Ms{0});
  EXPECT_NEAR(s.time[1].utilisation(), 18.0 / 44, 1e-12);
}

TEST(TimeSplit, StretchesFollowOneAnotherWithoutGap) {
  const auto p = made_of(lining);
  const Score s = in_time(p).score(44);
  for (const PersonIx who : {PersonIx{0}, PersonIx{1}}) {
    Ms at{0};
    for (const auto& stretch : s.stretches)
      if (stretch.person == who) {
        EXPECT_EQ(stretch.from, at);
        EXPECT_LT(stretch.from, stretch.to);
        at = stretch.to;
      }
    EXPECT_EQ(at, sec(44));
  }
}

// Ready 5 s late, having stood by from 15 s to 23 s: beyond the first second, 4 s.
TEST(AvoidableIdle, IsWhatOneStoodByBeforeSomethingLateAsFarAsItCameLate) {
  const auto p = made_of(lining);
  const Score s = passed_late(p, 5);
  EXPECT_EQ(s.time[1].avoidable, sec(4));
  EXPECT_EQ(s.time[1].work, sec(18));
  EXPECT_NEAR(s.idle, 1 - 4.0 / 22, 1e-12);
  bool found = false;
  for (const auto& stretch : s.stretches)
    if (stretch.kind == Stretch::Kind::avoidable) {
      found = true;
      EXPECT_EQ(stretch.from, sec(19));
      EXPECT_EQ(stretch.to, sec(23));
      EXPECT_EQ(p.step(stretch.step).id, "pass-liner");
    }
  EXPECT_TRUE(found);
}

TEST(AvoidableIdle, StandingByCostsNothingWhileNobodyWaitsInTheEnd) {
  const auto p = made_of(lining);
  for (const double early : {0.0, -1.0, -2.0}) EXPECT_EQ(passed_late(p, early).idle, 1);
  EXPECT_EQ(passed_late(p, 1).idle, 1) << "within the second of a hand-over";
}

TEST(AvoidableIdle, LaterIsNeverBetter) {
  const auto p = made_of(lining);
  double idle = 1, total = 100;
  for (double late = 0; late < 30; late += 0.5) {
    const Score s = passed_late(p, late);
    EXPECT_LE(s.idle, idle) << late;
    EXPECT_LE(s.total, total) << late;
    idle = s.idle;
    total = s.total;
  }
  EXPECT_LT(idle, 0.65);
}

TEST(AvoidableIdle, NeedsTheHandThatTheStepTakes) {
  const auto p = made_of(R"(phases:
  all: {title: All of it}
steps:
  - {id: prepare, title: Prepares, phase: all, by: clinician, takes: 20 s}
  - {id: pass-gauze, title: Passes the gauze, phase: all, by: assistant, does: pass, supply: gauze, for: dab,
     takes: 2 s}
  - {id: pass-lamp, title: Passes the lamp, phase: all, by: assistant, does: pass, supply: lamp, for: shine,
     hands: 2, takes: 2 s}
  - {id: shine, title: Shines, phase: all, by: clinician, takes: 5 s, needs: [lamp], after: [prepare]}
  - {id: dab, title: Dabs, phase: all, by: clinician, takes: 5 s, needs: [gauze], after: [shine]}
)");
  // The gauze is held ready all the time, so that the lamp's second hand is missing.
  HandMade h(p);
  h.works("prepare", 0, 20).acts("pass-gauze", 0, 2).misses("shine", 20);
  h.acts("pass-lamp", 24, 26).works("shine", 26, 31, {26}).works("dab", 31, 36, {2});
  const Score s = h.score(36);
  EXPECT_EQ(s.time[1].avoidable, Ms{0});
  EXPECT_LT(s.anticipation, 1);
}

// Never mixed: the clinician took another paste. What was missed is over when the lining begins.
TEST(AvoidableIdle, EndsWhereTheOthersWentOnWithoutTheStep) {
  const auto p = made_of(lining);
  HandMade h(p);
  h.works("prepare", 0, 20).misses("apply", 20).asks("apply", 24);
  h.event(32, drill::What::helping, h.clinician(), h.step("apply"));
  h.event(50, drill::What::step_done, h.clinician(), h.step("pass-liner"));
  h.event(50, drill::What::helped, h.clinician(), h.step("apply"));
  h.works("apply", 50, 65).acts("pass-gauze", 60, 62).works("dab", 65, 70, {62});
  h.acts("tidy", 70, 74);
  EXPECT_EQ(h.score(374).time[1].avoidable, sec(50 - 18 - 1));
}

TEST(AvoidableIdle, CoveringIsNotIdle) {
  const auto p = made_of(R"(phases:
  all: {title: All of it}
steps:
  - {id: rinse, title: Rinses, phase: all, by: clinician, takes: 20 s}
  - {id: suck, title: Takes up the water, phase: all, by: assistant, does: suction, supply: tip, covers: [rinse]}
  - {id: pass-gauze, title: Passes the gauze, phase: all, by: assistant, does: pass, supply: gauze, for: dab,
     takes: 2 s}
  - {id: dab, title: Dabs, phase: all, by: clinician, takes: 5 s, needs: [gauze], after: [rinse]}
)");
  HandMade h(p);
  h.action(0, What::cover_started, h.step("suck"));
  h.works("rinse", 0, 20, {0}).event(20, What::step_done, h.assistant(), h.step("suck"));
  h.action(23, What::cover_stopped, h.step("suck"));
  h.misses("dab", 20).acts("pass-gauze", 23, 25).works("dab", 25, 30, {25});
  const Score s = h.score(30);
  EXPECT_EQ(s.time[1].cover, sec(23));
  EXPECT_EQ(s.time[1].avoidable, Ms{0});
  EXPECT_EQ(s.time[0].waiting, sec(5));
}

TEST(AvoidableIdle, DoesNotReachBackToWhereTheThingWouldHaveSetAgain) {
  // Of use from 15 s on only: the use ends at 75 s, and 60 s is the paste's working time.
  const auto p = made_of(lining);
  HandMade h(p);
  h.works("prepare", 0, 50)
      .acts("mix-liner", 46, 56)
      .acts("pass-liner", 56, 58)
      .misses("apply", 50);
  h.works("apply", 58, 75, {58}).acts("pass-gauze", 60, 62).works("dab", 75, 80, {62});
  h.acts("tidy", 80, 84);
  const Score s = h.score(84);
  EXPECT_EQ(s.time[1].avoidable, sec(7)) << "8 s late, less the first second";
  for (const auto& stretch : s.stretches) {
    if (stretch.kind == Stretch::Kind::avoidable) {
      EXPECT_GE(stretch.from, sec(16));
    }
  }
}

TEST(BothIdle, CountsWhileNobodyWorksOrCovers) {
  const auto p = made_of(lining);
  const Score s = passed_late(p, 5);
  EXPECT_EQ(s.both_idle, sec(3)) << "from 20 s until the pass is begun at 23 s";
}

}  // namespace
}  // namespace beforehand::scoring
