// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// What the plan takes into account, one thing at a time, on procedures small enough to see the best
// plan at a glance.
#include <gtest/gtest.h>

#include "sketch.hpp"
#include "timing/feasible.hpp"
#include "timing/plan.hpp"

namespace beforehand::timing {
namespace {

Plan best(const Procedure& p, const std::vector<SignalIx>& happened = {}) {
  PlanRequest request;
  request.happened = happened;
  const auto found = plan(p, request);
  EXPECT_EQ(found.outcome, Plan::Outcome::proven);
  EXPECT_EQ(violations(p, happened, found), std::vector<std::string>{});
  return found;
}

TEST(PlanModel, APersonsAttentionGoesToOneStepAtATime) {
  Sketch k;
  k.step("a", {assistant}, s(10));
  k.step("b", {assistant}, s(7));
  k.step("c", {clinician}, s(12));
  EXPECT_EQ(best(k.p).chair_time, s(17));
}

TEST(PlanModel, AStepWithoutAttentionGoesOnBesideAnother) {
  Sketch k;
  k.at(k.step("light", {assistant}, s(10))).attention = false;
  k.step("b", {assistant}, s(7));
  EXPECT_EQ(best(k.p).chair_time, s(10));
}

TEST(PlanModel, HandsAreTwo) {
  Sketch k;
  for (const auto* id : {"one", "two", "three"})
    k.at(k.step(id, {assistant}, s(10))).attention = false;
  EXPECT_EQ(best(k.p).chair_time, s(20));
}

TEST(PlanModel, APassHoldsItsHandUntilItIsTaken) {
  Sketch k;  // both hands: one at the cover, one holding; no third for the light
  const auto rinse = k.step("rinse", {clinician}, s(20));
  k.cover("suction", assistant, {rinse});
  const auto use = k.step("use", {clinician}, s(5), {rinse});
  const auto pass = k.pass(k.supply("gauze"), use, s(2));
  const auto light = k.step("light", {assistant}, s(4));
  k.at(light).attention = false;
  k.link(light, pass);
  k.link(use, light);
  EXPECT_EQ(best(k.p).chair_time, s(29)) << "the light only after the suction";
}

TEST(PlanModel, WhatIsUsedStaysInTheHandUntilTakenBack) {
  Sketch k;
  const auto mirror = k.supply("mirror");
  const auto pass = k.step("pass mirror", {assistant}, s(2));
  const auto first = k.step("first", {clinician}, s(5));
  k.serve(pass, mirror, first);
  const auto two_handed = k.step("two-handed", {clinician}, s(5), {first});
  k.at(two_handed).hands = 2;
  EXPECT_EQ(best(k.p).chair_time, s(12)) << "laid down by the clinician";
  const auto back = k.step("take back", {assistant}, s(3), {first});
  k.at(back).verb = Verb::take_back;
  k.at(back).supply = mirror;
  EXPECT_EQ(best(k.p).chair_time, s(15)) << "handed over first";
}

TEST(PlanModel, WhatIsTakenBackIsExchanged) {
  Sketch k;
  const auto probe = k.supply("probe"), gauze = k.supply("gauze");
  const auto pass = k.step("pass probe", {assistant}, s(2));
  const auto rinse = k.step("rinse", {clinician}, s(30));
  k.cover("suction", assistant, {rinse});
  k.serve(pass, probe, rinse);
  const auto use = k.step("use", {clinician}, s(5));
  const auto offer = k.pass(gauze, use, s(2));
  k.link(offer, rinse, s(0), never, Anchor::start);
  const auto back = k.step("take back", {assistant}, s(3));
  k.at(back).verb = Verb::take_back;
  k.at(back).supply = probe;
  k.link(back, rinse);
  k.link(use, back);
  const auto plan = best(k.p);
  EXPECT_EQ(plan.chair_time, s(2 + 30 + 3 + 5));
  EXPECT_LE(plan.steps[offer.at()].end, plan.steps[back.at()].start);
}

TEST(PlanModel, ADeviceServesOneStepAtATime) {
  Sketch k;
  k.p.devices.resize(1);
  for (const auto who : {clinician, assistant}) {
    k.at(k.step("uses", {who}, s(10))).devices = {DeviceIx{0}};
  }
  EXPECT_EQ(best(k.p).chair_time, s(20));
}

TEST(PlanModel, WhoeverWouldWaitDoesWhatBothMayDo) {
  Sketch k;
  k.step("mix", {assistant}, s(30));
  const auto cure = k.step("cure", {assistant, clinician}, s(20));
  k.step("finish", {clinician}, s(5), {cure});
  const auto plan = best(k.p);
  EXPECT_EQ(plan.chair_time, s(30));
  EXPECT_EQ(plan.steps[cure.at()].by, clinician);
}

TEST(PlanModel, NobodyCoversTheirOwnWork) {
  Sketch k;
  const auto rinse = k.step("rinse", {clinician}, s(10));
  const auto suction = k.cover("suction", assistant, {rinse});
  k.at(suction).by = {clinician, assistant};
  EXPECT_EQ(best(k.p).steps[suction.at()].by, assistant);
}

TEST(PlanModel, ACoverLastsUntilAllItCoversHasEnded) {
  Sketch k;
  const auto rinse = k.step("rinse", {clinician}, s(10));
  const auto dry = k.step("dry", {clinician}, s(5), {rinse});
  const auto suction = k.cover("suction", assistant, {rinse, dry});
  const auto wipe = k.step("wipe", {assistant}, s(3), {suction});
  const auto plan = best(k.p);
  EXPECT_EQ(plan.steps[suction.at()].end, s(15));
  EXPECT_EQ(plan.steps[wipe.at()].start, s(15));
}

// Mixing takes 10 s and keeps for 20 s; the use, 12 s, can start only after 60 s.
TEST(PlanModel, WhatIsMixedIsUsedBeforeItSets) {
  Sketch k;
  const auto paste = k.supply("paste", s(20));
  const auto open = k.step("open", {clinician}, s(60));
  const auto use = k.step("use", {clinician}, s(12), {open});
  const auto mix = k.step("mix", {assistant}, s(10));
  k.at(mix).verb = Verb::mix;
  k.pass(paste, use, s(2), {mix}, mix);
  const auto plan = best(k.p);
  EXPECT_EQ(plan.chair_time, s(72));
  EXPECT_EQ(plan.steps[mix.at()].start, s(48)) << "as fresh as can be";
  EXPECT_EQ(plan.steps[mix.at()].earliest, s(72 - 20 - 10));
}

TEST(PlanModel, MaximumLagsPullTheFirstStepLate) {
  Sketch k;
  const auto etch = k.step("etch", {clinician}, s(15));
  const auto fetch = k.step("fetch", {assistant}, s(40));
  const auto rinse = k.step("rinse", {clinician}, s(10), {fetch});
  k.link(rinse, etch, s(0), s(5));
  const auto plan = best(k.p);
  EXPECT_EQ(plan.chair_time, s(50));
  EXPECT_GE(plan.steps[etch.at()].start, s(20));
}

TEST(PlanModel, TheClinicianDoesNotWaitWhereTheChairTimeIsTheSame) {
  Sketch
      k;  // nothing keeps the first step from an early start, but it would only lengthen the wait
  const auto open = k.step("open", {clinician}, s(10));
  const auto mix = k.step("mix", {assistant}, s(50));
  const auto use = k.step("use", {clinician}, s(5), {mix});
  k.link(use, open);
  const auto plan = best(k.p);
  EXPECT_EQ(plan.chair_time, s(55));
  EXPECT_EQ(plan.clinician_wait, s(0));
  EXPECT_EQ(plan.steps[open.at()].start, s(40));
}

TEST(PlanModel, OnlyWhatTheSignalsAskForHappens) {
  Sketch k;
  const auto open = k.step("open", {clinician}, s(10));
  k.p.signals.resize(1);
  k.p.signals[0].after = open;
  k.p.signals[0].delay = s(2);
  const auto blot = k.step("blot", {clinician}, s(8), {open});
  k.at(blot).when = {SignalIx{0}};
  k.step("go on", {clinician}, s(5), {blot});
  EXPECT_EQ(best(k.p).chair_time, s(17)) << "2 s to see that it does not bleed";
  EXPECT_FALSE(best(k.p).steps[blot.at()].happens());
  EXPECT_EQ(best(k.p, {SignalIx{0}}).chair_time, s(25));
}

TEST(PlanModel, ThreePeopleShareTheWork) {
  Sketch k;
  k.p.people.push_back({"second", "Second assistant", Role::second_assistant, 2, {}});
  const PersonIx second{2};
  for (const auto* id : {"a", "b", "c"}) k.step(id, {assistant, second}, s(10));
  EXPECT_EQ(best(k.p).chair_time, s(20));
}

TEST(PlanModel, WhatCannotBeDoneIsSaidToBeImpossible) {
  Sketch k;
  const auto a = k.step("a", {assistant}, s(10));
  const auto b = k.step("b", {assistant}, s(10));
  const auto c = k.step("c", {clinician}, s(1), {a, b});
  k.link(c, a, s(0), s(5));
  k.link(c, b, s(0), s(5));
  EXPECT_EQ(plan(k.p).outcome, Plan::Outcome::impossible);
}

TEST(PlanModel, ACoarseUnitGivesAPlanButNoProof) {
  Sketch k;  // the durations have no common divisor above 1 ms, and there are 20 000 of them
  const auto a = k.step("a", {clinician}, Ms{9'999});
  const auto b = k.step("b", {assistant}, Ms{10'001});
  k.step("c", {clinician}, Ms{10'000}, {a, b});
  const auto plan = timing::plan(k.p);
  EXPECT_EQ(violations(k.p, {}, plan), std::vector<std::string>{});
  EXPECT_GE(plan.chair_time, Ms{20'001});
  EXPECT_LE(plan.lower_bound, Ms{20'001});
}

TEST(Plan, IsTheSameEachTime) {
  Sketch k;
  for (int i = 0; i < 6; ++i) k.step("either", {assistant, clinician}, s(5 + i));
  const auto once = plan(k.p), again = plan(k.p);
  for (std::size_t i = 0; i < once.steps.size(); ++i) {
    EXPECT_EQ(once.steps[i].by, again.steps[i].by);
    EXPECT_EQ(once.steps[i].start, again.steps[i].start);
  }
}

TEST(Plan, StoppedAtOnceSaysSo) {
  Sketch k;
  k.step("a", {clinician}, s(5));
  PlanRequest request;
  request.stopped = [] { return true; };
  const auto plan = timing::plan(k.p, request);
  EXPECT_EQ(plan.outcome, Plan::Outcome::none_found);
  EXPECT_EQ(plan.lower_bound, s(5));
}

}  // namespace
}  // namespace beforehand::timing
