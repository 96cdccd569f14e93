// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/action_cards.hpp"

#include <gtest/gtest.h>

#include <set>

namespace beforehand::stage {
namespace {

using procedure::Procedure;
using procedure::Verb;

// A made-up procedure of which only the actions matter here: `count` supplies, each with the verb.
Procedure with_actions(const std::vector<std::pair<Verb, int>>& wanted) {
  Procedure p;
  p.people = {{"c", "C", procedure::Role::clinician, 2, {}},
              {"a", "A", procedure::Role::assistant, 2, {}}};
  for (const auto& [verb, count] : wanted)
    for (int i = 0; i < count; ++i) {
      procedure::Supply supply;
      supply.id = supply.name = "thing " + std::to_string(p.supplies.size());
      p.supplies.push_back(supply);
      procedure::Step step;
      step.by = {PersonIx{1}};
      step.verb = verb;
      step.supply = SupplyIx{p.supplies.size() - 1};
      p.steps.push_back(step);
      p.actions.push_back({verb, step.supply, false, {StepIx{p.steps.size() - 1}}});
    }
  return p;
}

const Strings& words() {
  static const Strings strings = Strings::parse(
      "verb.pass = Pass: {0}\nverb.mix = Mix: {0}\nverb.suction = Suction: {0}\n"
      "verb.put-away = Put away: {0}\n",
      "test");
  return strings;
}

std::set<std::string> keys_of(const std::vector<ActionCard>& cards) {
  std::set<std::string> keys;
  for (const auto& card : cards) keys.insert(card.keys);
  return keys;
}

TEST(ActionCards, EachCornerHasItsRowOfTheKeyboard) {
  const auto p =
      with_actions({{Verb::suction, 2}, {Verb::pass, 2}, {Verb::mix, 1}, {Verb::put_away, 1}});
  const auto cards = action_cards(p, PersonIx{1}, words());
  ASSERT_EQ(cards.size(), 6u);
  EXPECT_EQ(cards[0].title, "Mix: thing 4");
  EXPECT_EQ(cards[0].keys, "1");
  EXPECT_EQ(cards[1].keys, "q");
  EXPECT_EQ(cards[2].keys, "w");
  EXPECT_EQ(cards[3].keys, "a");
  EXPECT_EQ(cards[5].keys, "z");
}

TEST(ActionCards, WhatSomebodyElseDoesHasNoCard) {
  auto p = with_actions({{Verb::pass, 2}});
  p.steps[0].by = {PersonIx{0}};
  EXPECT_EQ(action_cards(p, PersonIx{1}, words()).size(), 1u);
}

TEST(ActionCards, ACrowdedCornerTakesFreeKeysOfOtherRows) {
  const auto p = with_actions({{Verb::pass, 14}, {Verb::mix, 1}});
  const auto cards = action_cards(p, PersonIx{1}, words());
  EXPECT_EQ(keys_of(cards).size(), 15u);
  for (const auto& card : cards) EXPECT_EQ(card.keys.size(), 1u);
  EXPECT_EQ(cards[11].keys, "2");  // the eleventh pass: the top row's next free key
}

TEST(ActionCards, PastThirtySixCardsTwoKeysAreTypedAndNoneIsAnothersBeginning) {
  const auto p = with_actions({{Verb::pass, 30}, {Verb::suction, 30}});
  const auto cards = action_cards(p, PersonIx{1}, words());
  EXPECT_EQ(keys_of(cards).size(), 60u);
  for (const auto& card : cards) {
    ASSERT_TRUE(card.keys.size() == 1 || (card.keys.size() == 2 && card.keys[0] == 'm'));
    EXPECT_NE(card.keys, "m");
    Typing typing;
    std::optional<ActionIx> chosen;
    for (const char c : card.keys) chosen = typing.type(cards, c);
    ASSERT_TRUE(chosen.has_value());
    EXPECT_EQ(*chosen, card.action);
  }
}

TEST(Typing, AKeyThatMeansNothingIsForgotten) {
  const auto p = with_actions({{Verb::pass, 1}});
  const auto cards = action_cards(p, PersonIx{1}, words());
  Typing typing;
  EXPECT_FALSE(typing.type(cards, 'x').has_value());
  EXPECT_TRUE(typing.begun().empty());
  EXPECT_EQ(typing.type(cards, 'q'), ActionIx{0});
}

}  // namespace
}  // namespace beforehand::stage
