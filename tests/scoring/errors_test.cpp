// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// Errors: each kind in its words, and one mistake counted once.
#include <gtest/gtest.h>

#include <functional>

#include "hand_made.hpp"

namespace beforehand::scoring {
namespace {

using drill::What;

TEST(Errors, ThereAreNoneWhenAllWentWell) {
  const auto p = made_of(lining);
  const Score s = in_time(p).score(44);
  EXPECT_TRUE(s.errors.empty());
  EXPECT_DOUBLE_EQ(s.total, 100);
  EXPECT_EQ(s.verdict, Verdict::ready);
}

TEST(Errors, AnOmissionIsOneMistakeWithAllThatWasMissingAfterIt) {
  const auto p = made_of(lining);
  HandMade h(p);
  h.works("prepare", 0, 20).misses("apply", 20).asks("apply", 24);
  h.event(32, What::helping, h.clinician(), h.step("apply"));
  h.event(50, What::step_done, h.clinician(), h.step("mix-liner"));
  h.event(50, What::step_done, h.clinician(), h.step("pass-liner"));
  h.event(50, What::helped, h.clinician(), h.step("apply"));
  h.works("apply", 50, 65).acts("pass-gauze", 60, 62).works("dab", 65, 70, {62});
  h.acts("tidy", 70, 74);
  const Score s = h.score(74);
  ASSERT_EQ(s.errors.size(), 1u);
  EXPECT_EQ(s.errors[0].kind, ErrorKind::omitted);
  EXPECT_EQ(s.errors[0].step, h.step("mix-liner"));
  EXPECT_EQ(s.errors[0].followed_by, std::vector<StepIx>{h.step("pass-liner")});
  EXPECT_EQ(s.errors[0].what, "\"Mixes the paste\" was left to the clinician.");
  EXPECT_EQ(s.errors[0].why, "Mixed too early, it sets.");
}

// Mixed at the very start it sets before the clinician is ready; mixed and passed again it comes
// late. One mistake, not four.
TEST(Errors, MadeTooEarlyIsOneMistakeThoughItSetWasMadeAgainAndCameLate) {
  const auto p = made_of(lining);
  HandMade h(p);
  h.acts("mix-liner", 0, 10).works("prepare", 0, 80).acts("pass-liner", 50, 52);
  h.sets("liner", 70).misses("apply", 80).acts_in_vain("mix-liner", 75, 85);
  h.acts_in_vain("pass-liner", 85, 87).works("apply", 87, 102, {87});
  h.acts("pass-gauze", 90, 92).works("dab", 102, 107, {92}).acts("tidy", 107, 111);
  const Score s = h.score(111);
  ASSERT_EQ(s.errors.size(), 1u);
  const Error& e = s.errors[0];
  EXPECT_EQ(e.kind, ErrorKind::too_early);
  EXPECT_EQ(e.step, h.step("mix-liner"));
  EXPECT_EQ(e.cause, h.step("apply"));
  EXPECT_EQ(e.what,
            "\"Mixes the paste\" came too early: the lining paste had set before \"Lines the "
            "cavity\" could use it up. Made again, it came 7 s late.");
  EXPECT_EQ(e.late_because, Cause::had_set);
  EXPECT_EQ(e.followed_by, std::vector<StepIx>{h.step("pass-liner")});
  EXPECT_LT(s.needs[0].credit, 0.5) << "being early with what then sets earns nothing";
  EXPECT_EQ(s.order.actions, 6);
  EXPECT_EQ(s.order.kept, 4) << "the second mixing and pass do the steps";
  EXPECT_EQ(s.order.cost, 2) << "the first ones were for nothing";
  // 7 s late of 4 s patience: 0.5 * (12 - 7) / 8; beside it a minor need in time.
  EXPECT_NEAR(s.anticipation, (2 * 0.3125 + 1) / 3, 1e-12);
  // Mixed from 75 to 85, due at 78: 6 s beyond the free one, all of them stood by before 75.
  EXPECT_EQ(s.time[h.assistant().at()].avoidable, sec(6));
  EXPECT_NEAR(s.idle, 1 - 6.0 / (6 + 30), 1e-12);
  EXPECT_NEAR(s.sequence, 1 - 4.0 / 16, 1e-12) << "10 of actions, 6 of steps, 6 kept on each side";
}

TEST(Errors, WhatSetAndWasNeverMadeAgainDidNoStep) {
  const auto p = made_of(lining);
  HandMade h(p);
  h.acts("mix-liner", 0, 10).works("prepare", 0, 80).acts("pass-liner", 50, 52);
  h.sets("liner", 70).misses("apply", 80).event(92, What::helping, h.clinician(), h.step("apply"));
  h.event(100, What::helped, h.clinician(), h.step("apply")).works("apply", 100, 115);
  h.acts("pass-gauze", 105, 107).works("dab", 115, 120, {107}).acts("tidy", 120, 124);
  const Score s = h.score(124);
  ASSERT_EQ(s.errors.size(), 1u);
  EXPECT_EQ(s.errors[0].kind, ErrorKind::too_early);
  EXPECT_TRUE(s.errors[0].what.ends_with(" The clinician had to get another.")) << s.errors[0].what;
  EXPECT_EQ(s.order.kept, 2);
  EXPECT_EQ(s.order.cost, 4) << "mixed and passed for nothing, and neither step done";
}

// The drill takes the second loading for that of the next increment, begun out of turn; what it
// did is the first one's step.
TEST(Errors, LoadedAgainBecauseItSetIsTheSameIncrementStill) {
  const auto p = made_of(
      R"(  spoon: {name: Spoon, icon: placing-instrument, at: tray, after-use: reload, working-time: 30 s}
phases:
  all: {title: All of it}
steps:
  - {id: prepare, title: Prepares, phase: all, by: clinician, takes: 40 s}
  - {id: load-1, title: Loads, phase: all, by: assistant, does: load, supply: spoon, takes: 5 s}
  - {id: pass-1, title: Passes, phase: all, by: assistant, does: pass, supply: spoon, for: place-1, takes: 2 s}
  - {id: place-1, title: Places, phase: all, by: clinician, takes: 13 s, needs: [spoon], after: [prepare]}
  - {id: load-2, title: Loads more, phase: all, by: assistant, does: load, supply: spoon, takes: 5 s}
  - {id: pass-2, title: Passes more, phase: all, by: assistant, does: pass, supply: spoon, for: place-2, takes: 2 s}
  - {id: place-2, title: Places more, phase: all, by: clinician, takes: 13 s, needs: [spoon], after: [place-1]}
)");
  HandMade h(p);
  h.works("prepare", 0, 40).acts("load-1", 0, 5).sets("spoon", 35).misses("place-1", 40);
  h.acts("load-2", 50, 55).before("load-2", "place-1", 50).acts("pass-1", 55, 57);
  h.works("place-1", 57, 70, {57}).misses("place-2", 70).acts_in_vain("load-2", 70, 75);
  h.acts("pass-2", 75, 77).works("place-2", 77, 90, {77});
  const Score s = h.score(90);
  ASSERT_EQ(s.errors.size(), 1u) << s.errors[1].what;
  EXPECT_EQ(s.errors[0].kind, ErrorKind::too_early);
  EXPECT_EQ(s.errors[0].step, h.step("load-1"));
  EXPECT_EQ(s.errors[0].late_because, Cause::had_set);
  EXPECT_EQ(s.order.actions, 5);
  EXPECT_EQ(s.order.kept, 4);
  EXPECT_EQ(s.order.cost, 1);
}

TEST(Errors, MadeInTimeButUsedTooLateHasExpired) {
  const auto p = made_of(lining);
  HandMade h(p);
  h.works("prepare", 0, 20).acts("mix-liner", 5, 15).misses("apply", 20);
  h.sets("liner", 75).acts_in_vain("mix-liner", 76, 86).acts("pass-liner", 86, 88);
  h.works("apply", 88, 103, {88}).acts("pass-gauze", 90, 92).works("dab", 103, 108, {92});
  h.acts("tidy", 108, 112);
  const Score s = h.score(112);
  ASSERT_EQ(s.errors.size(), 1u);
  EXPECT_EQ(s.errors[0].kind, ErrorKind::expired);
  EXPECT_EQ(
      s.errors[0].what,
      "The lining paste had set before \"Lines the cavity\" was over. Made again, it came 1 min "
      "8 s late.");
}

TEST(Errors, WhatIsLeftOverMaySet) {
  const auto p = made_of(lining);
  const Score s = in_time(p).sets("liner", 43).score(44);
  EXPECT_TRUE(s.errors.empty());
}

Score late(const Procedure& p, const std::function<void(HandMade&)>& meanwhile, double mix_from,
           double pass_from) {
  HandMade h(p);
  const double ready = pass_from + 2;
  h.works("prepare", 0, 20).acts("mix-liner", mix_from, mix_from + 10);
  meanwhile(h);
  h.acts("pass-liner", pass_from, ready).misses("apply", 20);
  h.works("apply", ready, ready + 15, {ready}).acts("pass-gauze", ready + 5, ready + 7);
  h.works("dab", ready + 15, ready + 20, {ready + 7}).acts("tidy", ready + 20, ready + 24);
  return h.score(ready + 24);
}

TEST(Errors, LateForThreeReasonsReadsDifferently) {
  const auto p = made_of(lining);
  const auto nothing = [](HandMade&) {};
  const Score idle = late(p, nothing, 2, 23);
  ASSERT_EQ(idle.errors.size(), 1u);
  EXPECT_EQ(idle.errors[0].late_because, Cause::stood_by);
  EXPECT_EQ(idle.errors[0].what,
            "\"Passes the paste\" came 5 s too late for \"Lines the cavity\"; you could have begun "
            "it sooner.");
  EXPECT_EQ(idle.errors[0].instead, "Begin it by 0:18; your cue: The bur slows down.");
  EXPECT_EQ(idle.errors[0].at, sec(20));

  const Score unprepared = late(p, nothing, 12, 23);
  ASSERT_EQ(unprepared.errors.size(), 1u);
  EXPECT_EQ(unprepared.errors[0].late_because, Cause::not_prepared);

  const Score full = late(
      p,
      [](HandMade& h) {
        h.action(19, What::refused, h.step("pass-liner")).last().value =
            static_cast<std::int64_t>(drill::Reason::hands_full);
      },
      2, 23);
  ASSERT_EQ(full.errors.size(), 1u);
  EXPECT_EQ(full.errors[0].late_because, Cause::hand_full);
  EXPECT_NE(full.errors[0].what.find("no hand was free"), std::string::npos);
}

TEST(Errors, DoneOnceMoreThanNeededIsRepeated) {
  const auto p = made_of(lining);
  const Score s = in_time(p).acts_in_vain("mix-liner", 36, 38).score(44);
  ASSERT_EQ(s.errors.size(), 1u);
  EXPECT_EQ(s.errors[0].kind, ErrorKind::repeated);
  EXPECT_EQ(s.order.cost, 1);
}

TEST(Errors, AnUnsafeActMakesTheVerdictRepeatWhateverTheTotal) {
  const auto p = made_of(lining);
  const Score s = in_time(p).before("tidy", "dab", 40, true).score(44);
  ASSERT_EQ(s.errors.size(), 1u);
  EXPECT_EQ(s.errors[0].kind, ErrorKind::unsafe);
  EXPECT_EQ(s.errors[0].severity, Severity::critical);
  EXPECT_GE(s.total, 97);
  EXPECT_EQ(s.verdict, Verdict::repeat);
}

TEST(Errors, OfCleanlinessWeighOnTheSequence) {
  const auto p = made_of(lining);
  HandMade h = in_time(p);
  h.event(16, What::soiled_touch, h.assistant(), h.step("pass-liner"));
  const Score s = h.score(44);
  ASSERT_EQ(s.errors.size(), 1u);
  EXPECT_EQ(s.errors[0].kind, ErrorKind::contaminated);
  EXPECT_EQ(s.order.cost, 0);
  EXPECT_NEAR(s.sequence, 1 - 2.0 / 12, 1e-12) << "weight 2 of 6 for the actions and 6 the steps";
}

constexpr std::string_view etching = R"(phases:
  all: {title: All of it}
steps:
  - {id: etch, title: Etches, phase: all, by: clinician, takes: 10 s}
  - {id: suck, title: Takes up the water, phase: all, by: assistant, does: suction, supply: tip, covers: [rinse]}
  - id: rinse
    title: Rinses
    phase: all
    by: clinician
    takes: 10 s
    severity: critical
    after: [{step: etch, at-most: 5 s, if-late: over-etched, why: "Over-etched dentine bonds badly."}]
)";

TEST(Errors, AMaximumLagBelongsToWhoHeldUpTheClinician) {
  const auto p = made_of(etching);
  HandMade h(p);
  h.works("etch", 0, 10).misses("rinse", 10).action(18, What::cover_started, h.step("suck"));
  h.event(18, What::lag_overrun, {}, h.step("rinse"), 3000).last().cause = h.step("etch");
  h.works("rinse", 18, 28, {18}).event(28, What::step_done, h.assistant(), h.step("suck"));
  const Score s = h.score(28);
  ASSERT_EQ(s.errors.size(), 1u) << "the late cover and the overrun are one mistake";
  EXPECT_EQ(s.errors[0].kind, ErrorKind::overrun);
  EXPECT_EQ(s.errors[0].what, "\"Rinses\" began too long after \"Etches\" (over-etched).");
  EXPECT_EQ(s.errors[0].why, "Over-etched dentine bonds badly.");
  EXPECT_EQ(s.errors[0].followed_by, std::vector<StepIx>{h.step("suck")});
  EXPECT_NE(s.verdict, Verdict::ready) << "critical, at any total";
}

TEST(Errors, AMaximumLagThatTheClinicianOverranAloneIsNotTheTrainees) {
  const auto p = made_of(etching);
  HandMade h(p);
  h.works("etch", 0, 10).action(9, What::cover_started, h.step("suck"));
  h.event(18, What::lag_overrun, {}, h.step("rinse"), 3000).last().cause = h.step("etch");
  h.works("rinse", 18, 28, {9}).event(28, What::step_done, h.assistant(), h.step("suck"));
  EXPECT_TRUE(h.score(28).errors.empty());
}

/// The suction is let go at 14 s, in the middle of the rinse; it has been there from 9 s on.
HandMade let_go(const Procedure& p) {
  HandMade h(p);
  h.works("etch", 0, 10).action(9, What::cover_started, h.step("suck"));
  h.event(10, What::need_met, h.assistant(), h.step("rinse")).last().since = sec(9);
  h.event(10, What::step_started, h.clinician(), h.step("rinse"));
  h.action(14, What::cover_stopped, h.step("suck"));
  h.event(14, What::step_paused, h.clinician(), h.step("rinse"));
  return h;
}

TEST(Errors, ACoverGivenUpIsNamedOnceAndNotCountedAsRepeated) {
  const auto p = made_of(etching);
  HandMade h = let_go(p);
  h.action(16, What::cover_started, h.step("suck"));
  h.event(16, What::step_resumed, h.clinician(), h.step("rinse"));
  h.event(22, What::step_done, h.clinician(), h.step("rinse"));
  h.event(22, What::step_done, h.assistant(), h.step("suck"));
  const Score s = h.score(22);
  ASSERT_EQ(s.errors.size(), 1u);
  EXPECT_EQ(s.errors[0].kind, ErrorKind::uncovered);
  EXPECT_EQ(s.errors[0].what, "\"Takes up the water\" stopped while \"Rinses\" still went on.");
  EXPECT_EQ(s.order.actions, 1);
  EXPECT_EQ(s.clinician_wait, sec(2));
}

TEST(Errors, WhyAStepIsDoneIsNotWhyItComesFirst) {
  const auto p = made_of(lining);
  const Score s = in_time(p).before("pass-liner", "mix-liner", 16).score(44);
  ASSERT_EQ(s.errors.size(), 1u);
  EXPECT_EQ(s.errors[0].kind, ErrorKind::out_of_order);
  EXPECT_EQ(s.errors[0].why,
            "Done out of turn it has no effect, undoes another, or ties up a hand.");
}

TEST(Errors, WhatWasDueAtOnceIsToBeBegunAtTheStart) {
  const auto p = made_of(R"(phases:
  all: {title: All of it}
steps:
  - {id: pass-gauze, title: Passes the gauze, phase: all, by: assistant, does: pass, supply: gauze, for: dab,
     takes: 2 s}
  - {id: dab, title: Dabs, phase: all, by: clinician, takes: 5 s, needs: [gauze]}
)");
  HandMade h(p);
  h.misses("dab", 0).acts("pass-gauze", 5, 7).works("dab", 7, 12, {7});
  const Score s = h.score(12);
  ASSERT_EQ(s.errors.size(), 1u);
  EXPECT_EQ(s.errors[0].instead, "Begin it at the very start.");
}

TEST(Errors, ACoverLetGoAndAskedForAgainIsOneSlip) {
  const auto p = made_of(etching);
  HandMade h = let_go(p);
  h.misses("rinse", 14).asks("rinse", 18).action(20, What::cover_started, h.step("suck"));
  h.event(20, What::step_resumed, h.clinician(), h.step("rinse"));
  h.event(26, What::step_done, h.clinician(), h.step("rinse"));
  h.event(26, What::step_done, h.assistant(), h.step("suck"));
  const Score s = h.score(26);
  ASSERT_EQ(s.errors.size(), 1u);
  EXPECT_EQ(s.errors[0].kind, ErrorKind::uncovered);
  EXPECT_EQ(s.time[1].avoidable, sec(5)) << "the gap less its first second, not what came before";
  EXPECT_EQ(s.needs[0].ready_at, sec(9));
  EXPECT_DOUBLE_EQ(s.needs[0].credit, 0.5);
}

TEST(Errors, ACoverLetGoAndNotTakenUpAgainIsOneSlipAndSaysWhatCameOfIt) {
  const auto p = made_of(etching);
  HandMade h = let_go(p);
  h.misses("rinse", 14).asks("rinse", 18).event(26, What::helping, h.clinician(), h.step("rinse"));
  h.event(28, What::helped, h.clinician(), h.step("rinse"));
  h.event(28, What::step_resumed, h.clinician(), h.step("rinse"));
  h.event(34, What::step_done, h.clinician(), h.step("rinse"));
  h.event(34, What::step_done, h.clinician(), h.step("suck"));
  const Score s = h.score(34);
  ASSERT_EQ(s.errors.size(), 1u);
  EXPECT_EQ(s.errors[0].what,
            "\"Takes up the water\" stopped while \"Rinses\" still went on. The clinician had to "
            "manage alone.");
  EXPECT_EQ(s.errors[0].instead, "Keep it going until \"Rinses\" is over.");
  EXPECT_EQ(s.needs[0].wait, sec(14)) << "from when it was let go";
}

TEST(Errors, ACoverLetGoBeforeItWasWantedIsTheReasonThatItCameLate) {
  const auto p = made_of(etching);
  HandMade h(p);
  h.covers("suck", 4, 9).works("etch", 0, 10).misses("rinse", 10);
  h.action(13, What::cover_started, h.step("suck"));
  h.works("rinse", 13, 23, {13}).event(23, What::step_done, h.assistant(), h.step("suck"));
  const Score s = h.score(23);
  ASSERT_EQ(s.errors.size(), 1u);
  EXPECT_EQ(s.errors[0].what,
            "\"Takes up the water\" came 3 s too late for \"Rinses\"; you had begun it, and let go "
            "too soon.");
  EXPECT_EQ(s.errors[0].instead, "Keep it going until \"Rinses\" is over.");
}

// One that serves two steps may rest between them; late for the second, only that counts.
TEST(Errors, ACoverThatRestedBetweenTwoStepsIsLateFromWhenTheSecondWantedIt) {
  const auto p = made_of(R"(phases:
  all: {title: All of it}
steps:
  - {id: rinse, title: Rinses, phase: all, by: clinician, takes: 10 s}
  - {id: look, title: Looks, phase: all, by: clinician, takes: 40 s, after: [rinse]}
  - {id: again, title: Rinses again, phase: all, by: clinician, takes: 10 s, after: [look]}
  - {id: suck, title: Takes up the water, phase: all, by: assistant, does: suction, supply: tip,
     covers: [rinse, again]}
)");
  HandMade h(p);
  h.covers("suck", 0, 10).works("rinse", 0, 10, {0}).works("look", 10, 50).misses("again", 50);
  h.action(54, What::cover_started, h.step("suck"));
  h.works("again", 54, 64, {54}).event(64, What::step_done, h.assistant(), h.step("suck"));
  const Score s = h.score(64);
  EXPECT_EQ(s.time[1].avoidable, sec(3));
  EXPECT_EQ(s.errors.size(), 1u);
}

// The clinician needs the line that the assistant does not let go of, and asks to have it.
TEST(Errors, WhatIsKeptFromTheClinicianIsTold) {
  const auto p = made_of(etching);
  HandMade h(p);
  h.works("etch", 0, 10).action(9, What::cover_started, h.step("suck"));
  const auto kept = static_cast<std::int64_t>(p.step(h.step("rinse")).needs.size());
  h.works("rinse", 10, 20, {9}).event(20, What::step_done, h.assistant(), h.step("suck"));
  h.misses("etch", 21, kept).last().action = p.action_of[h.step("suck").at()];
  h.asks("etch", 25, kept).last().action = p.action_of[h.step("suck").at()];
  const Score s = h.score(30);
  ASSERT_EQ(s.errors.size(), 1u);
  EXPECT_EQ(s.errors[0].kind, ErrorKind::extra);
  EXPECT_EQ(s.errors[0].what,
            "The suction tip was not let go until the clinician, who could not begin \"Etches\", "
            "had to ask.");
  EXPECT_LT(s.sequence, 1);
  EXPECT_EQ(s.requests, 1);
  EXPECT_DOUBLE_EQ(s.anticipation, 1);
}

TEST(Errors, TakingUpACoverAgainBeforeAnythingNeedsItIsNoError) {
  const auto p = made_of(etching);
  HandMade h(p);
  h.covers("suck", 2, 4).works("etch", 0, 10).action(9, What::cover_started, h.step("suck"));
  h.works("rinse", 10, 20, {9}).event(20, What::step_done, h.assistant(), h.step("suck"));
  const Score s = h.score(20);
  EXPECT_TRUE(s.errors.empty());
  EXPECT_EQ(s.order.cost, 0);
}

TEST(Errors, AnOfferTakenBackAndMadeAgainIsOnePass) {
  const auto p = made_of(lining);
  HandMade h(p);
  h.works("prepare", 0, 20).acts("mix-liner", 2, 12).acts("pass-liner", 12, 14);
  h.action(15, What::action_broken, h.step("pass-liner")).last().step = {};
  h.acts_in_vain("pass-liner", 17, 19);
  h.works("apply", 20, 35, {19}).acts("pass-gauze", 30, 32).works("dab", 35, 40, {32});
  h.acts("tidy", 40, 44);
  const Score s = h.score(44);
  EXPECT_TRUE(s.errors.empty());
  EXPECT_EQ(s.order.cost, 0);
}

}  // namespace
}  // namespace beforehand::scoring
