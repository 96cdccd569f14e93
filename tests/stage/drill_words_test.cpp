// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// What the drill tells about itself: its keys and signs, why time keeps its pace, what the
// clinician waits for, and that nothing is left.
#include <gtest/gtest.h>

#include <algorithm>

#include "playing.hpp"

namespace beforehand::stage {
namespace {

using std::chrono::milliseconds;

std::vector<ShelfItem> only(const std::string& id) {
  std::vector<ShelfItem> one;
  for (auto& item : shipped_shelf())
    if (item.procedure && item.procedure->id == id) one.push_back(std::move(item));
  return one;
}

// From the shelf past the briefing.
void to_drill(Program& program) {
  press(program, Key::enter);
  program.settle();
  press(program, Key::enter);
}

TEST(DrillWords, HelpGoesFromTheKeysToTheSignsAndBack) {
  auto program = program_on(tiny_shelf());
  to_drill(program);
  press(program, Key::help);
  EXPECT_TRUE(shows(program, "what the signs mean"));
  EXPECT_FALSE(shows(program, "soiled"));
  press(program, Key::help);
  EXPECT_TRUE(shows(program, "soiled"));
  press(program, Key::help);
  EXPECT_FALSE(program.drill()->helping());

  press(program, Key::help);
  press(program, Key::space);
  EXPECT_FALSE(program.drill()->helping()) << "any other key closes the keys";
  EXPECT_FALSE(program.sitting()->clock().paused()) << "and does nothing else";

  press(program, Key::help);
  ASSERT_TRUE(press_on(program, "what the signs mean"));
  EXPECT_TRUE(shows(program, "soiled"));
  ASSERT_TRUE(press_on(program, "soiled"));
  EXPECT_FALSE(program.drill()->helping());
}

TEST(DrillWords, WhoeverWouldHurryTimeIsToldWhereItCannot) {
  auto program = program_on(tiny_shelf());
  to_drill(program);
  program.pass(milliseconds(500));
  press(program, Key::enter);
  EXPECT_TRUE(shows(program, "keeps its pace"));
  EXPECT_FALSE(program.sitting()->lapsing());
}

TEST(DrillWords, WhatIsLinedUpInsteadOfAnotherSaysSo) {
  auto program = program_on(only("fissure-sealant"));
  to_drill(program);
  type(program, "a");
  type(program, "s");
  EXPECT_FALSE(shows(program, "No longer:"));
  type(program, "s");
  EXPECT_FALSE(shows(program, "No longer:")) << "the same again";
  type(program, "f");
  EXPECT_TRUE(shows(program, "No longer:"));
}

TEST(DrillWords, WhatIsUnderWayIsWaitedForCalmly) {
  auto program = program_on(only("fissure-sealant"));
  to_drill(program);
  int calm = 0;
  for (int i = 0; i < 6000 && program.stand() == Program::Stand::drill; ++i) {
    do_what_is_urgent(program);
    program.pass(milliseconds(100));
    if (!shows(program, "under way:")) continue;
    ++calm;
    EXPECT_FALSE(shows(program, "Waits to begin"));
    EXPECT_FALSE(program.sitting()->world().person(program.sitting()->trainee()).doing.empty());
  }
  EXPECT_GT(calm, 0);
}

// What was told last, however it is broken into lines.
bool told(const Program& program, const std::string& part) {
  const auto& all = program.sitting()->captions();
  return !all.empty() && all.back().kind == Caption::Kind::told &&
         all.back().text.find(part) != std::string::npos;
}

TEST(DrillWords, WhatIsBegunTooSoonIsToldAtOnce) {
  auto program = program_on(only("fissure-sealant"));
  to_drill(program);
  const auto& p = program.sitting()->procedure();
  const auto trainee = program.sitting()->trainee();
  type(program, "a");
  for (int i = 0; i < 250; ++i) program.pass(milliseconds(100));
  type(program, "a");
  EXPECT_FALSE(told(program, "no step calls for it")) << "clean hands are never in vain";
  press(program, Key::backspace);
  type(program, "g");
  EXPECT_TRUE(told(program, "Unsafe: Light: Curing light"));

  drill::Event early;
  early.what = drill::What::unready_start;
  early.person = trainee;
  early.action = ActionIx{0};
  early.cause = StepIx{0};
  for (const auto& [value, says] : {std::pair{0, "begun before"}, {1, "Unsafe"}}) {
    early.value = value;
    const auto captions = captions_of(p, early, trainee, english());
    ASSERT_EQ(captions.size(), 1u);
    EXPECT_NE(captions[0].text.find(says), std::string::npos) << captions[0].text;
  }
}

TEST(DrillWords, WhatNoStepCallsForIsTold_ButNeverOfCleanHands) {
  auto program = program_on(only("fissure-sealant"));
  to_drill(program);
  const auto& sitting = *program.sitting();
  for (const auto& [key, is_told] : {std::pair{"g", true}, {"a", false}})
    for (const auto what : {drill::What::action_started, drill::What::action_done}) {
      drill::Event stray;  // of no step
      stray.what = what;
      stray.person = sitting.trainee();
      for (const auto& card : sitting.cards())
        if (card.keys == key) stray.action = card.action;
      ASSERT_TRUE(stray.action);
      EXPECT_EQ(captions_of(sitting.procedure(), stray, sitting.trainee(), english()).size(),
                is_told ? 1u : 0u)
          << key;
    }
}

TEST(DrillWords, AKeyTakesAwayWhatTheRestingMouseSays) {
  auto program = program_on(only("fissure-sealant"));
  to_drill(program);
  const auto screen = look_at(program, 1280, 720, 1);
  const auto card =
      std::find_if(screen.texts.begin(), screen.texts.end(),
                   [](const Seen::Text& text) { return text.line == "Sealant"; });  // to pass
  ASSERT_NE(card, screen.texts.end());
  program.handle(Input::of_pointer(card->box.centre().x, card->box.centre().y));
  EXPECT_TRUE(shows(program, "must be made ready first"));
  type(program, "a");
  EXPECT_FALSE(shows(program, "must be made ready first"));
}

TEST(DrillWords, WhoeverLeavesTheLessonIsNotPromisedADebrief) {
  auto program = program_on(only("fissure-sealant"));
  press(program, Key::help);
  ASSERT_EQ(program.stand(), Program::Stand::drill);
  press(program, Key::escape);
  EXPECT_TRUE(shows(program, "The lesson is not kept"));
}

TEST(DrillWords, WhenAllIsDoneNothingIsToBeKeptReady) {
  auto program = program_on(tiny_shelf());
  to_drill(program);
  for (int i = 0; i < 9000 && !program.sitting()->over(); ++i) {
    do_what_is_urgent(program);
    program.pass(milliseconds(100));
  }
  ASSERT_EQ(program.stand(), Program::Stand::drill) << "its end stays to be seen";
  EXPECT_TRUE(shows(program, "Nothing more is needed"));
  EXPECT_FALSE(shows(program, "Nothing is needed from you for now"));
}

}  // namespace
}  // namespace beforehand::stage
