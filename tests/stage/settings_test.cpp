// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/settings.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>

#include "playing.hpp"

namespace beforehand::stage {
namespace {

Settings unusual() {
  Settings s;
  s.scale_percent = 175;
  s.high_contrast = s.reduced_motion = s.left_handed = true;
  s.sound = s.set_up = false;
  s.lesson_known = true;
  s.language = "es";
  s.keys.letters = Letters::azerty;
  s.keys.put(Deed::pause, Key::f5);
  s.keys.put(Deed::go, Key::pad_north);
  return s;
}

TEST(Settings, ComeBackAsTheyWereWritten) {
  for (const auto& settings : {Settings(), unusual()}) {
    const auto reading = settings_from(to_text(settings), "s");
    EXPECT_TRUE(reading.problems.empty());
    EXPECT_EQ(reading.settings, settings);
  }
}

TEST(Settings, WhatCannotBeUsedKeepsItsDefaultAndIsSaid) {
  const auto reading =
      settings_from("scale = 900\nsound = no\nlanguage = ../../x\nkey.pause = q\nwhat = 1\n", "s");
  EXPECT_EQ(reading.problems.size(), 4u);
  Settings expected;
  expected.sound = false;
  EXPECT_EQ(reading.settings, expected);
}

TEST(Settings, AFileThatIsNoneGivesTheDefaultsAndSaysSo) {
  const auto reading = settings_from("\x01\x02 rubbish\nsound = no", "s");
  EXPECT_EQ(reading.settings, Settings());
  ASSERT_EQ(reading.problems.size(), 1u);
  EXPECT_EQ(reading.problems[0].rfind("s:1: error", 0), 0u);
}

TEST(Settings, AreKeptInAFileThatIsReplacedAsAWhole) {
  const TemporaryFolder folder;
  const auto file = folder / "deeper/settings";
  EXPECT_EQ(load_settings(file).settings, Settings());  // none yet
  ASSERT_EQ(save_settings(unusual(), file), "");
  EXPECT_EQ(load_settings(file).settings, unusual());
  ASSERT_EQ(save_settings(Settings(), file), "");
  EXPECT_EQ(load_settings(file).settings, Settings());
  EXPECT_FALSE(std::filesystem::exists(file + ".new"));
  EXPECT_NE(save_settings(Settings(), folder.path().string()), "");  // a folder is no file
}

TEST(Settings, AKeyDoesOneThing) {
  KeyMap keys;
  keys.put(Deed::pause, Key::backspace);
  EXPECT_EQ(keys.key(Deed::pause), Key::backspace);
  EXPECT_EQ(keys.key(Deed::break_off), Key::space);  // they changed places
  keys.put(Deed::go, Key::f5);
  EXPECT_EQ(keys.deed_of(Key::enter), nullptr);
  ASSERT_NE(keys.deed_of(Key::f5), nullptr);
  EXPECT_EQ(*keys.deed_of(Key::f5), Deed::go);
  EXPECT_EQ(*keys.deed_of(Key::pad_south), Deed::go);
  EXPECT_EQ(keys.deed_of(Key::none), nullptr);
}

TEST(Settings, EveryLayoutOfLettersHasEveryLetterAndDigitOnce) {
  for (std::size_t i = 0; i < letters_count; ++i) {
    std::string all;
    for (const auto row : rows_of(static_cast<Letters>(i))) all += row;
    std::sort(all.begin(), all.end());
    EXPECT_EQ(std::adjacent_find(all.begin(), all.end()), all.end()) << i;
    EXPECT_GE(all.size(), 35u);
  }
}

TEST(SettingsScreen, ChangesHoldAtOnceAndAreKept) {
  auto program = program_on(tiny_shelf());
  press(program, Key::settings);
  press(program, Key::right);  // 125 %
  EXPECT_EQ(program.settings().scale_percent, 125);
  for (int i = 0; i < 4; ++i) press(program, Key::down);
  press(program, Key::right);  // Spanish
  EXPECT_EQ(program.settings().language, "es");
  EXPECT_TRUE(look_at(program, 1280, 720, 1).shows("Ajustes"));
  press(program, Key::escape);
  EXPECT_TRUE(look_at(program, 1280, 720, 1).shows("A la preparación"));
}

TEST(SettingsScreen, TakesTheNextKeyForADeed) {
  auto program = program_on(tiny_shelf());
  press(program, Key::settings);
  for (int i = 0; i < 10; ++i) press(program, Key::down);  // pause
  press(program, Key::enter);
  press(program, Key::f6);
  EXPECT_EQ(program.settings().keys.key(Deed::pause), Key::f6);
  press(program, Key::enter);
  press(program, Key::pad_north);
  EXPECT_EQ(program.settings().keys.button(Deed::pause), Key::pad_north);
  press(program, Key::escape);
  press(program, Key::enter);
  press(program, Key::enter);
  press(program, Key::space);
  EXPECT_FALSE(program.sitting()->clock().paused());
  press(program, Key::f6);
  EXPECT_TRUE(program.sitting()->clock().paused());
}

// No gamepad here: its events are put in where the window would.
TEST(Gamepad, PlaysAWholeDrill) {
  auto program = program_on(tiny_shelf());
  press(program, Key::pad_south);
  press(program, Key::pad_south);
  ASSERT_EQ(program.stand(), Program::Stand::drill);
  for (int i = 0; i < 18'000 && program.stand() == Program::Stand::drill; ++i) {
    press(program, Key::pad_down);
    if (i % 3 == 0) press(program, Key::pad_south);
    program.pass(std::chrono::milliseconds(250));
  }
  ASSERT_EQ(program.stand(), Program::Stand::debrief);
  EXPECT_GT(program.sitting()->run().session().commands.size(), 5u);
  program.pass(Program::deaf_after_a_drill);
  press(program, Key::pad_east);
  EXPECT_EQ(program.stand(), Program::Stand::start);
}

TEST(Gamepad, UnpluggedItPausesAndSaysSo) {
  auto program = program_on(tiny_shelf());
  press(program, Key::enter);
  press(program, Key::enter);
  program.handle({Input::Kind::pad_lost, Key::none, 0, 0, 0, 0, 0});
  EXPECT_TRUE(program.sitting()->clock().paused());
  const auto seen = look_at(program, 1280, 720, 1);
  EXPECT_TRUE(seen.shows("Gamepad gone"));
  EXPECT_TRUE(seen.shows("The gamepad is gone. Plug it in again"));
  press(program, Key::space);
  EXPECT_FALSE(program.sitting()->clock().paused());
  EXPECT_FALSE(look_at(program, 1280, 720, 1).shows("amepad"));
}

// Where time may not stand still, it is said all the same; at every size of the screen.
TEST(Gamepad, UnpluggedInAnAssessedDrillItSaysSoAndTimeRunsOn) {
  for (const double scale : {1.0, 2.0}) {
    auto program = program_on(tiny_shelf());
    press(program, Key::tab);
    press(program, Key::right);
    press(program, Key::right);
    press(program, Key::enter);
    press(program, Key::enter);
    ASSERT_EQ(program.sitting()->level(), drill::Level::assessed);
    program.handle({Input::Kind::pad_lost, Key::none, 0, 0, 0, 0, 0});
    const auto before = program.sitting()->run().now();
    program.pass(std::chrono::seconds(1));
    EXPECT_GT(program.sitting()->run().now(), before);
    const auto seen = look_at(program, 1280, 720, scale);
    EXPECT_TRUE(seen.shows("gamepad is gone")) << scale;
    EXPECT_EQ(seen.faults(16), std::vector<std::string>()) << scale;
    press(program, Key::down);  // played on without it
    EXPECT_FALSE(look_at(program, 1280, 720, scale).shows("gamepad is gone")) << scale;
  }
}

}  // namespace
}  // namespace beforehand::stage
