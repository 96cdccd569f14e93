// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// The whole way round, without a display: by keyboard alone, by mouse alone, and out of it at every
// point.
#include <gtest/gtest.h>

#include <fstream>
#include <sstream>

#include "drill/recording.hpp"
#include "playing.hpp"
#include "stage/draw_surface.hpp"

namespace beforehand::stage {
namespace {

using drill::Level;
using Stand = Program::Stand;

std::string content_of(const std::string& file) {
  std::ifstream in(file, std::ios::binary);
  std::ostringstream content;
  content << in.rdbuf();
  return content.str();
}

TEST(Walk, ByKeyboardFromStartToDebriefAndBack) {
  auto program = program_on(tiny_shelf());
  for (int i = 0; i < 4; ++i) press(program, Key::tab);
  EXPECT_EQ(program.start().row(), StartScreen::Row::name);
  type(program, "Ines");
  press(program, Key::enter);
  ASSERT_EQ(program.stand(), Stand::briefing);
  press(program, Key::enter);
  ASSERT_EQ(program.stand(), Stand::drill);
  EXPECT_EQ(program.sitting()->run().session().setup.trainee, "Ines");
  ASSERT_TRUE(play_to_debrief(program));
  EXPECT_TRUE(program.sitting()->run().session().complete());
  EXPECT_GT(program.debrief()->score().total, 60);
  press(program, Key::escape);
  ASSERT_EQ(program.stand(), Stand::start);
  EXPECT_EQ(program.start().choice().name, "Ines");
  press(program, Key::escape);
  EXPECT_TRUE(program.closed());
}

TEST(Walk, ByMouseFromStartToDebriefAndBack) {
  auto program = program_on(tiny_shelf());
  ASSERT_TRUE(press_on(program, "Unaided"));
  EXPECT_EQ(program.start().choice().level, Level::unaided);
  ASSERT_TRUE(press_on(program, "3×"));
  EXPECT_EQ(program.start().choice().pace.percent, 300);
  ASSERT_TRUE(press_on(program, "To the briefing"));
  ASSERT_TRUE(press_on(program, "Begin the drill"));
  ASSERT_EQ(program.stand(), Stand::drill);
  ASSERT_TRUE(press_on(program, "Suction: Suction tip"));
  const auto& person = program.sitting()->world().person(program.sitting()->trainee());
  ASSERT_EQ(person.doing.size(), 1u);
  EXPECT_TRUE(person.doing[0].cover);
  ASSERT_TRUE(press_on(program, "Pause"));
  EXPECT_TRUE(program.sitting()->clock().paused());
  ASSERT_TRUE(press_on(program, "Go on"));
  ASSERT_TRUE(press_on(program, "Leave"));
  ASSERT_TRUE(press_on(program, "Go on"));
  ASSERT_TRUE(press_on(program, "Leave"));
  EXPECT_TRUE(program.drill()->asking());
  ASSERT_TRUE(press_on(program, "Leave"));  // the bar behind the question cannot be pressed
  if (program.stand() == Stand::drill) FAIL() << "the question's own button was not found";
  EXPECT_EQ(program.stand(), Stand::debrief);
  ASSERT_TRUE(press_on(program, "Choose another"));
  EXPECT_EQ(program.stand(), Stand::start);
}

TEST(Walk, LeavingInMidDrillAsksAndKeepsTheRecording) {
  const TemporaryFolder folder;
  auto program = program_on(tiny_shelf(), &folder);
  press(program, Key::enter);
  press(program, Key::enter);
  for (int i = 0; i < 50; ++i) program.pass(std::chrono::milliseconds(100));
  press(program, Key::escape);
  ASSERT_EQ(program.stand(), Stand::drill);
  const Ms asked = program.sitting()->run().now();
  program.pass(std::chrono::milliseconds(200));
  EXPECT_EQ(program.sitting()->run().now(), asked);  // time stands still meanwhile
  press(program, Key::escape);
  EXPECT_FALSE(program.drill()->asking());
  press(program, Key::escape);
  press(program, Key::enter);
  ASSERT_EQ(program.stand(), Stand::debrief);
  const auto file = program.sitting()->recording();
  const auto& procedure = program.sitting()->procedure();
  const auto session = drill::from_text(content_of(file), procedure, file);
  EXPECT_TRUE(session.complete());
  EXPECT_EQ(session.events, program.sitting()->run().session().events);
  EXPECT_TRUE(look_at(program, 1280, 720, 1).shows("left before the end"));
}

TEST(Walk, ClosingTheWindowInMidDrillAsksFirstAndKeepsTheRecordingWhenDoneTwice) {
  const TemporaryFolder folder;
  auto program = program_on(tiny_shelf(), &folder);
  press(program, Key::enter);
  press(program, Key::enter);
  program.pass(std::chrono::milliseconds(200));
  const auto file = program.sitting()->recording();
  program.handle({Input::Kind::close, Key::none, 0, 0, 0, 0, 0});
  ASSERT_EQ(program.stand(), Stand::drill);
  EXPECT_TRUE(program.drill()->asking());
  program.handle({Input::Kind::close, Key::none, 0, 0, 0, 0, 0});
  EXPECT_TRUE(program.closed());
  EXPECT_TRUE(drill::from_text(content_of(file), program.sitting()->procedure(), file).complete());
}

TEST(Walk, WhatIsPlayedIsOnTheDiskAtEveryMoment) {
  const TemporaryFolder folder;
  auto program = program_on(tiny_shelf(), &folder);
  press(program, Key::enter);
  press(program, Key::enter);
  for (int i = 0; i < 100; ++i) {
    do_what_is_urgent(program);
    program.pass(std::chrono::milliseconds(100));
  }
  const auto& session = program.sitting()->run().session();
  const auto file = program.sitting()->recording();
  const auto saved = drill::from_text(content_of(file), program.sitting()->procedure(), file);
  EXPECT_FALSE(saved.complete());
  EXPECT_EQ(saved.events, session.events);
  EXPECT_EQ(saved.commands, session.commands);
}

TEST(Walk, ARecordingThatCannotBeWrittenDoesNotStopTheDrillAndIsSaid) {
  Outside outside;
  outside.new_recording = [](const std::string&, std::uint64_t) {
    return std::string("no/such/folder/x.jsonl");
  };
  outside.new_seed = [] { return std::uint64_t{7}; };
  Program program(tiny_shelf(), english(), std::move(outside));
  press(program, Key::enter);
  press(program, Key::enter);
  program.pass(std::chrono::milliseconds(100));
  EXPECT_TRUE(look_at(program, 1280, 720, 1).shows("cannot be recorded"));
  ASSERT_TRUE(play_to_debrief(program));
}

TEST(Walk, AnAssessedDrillHasNoPauseAndNoOtherPace) {
  auto program = program_on(tiny_shelf());
  press(program, Key::tab);
  press(program, Key::right);
  press(program, Key::right);
  EXPECT_EQ(program.start().choice().level, Level::assessed);
  press(program, Key::tab);
  press(program, Key::right);
  press(program, Key::enter);
  press(program, Key::enter);
  press(program, Key::space);
  press(program, Key::right);
  EXPECT_FALSE(program.sitting()->clock().paused());
  EXPECT_EQ(program.sitting()->clock().pace().percent, 100);
  press(program, Key::escape);
  program.pass(std::chrono::milliseconds(100));
  EXPECT_EQ(program.sitting()->run().now(), Ms{100});  // the question does not stop it either
}

TEST(Walk, OnlyGuidedShowsWhatComesNext) {
  for (const bool guided : {true, false}) {
    auto program = program_on(tiny_shelf());
    if (!guided) {
      press(program, Key::tab);
      press(program, Key::right);
    }
    press(program, Key::enter);
    press(program, Key::enter);
    program.pass(std::chrono::milliseconds(100));
    const auto screen = look_at(program, 1280, 720, 1);
    EXPECT_EQ(screen.shows("Now, ") || screen.shows("Soon, ") || screen.shows("Late by "), guided);
    EXPECT_EQ(screen.shows("Why: "), guided);
  }
}

TEST(Walk, AnActionThatIsImpossibleSaysWhy) {
  auto program = program_on(tiny_shelf());
  press(program, Key::enter);
  press(program, Key::enter);
  program.pass(std::chrono::milliseconds(100));
  for (const auto& card : program.sitting()->cards())  // it still lies in the cabinet
    if (card.title == "Pass: Lining paste") type(program, card.keys);
  EXPECT_TRUE(look_at(program, 1280, 720, 1).shows("still in its store"));
}

TEST(Walk, LosingTheFocusPausesOutsideAssessed) {
  auto program = program_on(tiny_shelf());
  press(program, Key::enter);
  press(program, Key::enter);
  program.handle({Input::Kind::focus_lost, Key::none, 0, 0, 0, 0, 0});
  EXPECT_TRUE(program.sitting()->clock().paused());
  EXPECT_FALSE(program.moves());
}

TEST(Walk, AnEmptyShelfSaysWhatToDo) {
  auto program = program_on({});
  press(program, Key::enter);
  EXPECT_EQ(program.stand(), Stand::start);
  const auto screen = look_at(program, 1280, 720, 1);
  EXPECT_TRUE(screen.shows("No scenario here yet"));
  EXPECT_TRUE(screen.shows("scenario.yaml"));
}

TEST(Walk, AScenarioThatCannotBePlayedIsShownAsThat) {
  auto shelf = tiny_shelf();
  shelf[0].procedure.reset();
  shelf[0].problems.push_back({});
  auto program = program_on(std::move(shelf));
  press(program, Key::enter);
  EXPECT_EQ(program.stand(), Stand::start);
  EXPECT_TRUE(look_at(program, 1280, 720, 1).shows("Cannot be played"));
}

// Frames of any length, at any pace: the same commands at the same moments give the same session.
TEST(Walk, HowTimeIsCutDoesNotChangeTheDrill) {
  const auto shelf = tiny_shelf();
  const auto strings = english();
  const auto play = [&](int frame_ms, Pace pace) {
    Choice choice;
    choice.pace = pace;
    Sitting sitting(*shelf[0].procedure, choice, 11, {}, strings);
    const auto& cards = sitting.cards();
    for (std::size_t next = 0; !sitting.over();) {
      const Ms due{static_cast<std::int64_t>(next + 1) * 3'000};
      sitting.pass(std::chrono::milliseconds(frame_ms));
      if (sitting.run().now() != due) continue;
      sitting.choose(cards[next++ % cards.size()].action);
    }
    return sitting.run().session();
  };
  const auto fine = play(10, usual), coarse = play(50, usual), quick = play(20, Pace{150});
  EXPECT_EQ(fine.events, coarse.events);
  EXPECT_EQ(fine.events, quick.events);
  EXPECT_GT(fine.commands.size(), 10u);
  EXPECT_EQ(fine.commands, quick.commands);
}

TEST(Walk, EveryScreenCanBeBuiltAsADrawListWithoutADisplay) {
  auto program = program_on(tiny_shelf());
  picture::Theme theme;
  DrawSurface surface(find_fonts(), theme);
  const auto build = [&] {
    program.draw(surface.begin(1280, 720), theme, 1280, 720);
    return &surface.end() != nullptr;
  };
  EXPECT_TRUE(build());
  press(program, Key::enter);
  EXPECT_TRUE(build());
  press(program, Key::enter);
  program.pass(std::chrono::milliseconds(100));
  EXPECT_TRUE(build());
  ASSERT_TRUE(play_to_debrief(program));
  EXPECT_TRUE(build());
}

}  // namespace
}  // namespace beforehand::stage
