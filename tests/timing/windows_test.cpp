// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "timing/windows.hpp"

#include <gtest/gtest.h>

#include <stdexcept>

#include "sketch.hpp"

namespace beforehand::timing {
namespace {

using State = StepTime::State;

std::vector<Window> at_start(const Procedure& p) {
  std::vector<Window> out;
  windows(p, std::vector<StepTime>(p.steps.size()), Ms{0}, out);
  return out;
}

// Isolate 60 s, etch 15 s with an etchant passed in 2 s, rinse 10 s under suction.
struct Etching : Sketch {
  StepIx isolate = step("isolate", {clinician}, s(60));
  StepIx etch = step("etch", {clinician}, s(15), {isolate});
  StepIx rinse = step("rinse", {clinician}, s(10), {etch});
  SupplyIx etchant = supply("etchant", s(40));
  StepIx set_out = step("set out", {assistant}, s(5));
  StepIx load = step("load", {assistant}, s(10), {set_out});
  StepIx pass_etchant = pass(etchant, etch, s(2), {load}, load);
  StepIx suction = cover("suction", assistant, {rinse});

  Etching() { at(load).verb = Verb::load; }
};

TEST(Windows, APassServesTheStepThatNeedsIt) {
  const Etching e;
  const auto w = at_start(e.p);
  const auto& pass = w[e.pass_etchant.at()];
  EXPECT_EQ(pass.serves, e.etch);
  EXPECT_EQ(pass.need, s(60));
  EXPECT_EQ(pass.latest, s(58));
  EXPECT_EQ(pass.earliest, s(60 - 10 - 2)) << "held longer than the offer time";
}

TEST(Windows, LatestRunsBackThroughThePreps) {
  const Etching e;
  const auto w = at_start(e.p);
  EXPECT_EQ(w[e.load.at()].latest, s(48));
  EXPECT_EQ(w[e.set_out.at()].latest, s(43));
  EXPECT_EQ(w[e.set_out.at()].serves, e.etch);
  EXPECT_EQ(w[e.set_out.at()].need, s(60));
  EXPECT_EQ(w[e.set_out.at()].earliest, s(0));
}

TEST(Windows, WhatSetsIsNotPreparedTooEarly) {
  const Etching e;
  const auto w = at_start(e.p);
  EXPECT_EQ(w[e.load.at()].earliest, s(75 - 40 - 10)) << "the etch ends at 75 s; it keeps for 40 s";
}

TEST(Windows, WhatSetsKeepsEvenIfAllGoesSlowly) {
  Etching e;
  e.at(e.etch).takes.most = s(25);
  EXPECT_EQ(at_start(e.p)[e.load.at()].earliest, s(85 - 40 - 10));
  e.at(e.isolate).takes.most = s(70);
  EXPECT_EQ(at_start(e.p)[e.load.at()].earliest, s(95 - 40 - 10));
}

TEST(Windows, WhatSetsIsPreparedInTimeForTheQuickest) {
  Etching e;
  e.at(e.isolate).takes = {s(40), s(60), s(60)};
  e.at(e.etch).takes.most = s(25);
  EXPECT_EQ(at_start(e.p)[e.load.at()].earliest, s(40 - 2 - 10)) << "not only from 35 s on";
}

TEST(Windows, ACoverIsNeededWhenItsFirstStepStarts) {
  const Etching e;
  const auto w = at_start(e.p);
  EXPECT_EQ(w[e.suction.at()].serves, e.rinse);
  EXPECT_EQ(w[e.suction.at()].latest, s(75));
  EXPECT_EQ(w[e.suction.at()].earliest, s(65));
}

TEST(Windows, TheCliniciansStepsHaveNoLatest) {
  const Etching e;
  const auto w = at_start(e.p);
  EXPECT_EQ(w[e.etch.at()].latest, never);
  EXPECT_FALSE(w[e.etch.at()].serves);
  EXPECT_EQ(w[e.rinse.at()].expected, s(75));
}

TEST(Windows, NeedDoesNotMoveWhileTheClinicianWaits) {
  const Etching e;
  std::vector<StepTime> progress(e.p.steps.size());
  progress[e.isolate.at()] = {State::done, s(0), s(58)};
  progress[e.set_out.at()] = {State::done, s(0), s(5)};
  std::vector<Window> w;
  windows(e.p, progress, s(70), w);
  EXPECT_EQ(w[e.pass_etchant.at()].need, s(58));
  EXPECT_EQ(w[e.load.at()].latest, s(46));
  EXPECT_EQ(w[e.etch.at()].expected, s(82)) << "load 10 s and pass 2 s from now on";
  EXPECT_EQ(w[e.suction.at()].need, s(97)) << "later needs move with the clinician";
}

TEST(Windows, AStepUnderWayEndsNoEarlierThanNow) {
  const Etching e;
  std::vector<StepTime> progress(e.p.steps.size());
  progress[e.isolate.at()] = {State::doing, s(0), never};
  std::vector<Window> w;
  windows(e.p, progress, s(75), w);
  EXPECT_EQ(w[e.pass_etchant.at()].need, s(75));
  progress[e.isolate.at()].end = s(90);
  windows(e.p, progress, s(75), w);
  EXPECT_EQ(w[e.pass_etchant.at()].need, s(90));
}

TEST(Windows, DoneAndSkippedStepsHaveNoNeed) {
  const Etching e;
  std::vector<StepTime> progress(e.p.steps.size());
  progress[e.set_out.at()] = {State::done, s(1), s(6)};
  progress[e.suction.at()] = {State::skipped, never, never};
  std::vector<Window> w;
  windows(e.p, progress, s(10), w);
  EXPECT_EQ(w[e.set_out.at()].earliest, s(1));
  EXPECT_EQ(w[e.set_out.at()].need, never);
  EXPECT_EQ(w[e.suction.at()].earliest, never);
  EXPECT_EQ(w[e.suction.at()].need, never);
}

TEST(Windows, EarliestUsesLeastDurationsNeedUsesUsual) {
  Etching e;
  e.at(e.isolate).takes = {s(40), s(60), s(90)};
  e.p.supplies[0].working_time = never;
  const auto w = at_start(e.p);
  EXPECT_EQ(w[e.pass_etchant.at()].earliest, s(28));
  EXPECT_EQ(w[e.pass_etchant.at()].latest, s(58));
}

TEST(Windows, AMaximumLagBoundsALaterPrep) {
  Etching e;
  const auto dry = e.step("dry", {assistant}, s(5), {e.rinse});
  e.at(dry).after.back().at_most = s(8);
  const auto w = at_start(e.p);
  EXPECT_EQ(w[dry.at()].latest, s(93));
  EXPECT_EQ(w[dry.at()].need, never);
}

// After a signal that shows 2 s after the isolation, either the blotting or nothing.
struct Bleeding : Etching {
  Bleeding() {
    p.signals.resize(1);
    p.signals[0].after = isolate;
    p.signals[0].delay = s(2);
    blot = step("blot", {assistant}, s(20), {isolate});
    at(blot).when = {SignalIx{0}};
    link(etch, blot);
  }
  StepIx blot;
};

TEST(Windows, AStepOnAnOpenSignalDoesNotHappenYet) {
  const Bleeding b;
  const auto w = at_start(b.p);
  EXPECT_EQ(w[b.blot.at()].earliest, never);
  EXPECT_EQ(w[b.etch.at()].expected, s(62)) << "known only once the signal is decided";
}

TEST(Windows, WhatSetsKeepsEvenIfTheSignalComes) {
  const Bleeding b;
  EXPECT_EQ(at_start(b.p)[b.load.at()].earliest, s(62 + 20 + 15 - 40 - 10));
}

TEST(Windows, AStepWhoseSignalHappenedCounts) {
  const Bleeding b;
  std::vector<StepTime> progress(b.p.steps.size());
  progress[b.isolate.at()] = {State::done, s(0), s(60)};
  std::vector<Window> w;
  windows(b.p, progress, s(61), w);
  EXPECT_EQ(w[b.blot.at()].earliest, never);
  windows(b.p, progress, s(62), w);
  EXPECT_EQ(w[b.blot.at()].serves, b.etch);
  EXPECT_EQ(w[b.etch.at()].expected, s(82));
  progress[b.blot.at()] = {State::skipped, never, never};
  windows(b.p, progress, s(62), w);
  EXPECT_EQ(w[b.blot.at()].serves, StepIx{});
  EXPECT_EQ(w[b.etch.at()].expected, s(79)) << "set out, load and pass from now on";
}

TEST(Windows, WhatFollowsACoverFollowsWhatItCovers) {
  Etching e;
  const auto wipe = e.step("wipe", {assistant}, s(3), {e.suction});
  EXPECT_EQ(at_start(e.p)[wipe.at()].earliest, s(85));
}

TEST(Windows, AGraphInACircleIsRefused) {
  Etching e;
  e.link(e.isolate, e.rinse);
  EXPECT_THROW(WindowFinder{e.p}, std::invalid_argument);
}

TEST(EarliestFinish, IsTheLongestPathOfWhatHappens) {
  const Etching e;
  EXPECT_EQ(earliest_finish(e.p, {}), s(85));
  const Bleeding b;
  EXPECT_EQ(earliest_finish(b.p, {}), s(87)) << "two seconds to see whether it bleeds";
  EXPECT_EQ(earliest_finish(b.p, {SignalIx{0}}), s(107));
}

}  // namespace
}  // namespace beforehand::timing
