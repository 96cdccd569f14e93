// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// The whole way round with the tray laid before the drill and the room cleared after it: by
// keyboard, by mouse, by gamepad, and past both.
#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "playing.hpp"

namespace beforehand::stage {
namespace {

using Stand = Program::Stand;

// A program that asks for the tray, on the sealant alone, with the procedures it borrows from.
Program with_tasks(const std::string& language = "en") {
  auto shelf = shipped_shelf();
  const auto at = std::find_if(shelf.begin(), shelf.end(), [](const ShelfItem& item) {
    return item.procedure->id == "fissure-sealant";
  });
  std::iter_swap(shelf.begin(), at);
  return program_on(std::move(shelf), nullptr, language, true);
}

// What belongs on the tray, in order of use.
std::vector<std::size_t> wanted(const SetUpScreen& screen) {
  std::vector<std::size_t> result;
  const auto& items = screen.items();
  for (std::size_t i = 0; i < items.size(); ++i)
    if (items[i].belongs == drill::Belongs::tray) result.push_back(i);
  std::sort(result.begin(), result.end(), [&](std::size_t a, std::size_t b) {
    return items[a].first_use.at() < items[b].first_use.at();
  });
  return result;
}

// Lays one thing with the four directions and one key to do it.
void lay(Program& program, std::size_t item, Key up, Key down, Key act) {
  const auto& laid = program.set_up()->laid();
  std::size_t row = 0;
  for (std::size_t i = 0; i < item; ++i)
    if (std::find(laid.begin(), laid.end(), i) == laid.end()) ++row;
  for (int i = 0; i < 30; ++i) press(program, up);
  for (std::size_t i = 0; i < row; ++i) press(program, down);
  press(program, act);
}

void lay_all(Program& program, Key up, Key down, Key act) {
  for (const auto item : wanted(*program.set_up())) lay(program, item, up, down, act);
}

void expect_perfect(Program& program) {
  ASSERT_TRUE(program.set_up()->check().has_value());
  EXPECT_EQ(program.set_up()->check()->right, program.set_up()->check()->wanted);
  EXPECT_TRUE(program.set_up()->check()->findings.empty());
}

drill::Destination right_for(const drill::Leftover& left) {
  for (std::size_t d = 0; d < drill::destination_count; ++d)
    if (left.right.test(d)) return static_cast<drill::Destination>(d);
  return drill::Destination::waste;
}

TEST(Tasks, ByKeyboardFromBriefingToDebrief) {
  auto program = with_tasks();
  press(program, Key::enter);
  press(program, Key::enter);
  ASSERT_EQ(program.stand(), Stand::set_up);
  lay_all(program, Key::up, Key::down, Key::enter);
  press(program, Key::right);
  press(program, Key::right);
  press(program, Key::enter);
  expect_perfect(program);
  EXPECT_TRUE(look_at(program, 1280, 720, 1).shows("in order of use"));
  press(program, Key::enter);
  ASSERT_EQ(program.stand(), Stand::drill);
  play_to_debrief(program);
  ASSERT_EQ(program.stand(), Stand::turnover);
  while (!program.turnover()->check()) {
    const auto count = program.turnover()->cleared().size();
    ASSERT_LT(count, program.turnover()->left().size());
    type(program,
         std::to_string(1 + static_cast<int>(right_for(program.turnover()->left()[count]))));
  }
  EXPECT_EQ(program.turnover()->check()->right, program.turnover()->left().size());
  press(program, Key::enter);
  ASSERT_EQ(program.stand(), Stand::debrief);
  const auto seen = look_at(program, 1280, 4000, 1);
  EXPECT_TRUE(seen.shows("The tray: 4 of 4")) << "counted apart, and shown";
  EXPECT_TRUE(seen.shows("Clearing up: "));
}

// What is too many is said so, beside what is right; and why a thing does not go there.
TEST(Tasks, AThingThatDoesNotGoOnTheTrayIsNamedWithItsReason) {
  for (const auto* language : {"en", "es"}) {
    auto program = with_tasks(language);
    press(program, Key::enter);
    press(program, Key::enter);
    lay_all(program, Key::up, Key::down, Key::enter);
    const auto& items = program.set_up()->items();
    const auto rub = std::find_if(items.begin(), items.end(), [](const auto& item) {
      return item.belongs == drill::Belongs::counter && item.icon == "hand-rub";
    });
    ASSERT_NE(rub, items.end());
    lay(program, static_cast<std::size_t>(rub - items.begin()), Key::up, Key::down, Key::enter);
    type(program, "r");
    ASSERT_TRUE(program.set_up()->check().has_value()) << "R looks at it";
    const auto seen = look_at(program, 1280, 1400, 1);
    const bool english = std::string(language) == "en";
    EXPECT_TRUE(seen.shows(english ? "4 of 4 things needed" : "4 de 4 cosas necesarias"));
    EXPECT_TRUE(seen.shows(english ? "and 1 too many" : "y 1 de más"));
    EXPECT_TRUE(
        seen.shows(english ? "The tray is for what is used" : "La bandeja es para lo que se usa"));
  }
}

// Every way on has its key beside it, at any size.
TEST(Tasks, EveryButtonShowsItsKey) {
  for (const auto* language : {"en", "es"}) {
    auto program = with_tasks(language);
    press(program, Key::enter);
    press(program, Key::enter);
    for (const double scale : {1.0, 2.0}) {
      const auto seen = look_at(program, 1280, 720, scale);
      for (const auto* key : {"R", "D"})
        EXPECT_TRUE(std::any_of(
            seen.texts.begin(), seen.texts.end(),
            [key](const auto& text) { return text.line == key && text.visible.width > 0; }))
            << key << " in " << language << " at " << scale;
    }
  }
}

/// Whether a line that begins so can be read whole.
bool reads(const Seen& seen, const std::string& begin) {
  return std::any_of(seen.texts.begin(), seen.texts.end(), [&](const Seen::Text& text) {
    return text.line.starts_with(begin) && text.visible.height > text.size * 0.7;
  });
}

// By keyboard alone, in the smallest window and the largest letters: what was just laid, and the
// place that is chosen, are in view.
TEST(Tasks, WhatTheKeysChooseIsInViewAtDoubleSize) {
  for (const auto* language : {"en", "es"}) {
    auto program = with_tasks(language);
    press(program, Key::enter);
    press(program, Key::enter);
    for (int i = 1; i <= 5; ++i) {
      press(program, Key::enter);
      EXPECT_TRUE(reads(look_at(program, 1280, 720, 2), std::to_string(i) + ". ")) << language;
    }
    type(program, "d");
    play_to_debrief(program);
    ASSERT_EQ(program.stand(), Stand::turnover);
    look_at(program, 1280, 720, 2);
    for (int i = 0; i < 3; ++i) press(program, Key::right);
    EXPECT_TRUE(reads(look_at(program, 1280, 720, 2),
                      std::string(language) == "en" ? "Clean and" : "Limpiar y"))
        << language;
  }
}

// What was used and is not asked for is told, with the reason.
TEST(Tasks, ClearingUpTellsWhatItDoesNotAskFor) {
  auto shelf = shipped_shelf();
  std::erase_if(shelf, [](const ShelfItem& i) { return i.procedure->id != "class-ii-composite"; });
  auto program = program_on(std::move(shelf), nullptr, "en", true);
  press(program, Key::enter);
  press(program, Key::enter);
  type(program, "d");
  play_to_debrief(program);
  ASSERT_EQ(program.stand(), Stand::turnover);
  std::set<std::string> asked;
  for (const auto& left : program.turnover()->left())
    asked.insert(program.sitting()->procedure().supply(left.supply).name);
  EXPECT_TRUE(asked.contains("Eye shield"));
  EXPECT_TRUE(asked.contains("High-speed handpiece"));
  while (!program.turnover()->check()) press(program, Key::enter);
  const auto seen = look_at(program, 1280, 4000, 1);
  EXPECT_TRUE(seen.shows("Used too, and not asked for"));
  EXPECT_TRUE(seen.shows("Not settled by the scenario"));
  EXPECT_TRUE(seen.shows("Air-water syringe"));
}

// The score is the same whether the tray was laid or passed over.
TEST(Tasks, TheTrayChangesNothingInTheScore) {
  const auto total = [](bool laid) {
    auto program = with_tasks();
    press(program, Key::enter);
    press(program, Key::enter);
    if (laid) lay_all(program, Key::up, Key::down, Key::enter);
    type(program, "d");
    EXPECT_EQ(program.stand(), Stand::drill);
    play_to_debrief(program);
    EXPECT_EQ(program.stand(), Stand::turnover);
    type(program, "d");
    EXPECT_EQ(program.stand(), Stand::debrief);
    return program.debrief()->score().total;
  };
  EXPECT_EQ(total(true), total(false));
}

TEST(Tasks, ByMouse) {
  auto program = with_tasks();
  ASSERT_TRUE(press_on(program, "To the briefing"));
  ASSERT_TRUE(press_on(program, "Begin the drill"));
  ASSERT_EQ(program.stand(), Stand::set_up);
  for (const auto item : wanted(*program.set_up()))
    ASSERT_TRUE(press_on(program, program.set_up()->items()[item].name));
  ASSERT_TRUE(press_on(program, "4. "));  // the last one back into the cabinet, and out again
  EXPECT_EQ(program.set_up()->laid().size(), 3u);
  ASSERT_TRUE(press_on(program, program.set_up()->items()[wanted(*program.set_up()).back()].name));
  ASSERT_TRUE(press_on(program, "Ready: look at it"));
  expect_perfect(program);
  ASSERT_TRUE(press_on(program, "Lay it again"));
  EXPECT_FALSE(program.set_up()->check());
  ASSERT_TRUE(press_on(program, "Ready: look at it"));
  ASSERT_TRUE(press_on(program, "Begin the drill"));
  play_to_debrief(program);
  ASSERT_EQ(program.stand(), Stand::turnover);
  while (!program.turnover()->check()) {
    ASSERT_TRUE(press_on(program, "Waste"));
    if (program.turnover()->cleared().size() == 2) ASSERT_TRUE(press_on(program, "Take back"));
    if (program.turnover()->cleared().size() == 1) ASSERT_TRUE(press_on(program, "Clean and dis"));
  }
  EXPECT_LT(program.turnover()->check()->right, program.turnover()->left().size());
  EXPECT_TRUE(look_at(program, 1280, 720, 1).shows("you chose"));
  ASSERT_TRUE(press_on(program, "To the debrief"));
  EXPECT_EQ(program.stand(), Stand::debrief);
}

TEST(Tasks, ByGamepad) {
  auto program = with_tasks();
  press(program, Key::pad_south);
  press(program, Key::pad_south);
  ASSERT_EQ(program.stand(), Stand::set_up);
  lay_all(program, Key::pad_up, Key::pad_down, Key::pad_south);
  press(program, Key::pad_right);
  press(program, Key::pad_right);
  press(program, Key::pad_south);
  expect_perfect(program);
  press(program, Key::pad_south);
  ASSERT_EQ(program.stand(), Stand::drill);
  play_to_debrief(program);
  ASSERT_EQ(program.stand(), Stand::turnover);
  for (int i = 0; i < 40 && !program.turnover()->check(); ++i) {
    const auto& screen = *program.turnover();
    const auto to = static_cast<int>(right_for(screen.left()[screen.cleared().size()]));
    for (int k = 0; k < 4; ++k) press(program, Key::pad_left);
    for (int k = 0; k < to; ++k) press(program, Key::pad_right);
    press(program, Key::pad_south);
  }
  ASSERT_TRUE(program.turnover()->check().has_value());
  EXPECT_EQ(program.turnover()->check()->right, program.turnover()->left().size());
  press(program, Key::pad_east);
  EXPECT_EQ(program.stand(), Stand::debrief);
}

TEST(Tasks, NoDeadEnd) {
  auto program = with_tasks();
  press(program, Key::enter);
  press(program, Key::enter);
  ASSERT_EQ(program.stand(), Stand::set_up);
  press(program, Key::escape);
  EXPECT_EQ(program.stand(), Stand::briefing);
  press(program, Key::enter);
  ASSERT_EQ(program.stand(), Stand::set_up);
  press(program, Key::back_tab);  // straight to the drill, last of the stops
  press(program, Key::enter);
  ASSERT_EQ(program.stand(), Stand::drill);
  press(program, Key::escape);
  press(program, Key::enter);  // left before the end: nothing to clear up
  EXPECT_EQ(program.stand(), Stand::debrief);
  for (const bool drilling : {false, true}) {
    auto other = with_tasks();
    press(other, Key::enter);
    press(other, Key::enter);
    if (drilling) {
      type(other, "d");
      play_to_debrief(other);
      ASSERT_EQ(other.stand(), Stand::turnover);
    }
    Input close;
    close.kind = Input::Kind::close;
    other.handle(close);
    EXPECT_TRUE(other.closed());
  }
}

TEST(Tasks, NoTrayWhereNoneIsWantedOrLaid) {
  auto plain = program_on(tiny_shelf());
  press(plain, Key::enter);
  press(plain, Key::enter);
  EXPECT_EQ(plain.stand(), Stand::drill) << "switched off";
  auto shelf = shipped_shelf();
  std::erase_if(shelf, [](const ShelfItem& i) { return i.procedure->id != "room-turnover"; });
  auto turnover = program_on(std::move(shelf), nullptr, "en", true);
  press(turnover, Key::enter);
  press(turnover, Key::enter);
  EXPECT_EQ(turnover.stand(), Stand::drill) << "nobody in the chair";
}

}  // namespace
}  // namespace beforehand::stage
