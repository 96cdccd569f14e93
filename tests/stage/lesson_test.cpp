// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// The lesson in the controls, played by somebody who does nothing but what the screen asks for: by
// keyboard, by mouse alone, by gamepad alone.
#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "playing.hpp"

namespace beforehand::stage {
namespace {

using Stand = Program::Stand;

Program with_lesson(const std::string& language = "en") {
  return program_on(shipped_shelf(), nullptr, language);
}

void by_keys(Program& program, Lesson) { obey_lesson(program); }

void mark_and_go(Program& program, ActionIx action) {
  const auto& cards = program.sitting()->cards();
  press(program, Key::pad_back);  // unmarks
  if (program.drill()->asking()) press(program, Key::pad_back);
  for (std::size_t i = 0; i < cards.size(); ++i) {
    press(program, Key::pad_down);
    if (cards[i].action == action) break;
  }
  press(program, Key::pad_south);
  press(program, Key::pad_back);
  if (program.drill()->asking()) press(program, Key::pad_back);
}

void by_pad(Program& program, Lesson asks) {
  switch (asks) {
    case Lesson::mark:
      press(program, Key::pad_down);
      return press(program, Key::pad_back);
    case Lesson::break_off:
      return press(program, Key::pad_east);
    case Lesson::pause:
    case Lesson::go_on:
      return press(program, Key::pad_start);
    case Lesson::pace:
      return press(program, Key::pad_left_shoulder);
    case Lesson::help:
      press(program, Key::pad_north);
      return press(program, Key::pad_east);
    case Lesson::welcome:
    case Lesson::farewell:
      return press(program, Key::pad_south);
    default:
      return mark_and_go(program, program.drill()->teacher()->about());
  }
}

void press_id(Program& program, int id) {
  look_at(program, 1280, 720, 1);
  const auto box = program.drill()->hits().box_of(id);
  ASSERT_TRUE(box.has_value()) << id;
  program.handle(Input::of_press(box->centre().x, box->centre().y));
}

void by_mouse(Program& program, Lesson asks) {
  look_at(program, 1280, 720, 1);
  switch (asks) {
    case Lesson::mark: {
      const auto box = program.drill()->hits().box_of(
          press_card + static_cast<int>(program.sitting()->cards()[0].action.at()));
      ASSERT_TRUE(box.has_value());
      program.handle(Input::of_pointer(box->centre().x, box->centre().y));
      EXPECT_EQ(program.drill()->teacher()->asks(), Lesson::mark) << "it is still looked at";
      return program.handle(Input::of_pointer(2, 2));
    }
    case Lesson::break_off:
      return press_id(program, press_break_off);
    case Lesson::pause:
    case Lesson::go_on:
      return press_id(program, press_pause);
    case Lesson::pace:
      return press_id(program, press_slower);
    case Lesson::help:
      press_id(program, press_help);
      return program.handle(Input::of_press(1, 1));
    case Lesson::welcome:
    case Lesson::farewell:
      return press_id(program, press_lesson);
    default:
      return press_id(program,
                      press_card + static_cast<int>(program.drill()->teacher()->about().at()));
  }
}

// Does what is asked for, and what the coach says between; gives what was asked for.
template <typename Do>
std::set<Lesson> play(Program& program, Do obey) {
  std::set<Lesson> asked;
  for (int i = 0; i < 20'000 && program.stand() == Stand::drill; ++i) {
    const auto* teacher = program.drill()->teacher();
    if (teacher->asks()) {
      const auto asks = *teacher->asks();
      const auto before = program.sitting()->run().now();
      program.pass(std::chrono::milliseconds(100));
      EXPECT_EQ(program.sitting()->run().now(), before) << "time waits";
      asked.insert(asks);
      obey(program, asks);
      EXPECT_NE(program.drill()->teacher()->asks(), std::optional(asks)) << word(asks);
      if (testing::Test::HasFailure()) return asked;
    } else if (teacher->over()) {
      do_what_is_urgent(program);
    }
    program.pass(std::chrono::milliseconds(100));
  }
  return asked;
}

struct LessonTest : testing::Test {
  Program program = with_lesson();
  template <typename Do>
  void take(Do obey) {
    ASSERT_EQ(program.stand(), Stand::drill);
    ASSERT_NE(program.drill()->teacher(), nullptr);
    const auto asked = play(program, obey);
    EXPECT_EQ(asked.size(), lesson_count) << "every control is asked for";
    ASSERT_EQ(program.stand(), Stand::debrief);
    EXPECT_GT(program.debrief()->score().total, 40);
  }
};

TEST_F(LessonTest, ByKeyboard) {
  press(program, Key::help);
  take(by_keys);
}

TEST_F(LessonTest, ByGamepad) {
  press(program, Key::pad_north);
  take(by_pad);
}

TEST_F(LessonTest, ByMouse) {
  ASSERT_TRUE(press_on(program, "Learn the controls"));
  take(by_mouse);
}

TEST_F(LessonTest, WhatWasDoneUnaskedIsNotAskedFor) {
  press(program, Key::help);
  press(program, Key::enter);
  press(program, Key::space);
  press(program, Key::space);
  press(program, Key::left);
  press(program, Key::down);
  press(program, Key::escape);
  const auto asked = play(program, by_keys);
  EXPECT_EQ(asked.count(Lesson::pause), 0u);
  EXPECT_EQ(asked.count(Lesson::pace), 0u);
  EXPECT_EQ(asked.count(Lesson::mark), 0u);
}

TEST_F(LessonTest, CanBeLeft) {
  press(program, Key::help);
  press(program, Key::escape);
  ASSERT_TRUE(program.drill()->asking());
  press(program, Key::enter);
  EXPECT_EQ(program.stand(), Stand::start) << "there is nothing to look back on";
}

TEST_F(LessonTest, WhileItAsksForOneThingNoOtherIsBegun) {
  press(program, Key::help);
  press(program, Key::enter);
  press(program, Key::down);
  press(program, Key::escape);
  ASSERT_EQ(program.drill()->teacher()->asks(), Lesson::choose);
  const auto about = program.drill()->teacher()->about();
  for (const auto& card : program.sitting()->cards())
    if (card.action != about) type(program, card.keys);
  EXPECT_EQ(program.drill()->teacher()->asks(), Lesson::choose);
  EXPECT_TRUE(program.sitting()->world().person(program.sitting()->trainee()).doing.empty());
  obey_lesson(program);
  EXPECT_NE(program.drill()->teacher()->asks(), Lesson::choose);
}

TEST(LessonOffer, StandsOnTheFirstStartAndThenStepsBack) {
  const TemporaryFolder folder;
  Settings kept;
  Outside outside;
  outside.new_seed = [] { return std::uint64_t{7}; };
  outside.new_recording = [](const std::string&, std::uint64_t) { return std::string(); };
  outside.save = [&](const Settings& s) {
    kept = s;
    return std::string();
  };
  Program program(shipped_shelf(), english(), std::move(outside));
  EXPECT_TRUE(look_at(program, 1280, 720, 1).shows("New here?"));
  press(program, Key::help);
  press(program, Key::escape);
  press(program, Key::enter);
  ASSERT_EQ(program.stand(), Stand::start);
  EXPECT_TRUE(look_at(program, 1280, 720, 1).shows("New here?")) << "it was not taken";
  EXPECT_FALSE(kept.lesson_known);
  press(program, Key::help);
  play(program, by_keys);
  program.pass(Program::deaf_after_a_drill);
  ASSERT_EQ(program.stand(), Stand::turnover);
  type(program, "d");  // straight to the debrief
  press(program, Key::escape);
  ASSERT_EQ(program.stand(), Stand::start);
  EXPECT_FALSE(look_at(program, 1280, 720, 1).shows("New here?"));
  EXPECT_TRUE(look_at(program, 1280, 720, 1).shows("Learn the controls"));
  EXPECT_TRUE(kept.lesson_known);
}

}  // namespace
}  // namespace beforehand::stage
