// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/sitting.hpp"

#include <gtest/gtest.h>

#include "playing.hpp"
#include "stage/action_cards.hpp"

namespace beforehand::stage {
namespace {

using namespace std::chrono_literals;

// Whoever passes the wrong thing must get the hand free again, by the key that filled it.
TEST(Sitting, WhatIsOfferedIsPutBackByItsOwnCard) {
  const auto shelf = tiny_shelf();
  const auto strings = english();
  const auto& p = *shelf.front().procedure;
  Sitting sitting(p, Choice{}, 1, "", strings);
  ActionIx pass;
  for (std::size_t i = 0; i < p.actions.size(); ++i) {
    if (p.actions[i].verb == procedure::Verb::pass && !pass) pass = ActionIx{i};
  }
  ASSERT_TRUE(pass);
  sitting.choose(pass);
  for (int i = 0; i < 30; ++i) sitting.pass(100ms);
  const auto offered = card_now(p, sitting.world(), sitting.trainee(), pass);
  EXPECT_TRUE(offered.offered);
  EXPECT_TRUE(offered.possible());
  EXPECT_EQ(free_hands(p, sitting.world(), sitting.trainee()), 1);
  sitting.choose(pass);
  EXPECT_EQ(free_hands(p, sitting.world(), sitting.trainee()), 2);
  EXPECT_FALSE(card_now(p, sitting.world(), sitting.trainee(), pass).offered);
}

}  // namespace
}  // namespace beforehand::stage
