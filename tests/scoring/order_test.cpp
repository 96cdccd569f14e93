// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// Order: the alignment of small posets, and of what a trainee did to what was to be done.
#include <gtest/gtest.h>

#include <algorithm>

#include "hand_made.hpp"
#include "scoring/alignment.hpp"

namespace beforehand::scoring {
namespace {

Poset chain(std::size_t n) {
  Poset poset(n);
  for (std::size_t i = 0; i < n; ++i)
    for (std::size_t j = i + 1; j < n; ++j) poset.set_below(i, j);
  return poset;
}

TEST(Antichain, OfAChainIsOneAndOfNothingRelatedIsAll) {
  std::vector<bool> kept;
  AntichainFinder finder;
  EXPECT_EQ(finder.largest(chain(9), kept), 1);
  EXPECT_EQ(std::count(kept.begin(), kept.end(), true), 1);
  EXPECT_EQ(finder.largest(Poset(130), kept), 130);
  EXPECT_EQ(finder.largest(Poset(0), kept), 0);
}

TEST(Antichain, TheHeaviestNeedNotBeTheLargest) {
  // 0 below 1 and 2: the two weigh less than the one.
  Poset poset(3);
  poset.set_below(0, 1);
  poset.set_below(0, 2);
  std::vector<bool> kept;
  AntichainFinder finder;
  EXPECT_EQ(finder.largest(poset, kept), 2);
  EXPECT_EQ(finder.heaviest(poset, {4, 1, 2}, kept), 4);
  EXPECT_EQ(kept, (std::vector<bool>{true, false, false}));
  EXPECT_EQ(finder.heaviest(poset, {4, 3, 2}, kept), 5);
}

constexpr std::string_view three_things = R"(phases:
  all: {title: All of it}
steps:
  - {id: look, title: Looks, phase: all, by: clinician, takes: 30 s}
  - {id: check-lamp, title: Checks the lamp, phase: all, by: assistant, does: check, supply: lamp, takes: 2 s}
  - {id: wipe-tip, title: Wipes the tip, phase: all, by: assistant, does: use, supply: tip, after: [check-lamp],
     takes: 2 s, severity: major}
  - {id: fold-gauze, title: Folds the gauze, phase: all, by: assistant, does: use, supply: gauze, takes: 2 s,
     after: [look], severity: critical}
)";

TEST(Order, WhatIsDoneOnceAndInPlaceFitsWholly) {
  const auto p = made_of(three_things);
  HandMade h(p);
  h.works("look", 0, 30).acts("check-lamp", 1, 3).acts("wipe-tip", 4, 6).acts("fold-gauze", 31, 33);
  const Score s = h.score(33);
  EXPECT_EQ(s.order.actions, 3);
  EXPECT_EQ(s.order.steps, 3);
  EXPECT_EQ(s.order.cost, 0);
  EXPECT_EQ(s.order.fitness, 1);
  EXPECT_EQ(s.sequence, 1);
}

// Swapped: one of two is kept, 2 - 1 actions and 2 - 1 steps are lost of 3 + 3; by weight the major
// one (2) is kept and the minor one (1) lost twice of 14.
TEST(Order, OfTwoSwappedOneIsKeptTheWeightierOne) {
  const auto p = made_of(three_things);
  HandMade h(p);
  h.works("look", 0, 30).acts("wipe-tip", 1, 3).acts("check-lamp", 4, 6).acts("fold-gauze", 31, 33);
  const Score s = h.score(33);
  EXPECT_EQ(s.order.kept, 2);
  EXPECT_EQ(s.order.cost, 2);
  EXPECT_NEAR(s.order.fitness, 1 - 2.0 / 6, 1e-12);
  EXPECT_NEAR(s.sequence, 1 - 2.0 / 14, 1e-12);
  ASSERT_EQ(s.errors.size(), 1u);
  EXPECT_EQ(s.errors[0].kind, ErrorKind::out_of_order);
  EXPECT_EQ(s.errors[0].what, "\"Wipes the tip\" was begun before \"Checks the lamp\" was done.");
}

// Done too soon to have an effect, and again in its place: one action too many of 4 + 3.
TEST(Order, AnAttemptThatCameToNothingCostsOneAction) {
  const auto p = made_of(three_things);
  HandMade h(p);
  h.works("look", 0, 30).acts("check-lamp", 1, 3).acts("wipe-tip", 4, 6);
  h.before("fold-gauze", "look", 10).acts("fold-gauze", 10, 12, false).acts("fold-gauze", 31, 33);
  const Score s = h.score(33);
  EXPECT_EQ(s.order.actions, 4);
  EXPECT_EQ(s.order.kept, 3);
  EXPECT_EQ(s.order.cost, 1);
  EXPECT_NEAR(s.order.fitness, 1 - 1.0 / 7, 1e-12);
  EXPECT_NEAR(s.sequence, 1 - 4.0 / 18, 1e-12);
  ASSERT_EQ(s.errors.size(), 1u) << "one mistake is counted once";
  EXPECT_EQ(s.errors[0].at, sec(10));
}

TEST(Order, TheCliniciansStepsStandWhereTheyStood) {
  const auto p = made_of(three_things);
  HandMade h(p);
  h.works("look", 0, 30).acts("check-lamp", 1, 3).acts("wipe-tip", 4, 6).acts("fold-gauze", 10, 12);
  const Score s = h.score(33);
  EXPECT_EQ(s.order.kept, 2) << "it had an effect, and still came before the look was over";
  EXPECT_EQ(s.order.cost, 2);
  ASSERT_EQ(s.errors.size(), 1u);
  EXPECT_EQ(s.errors[0].cause, h.step("look"));
}

TEST(Order, WhatWasBrokenOffIsNoAction) {
  const auto p = made_of(three_things);
  HandMade h(p);
  h.works("look", 0, 30).acts("check-lamp", 1, 3).acts("wipe-tip", 4, 6).acts("fold-gauze", 31, 33);
  h.action(10, drill::What::action_started, h.step("fold-gauze"));
  h.action(11, drill::What::action_broken, h.step("fold-gauze"));
  const Score s = h.score(33);
  EXPECT_EQ(s.order.actions, 3);
  EXPECT_EQ(s.order.cost, 0);
  EXPECT_TRUE(s.errors.empty());
}

TEST(Order, NothingDoneAtAllFitsNotAtAll) {
  const auto p = made_of(three_things);
  HandMade h(p);
  h.works("look", 0, 30);
  const Score s = h.score(90, 1);
  EXPECT_EQ(s.order.actions, 0);
  EXPECT_EQ(s.order.cost, 3);
  EXPECT_EQ(s.order.fitness, 0);
  EXPECT_EQ(s.sequence, 0);
}

TEST(Order, OfADrillBrokenOffExpectsOnlyWhatWasDueByThen) {
  const auto p = made_of(lining);
  HandMade h(p);
  h.works("prepare", 0, 20).acts("mix-liner", 5, 15).acts("pass-liner", 16, 18);
  h.event(20, drill::What::lined_up, h.assistant());
  const Score s = h.score(20, 2);
  EXPECT_EQ(s.order.steps, 2);
  EXPECT_EQ(s.order.cost, 0);
  EXPECT_TRUE(s.errors.empty());
}

}  // namespace
}  // namespace beforehand::scoring
