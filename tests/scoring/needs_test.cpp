// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// Anticipation: what a need is worth, when it was due, and the mean. The numbers are the worked
// examples of docs/scoring.md.
#include <gtest/gtest.h>

#include "hand_made.hpp"
#include "scoring/anticipation.hpp"

namespace beforehand::scoring {
namespace {

using drill::What;

TEST(Credit, FallsFromOneToHalfAtTheRequestAndToNothingAtThreePatiences) {
  const Ms patience = sec(4);
  EXPECT_DOUBLE_EQ(credit(sec(-7), patience, false), 1);
  EXPECT_DOUBLE_EQ(credit(sec(1), patience, false), 1);
  EXPECT_DOUBLE_EQ(credit(sec(2.5), patience, false), 0.75);
  EXPECT_DOUBLE_EQ(credit(sec(4), patience, false), 0.5);
  EXPECT_DOUBLE_EQ(credit(sec(8), patience, false), 0.25);
  EXPECT_DOUBLE_EQ(credit(sec(12), patience, false), 0);
  EXPECT_DOUBLE_EQ(credit(sec(100), patience, false), 0);
}

TEST(Credit, OfWhatWasAskedForIsAtMostHalf) {
  EXPECT_DOUBLE_EQ(credit(sec(0), sec(4), true), 0.5);
  EXPECT_DOUBLE_EQ(credit(sec(6), sec(4), true), 0.375);
}

TEST(Credit, NeverRisesWithLateness) {
  for (const double patience : {0.5, 1.0, 1.5, 4.0, 9.0}) {
    double last = 1;
    for (int ms = 0; ms < 40'000; ms += 50) {
      const double worth = credit(Ms{ms}, sec(patience), false);
      EXPECT_LE(worth, last) << ms << " ms at a patience of " << patience << " s";
      EXPECT_GE(worth, 0);
      last = worth;
    }
    EXPECT_EQ(last, 0);
  }
}

TEST(Needs, ReadyInTimeAreWorthOneEach) {
  const auto p = made_of(lining);
  const Score s = in_time(p).score(44);
  ASSERT_EQ(s.needs.size(), 2u);
  EXPECT_EQ(s.needs[0].need_at, sec(20));
  EXPECT_EQ(s.needs[0].ready_at, sec(18));
  EXPECT_EQ(s.needs[0].lead(), sec(2));
  EXPECT_EQ(s.needs[0].severity, Severity::major);
  EXPECT_EQ(s.needs[1].lead(), sec(3));
  EXPECT_DOUBLE_EQ(s.anticipation, 1);
  EXPECT_DOUBLE_EQ(s.anticipation_ratio, 1);
  EXPECT_EQ(s.clinician_wait, Ms{0});
}

// The paste comes 5 s late and was asked for at 4 s: credit 7/16. It weighs 2 against the gauze's
// 1, so the mean is (2 * 7/16 + 1) / 3 = 0.625.
Score paste_late(const Procedure& p) {
  HandMade h(p);
  h.works("prepare", 0, 20).acts("mix-liner", 5, 15).acts("pass-liner", 23, 25);
  h.misses("apply", 20).asks("apply", 24).works("apply", 25, 40, {25});
  h.acts("pass-gauze", 30, 32).works("dab", 40, 45, {32}).acts("tidy", 45, 49);
  return h.score(49);
}

TEST(Needs, ALateOneIsMeasuredFromWhenTheClinicianWouldHaveStarted) {
  const auto p = made_of(lining);
  const Score s = paste_late(p);
  ASSERT_EQ(s.needs.size(), 2u);
  EXPECT_EQ(s.needs[0].need_at, sec(20));
  EXPECT_EQ(s.needs[0].wait, sec(5));
  EXPECT_EQ(s.needs[0].lead(), sec(-5));
  EXPECT_TRUE(s.needs[0].requested);
  EXPECT_DOUBLE_EQ(s.needs[0].credit, 0.4375);
  EXPECT_DOUBLE_EQ(s.anticipation, 0.625);
  EXPECT_EQ(s.requests, 1);
  EXPECT_EQ(s.clinician_wait, sec(5));
}

// The lamp has only to be begun with before the clinician looks: due as he wants to begin (20 s),
// and not ten seconds earlier; begun at 26 s it comes 6 s late, of which the first second is free.
TEST(Needs, WhatHasOnlyToStartIsDueByItsStart) {
  const auto p = made_of(R"(phases:
  all: {title: All of it}
steps:
  - {id: prepare, title: Prepares, phase: all, by: clinician, takes: 20 s}
  - {id: shine, title: Shines, phase: all, by: assistant, does: use, supply: lamp, takes: 10 s}
  - {id: look, title: Looks, phase: all, by: clinician, takes: 20 s,
     after: [prepare, {step: shine, from: start}]}
)");
  HandMade h(p);
  h.works("prepare", 0, 20).misses("look", 20).acts("shine", 26, 36).works("look", 26, 46, {26});
  const Score s = h.score(46);
  ASSERT_EQ(s.needs.size(), 1u);
  EXPECT_EQ(s.needs[0].due_at, sec(20));
  EXPECT_EQ(s.needs[0].ready_at, sec(26));
  EXPECT_DOUBLE_EQ(s.needs[0].credit, 0.375);
  EXPECT_EQ(s.time[1].avoidable, sec(5));
}

TEST(Needs, WhatTheClinicianGotAloneIsWorthNothing) {
  const auto p = made_of(lining);
  HandMade h(p);
  h.works("prepare", 0, 20).misses("apply", 20).asks("apply", 24);
  h.event(32, What::helping, h.clinician(), h.step("apply"));
  h.event(50, What::step_done, h.clinician(), h.step("mix-liner"));
  h.event(50, What::step_done, h.clinician(), h.step("pass-liner"));
  h.event(50, What::helped, h.clinician(), h.step("apply"));
  h.works("apply", 50, 65).acts("pass-gauze", 30, 32).works("dab", 65, 70, {32});
  h.acts("tidy", 70, 74);
  const Score s = h.score(74);
  EXPECT_TRUE(s.needs[0].helped);
  EXPECT_EQ(s.needs[0].ready_at, never);
  EXPECT_EQ(s.needs[0].wait, sec(30));
  EXPECT_EQ(s.needs[0].credit, 0);
  EXPECT_EQ(s.clinician_wait, sec(12)) << "standing still, before helping";
  EXPECT_DOUBLE_EQ(s.anticipation_ratio, 0.5);
}

// What nobody could have had ready sooner is not late: the gauze for the first dab is announced by
// a signal only as the clinician is ready for it.
constexpr std::string_view surprise = R"(signals:
  bleeding: {title: It bleeds, cue: "Red.", why: "Blood spoils it.", likely: 50 %, after: look, delay: 0 s}
phases:
  all: {title: All of it}
steps:
  - {id: look, title: Looks, phase: all, by: clinician, takes: 10 s}
  - {id: pass-gauze, title: Passes the gauze, phase: all, by: assistant, does: pass, supply: gauze, for: dab,
     takes: 2 s, after: [look], when: [bleeding]}
  - {id: dab, title: Dabs, phase: all, by: clinician, takes: 5 s, needs: [gauze], after: [look], when: [bleeding]}
)";

Score surprised(const Procedure& p, double pass_from) {
  HandMade h(p);
  h.works("look", 0, 10);
  h.event(10, What::signal_shown).last().signal = SignalIx{0};
  h.misses("dab", 10).acts("pass-gauze", pass_from, pass_from + 2);
  h.works("dab", pass_from + 2, pass_from + 7, {pass_from + 2});
  return h.score(pass_from + 7);
}

TEST(Needs, ThatASignalAnnouncesAreDueNoSoonerThanTheyCouldBeReady) {
  const auto p = made_of(surprise);
  const Score s = surprised(p, 10.5);
  ASSERT_EQ(s.needs.size(), 1u);
  EXPECT_EQ(s.needs[0].need_at, sec(10));
  EXPECT_EQ(s.needs[0].due_at, sec(12));
  EXPECT_EQ(s.needs[0].ready_at, sec(12.5));
  EXPECT_DOUBLE_EQ(s.needs[0].credit, 1);
  EXPECT_TRUE(s.errors.empty());
  EXPECT_LT(surprised(p, 13.0).needs[0].credit, 1);
}

// Asked for twice at the primer, twice again at the adhesive: the first surprise foretells the
// second, and what it calls for can be in the hand before the word falls.
constexpr std::string_view twice = R"(signals:
  at-primer: {title: Another for the primer, cue: Bent, likely: 40 %, after: prime, from: start, delay: 6 s}
  at-adhesive: {title: Another for the adhesive, cue: Bent again, likely: 10 %, after: coat, delay: 0 s,
    foretold: [{by: at-primer, likely: 100 %}]}
phases:
  all: {title: All of it}
steps:
  - {id: prime, title: Primes, phase: all, by: clinician, takes: 20 s}
  - {id: coat, title: Coats, phase: all, by: clinician, takes: 15 s, after: [prime]}
  - {id: pass-second, title: Passes the second, phase: all, by: assistant, does: pass, supply: gauze, for: again,
     takes: 2 s, when: [at-adhesive], after: [{step: prime, from: start}]}
  - {id: again, title: Coats the corner, phase: all, by: clinician, takes: 7 s, needs: [gauze], after: [coat],
     when: [at-adhesive]}
  - {id: soak, title: Primes the corner, phase: all, by: clinician, takes: 1 s, after: [coat], when: [at-primer]}
)";

Score second_passed(const Procedure& p, bool foretold, double from) {
  HandMade h(p);
  const double ready = from + 2, again = std::max(36.0, ready);
  h.works("prime", 0, 20).works("coat", 20, 35);
  if (foretold) h.works("soak", 35, 36);
  h.event(6, foretold ? What::signal_shown : What::signal_passed).last().signal = SignalIx{0};
  h.event(35, What::signal_shown).last().signal = SignalIx{1};
  h.acts("pass-second", from, ready);
  if (ready > 36) h.misses("again", 36);
  h.works("again", again, again + 7, {ready});
  return h.score(again + 7);
}

TEST(Needs, ForetoldByAnEarlierSignalCanBeReadyBeforeTheirOwn) {
  const auto p = made_of(twice);
  const Score early = second_passed(p, true, 17);
  ASSERT_EQ(early.needs.size(), 1u);
  EXPECT_EQ(early.needs[0].lead(), sec(17));
  EXPECT_DOUBLE_EQ(early.total, 100);
  EXPECT_TRUE(early.errors.empty()) << "begun before the coating, and in its place";
}

TEST(Needs, ForetoldForCertainAreDueThoughTheirOwnSignalComesLate) {
  const auto p = made_of(twice);
  const Score warned = second_passed(p, true, 36);
  EXPECT_EQ(warned.needs[0].due_at, sec(36));
  EXPECT_LT(warned.needs[0].credit, 1);
  const Score unwarned = second_passed(p, false, 36);
  EXPECT_EQ(unwarned.needs[0].due_at, sec(37)) << "the signal at 35 s, and two seconds to pass";
  EXPECT_DOUBLE_EQ(unwarned.needs[0].credit, 1);
}

TEST(Needs, WhatTheClinicianTookOverIsWorthAsMuchAsWhatWasAskedFor) {
  const auto p = made_of(R"(phases:
  all: {title: All of it}
steps:
  - {id: coat, title: Coats, phase: all, by: clinician, takes: 10 s}
  - {id: cure, title: Cures, phase: all, by: [assistant, clinician], does: light, supply: lamp, takes: 10 s,
     after: [coat]}
  - {id: look, title: Looks, phase: all, by: clinician, takes: 5 s, after: [cure]}
)");
  HandMade h(p);
  h.works("coat", 0, 10).misses("look", 10).works("cure", 12, 22).works("look", 22, 27);
  const Score s = h.score(27);
  ASSERT_EQ(s.needs.size(), 1u);
  EXPECT_TRUE(s.needs[0].helped);
  EXPECT_DOUBLE_EQ(s.needs[0].credit, 0.5);
  EXPECT_DOUBLE_EQ(s.anticipation_ratio, 0);
  ASSERT_EQ(s.errors.size(), 1u) << "an omission, and no lateness beside it";
  EXPECT_EQ(s.errors[0].what, "\"Cures\" was left to the clinician.");
}

TEST(Needs, OfStepsThatDidNotTakePlaceDoNotCount) {
  const auto p = made_of(surprise);
  HandMade h(p);
  h.works("look", 0, 10);
  h.event(10, What::signal_passed).last().signal = SignalIx{0};
  h.event(10, What::step_skipped, {}, h.step("pass-gauze"));
  h.event(10, What::step_skipped, {}, h.step("dab"));
  const Score s = h.score(10);
  EXPECT_TRUE(s.needs.empty());
  EXPECT_DOUBLE_EQ(s.total, 100);
}

TEST(Needs, InADrillBrokenOffCountAsFarAsTheyGot) {
  const auto p = made_of(lining);
  HandMade h(p);
  h.works("prepare", 0, 20).acts("mix-liner", 5, 15).misses("apply", 20);
  h.event(26, What::lined_up, h.assistant());
  const Score s = h.score(26, 2);
  ASSERT_EQ(s.needs.size(), 1u);
  EXPECT_EQ(s.needs[0].wait, sec(6));
  EXPECT_LT(s.needs[0].credit, 0.5);
  EXPECT_EQ(s.chair_time, sec(26));
}

// Left, a drill was as long as its clock showed, whatever happened last.
TEST(Needs, InADrillThatWasLeftWaitUpToThen) {
  const auto p = made_of(lining);
  HandMade h(p);
  h.works("prepare", 0, 20).acts("mix-liner", 5, 15).misses("apply", 20);
  const Score s = h.score(26, 2);
  EXPECT_EQ(s.chair_time, sec(26));
  EXPECT_EQ(s.clinician_wait, sec(6));
  ASSERT_EQ(s.needs.size(), 1u);
  EXPECT_EQ(s.needs[0].wait, sec(6));
}

}  // namespace
}  // namespace beforehand::scoring
