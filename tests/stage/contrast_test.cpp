// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// Each text as it is really drawn, against what really lies under it, in the usual colours and in
// those of high contrast. WCAG 2.1 (W3C 2018), success criteria 1.4.3 (4.5:1) and 1.4.6 (7:1).
#include <gtest/gtest.h>

#include <algorithm>

#include "playing.hpp"

namespace beforehand::stage {
namespace {

using Stand = Program::Stand;

void expect_texts_stand_out(Program& program, const std::string& where) {
  for (const bool high : {false, true})
    for (const double width : {1280.0, 1920.0}) {
      picture::Theme theme;
      if (high) theme.palette = picture::high_contrast();
      const auto seen = look_at(program, width, width * 9 / 16, theme);
      EXPECT_FALSE(seen.texts.empty()) << where;
      EXPECT_EQ(seen.pale(4.5), std::vector<std::string>())
          << where << (high ? ", high contrast" : ", usual colours");
    }
}

TEST(DrawnContrast, TheCanvasFindsWhatLiesUnderAText) {
  using picture::Colour;
  AuditCanvas canvas(200, 100, true);
  const auto black = Colour::hex(0x000000), white = Colour::hex(0xFFFFFF);
  const auto contrast_of_last = [&] { return canvas.seen().texts.back().contrast; };
  canvas.text({10, 50}, "paper", {16, black});
  EXPECT_NEAR(contrast_of_last(), 21, 1e-9);
  canvas.rectangle({0, 0, 200, 100}, {Colour::hex(0x767676), {}});
  canvas.text({10, 50}, "grey", {16, white});
  EXPECT_NEAR(contrast_of_last(), 4.54, 0.005);  // WCAG 2.1's own example
  canvas.circle({30, 45}, 8, {black, {}});
  canvas.text({10, 50}, "partly", {16, black});
  EXPECT_NEAR(contrast_of_last(), 1, 1e-9) << "the worst of what lies under it counts";
  EXPECT_EQ(canvas.seen().pale(4.5).size(), 1u);
}

TEST(DrawnContrast, OfTheWayRound) {
  auto program = program_on(shipped_shelf(), nullptr, "en", true);
  expect_texts_stand_out(program, "start");
  program.complain("Something is missing.");
  expect_texts_stand_out(program, "start with a problem");
  press(program, Key::settings);
  expect_texts_stand_out(program, "settings");
  press(program, Key::escape);
  press(program, Key::enter);
  program.settle();
  expect_texts_stand_out(program, "briefing");
  press(program, Key::enter);
  expect_texts_stand_out(program, "the tray");
  for (int i = 0; i < 3; ++i) press(program, Key::enter);
  press(program, Key::tab);
  press(program, Key::tab);
  press(program, Key::enter);
  expect_texts_stand_out(program, "a tray looked at");
  press(program, Key::enter);
  press(program, Key::help);
  expect_texts_stand_out(program, "help");
  press(program, Key::escape);
  press(program, Key::escape);
  expect_texts_stand_out(program, "the question");
  press(program, Key::escape);
  play_to_debrief(program);
  ASSERT_EQ(program.stand(), Stand::turnover);
  expect_texts_stand_out(program, "clearing up");
  for (int i = 0; i < 40 && !program.turnover()->check(); ++i) press(program, Key::enter);
  expect_texts_stand_out(program, "cleared up");
}

TEST(DrawnContrast, OfTheLesson) {
  auto program = program_on(shipped_shelf());
  press(program, Key::help);
  expect_texts_stand_out(program, "lesson");
}

TEST(DrawnContrast, OfEveryShippedDrillAndItsDebrief) {
  for (const auto& item : shipped_shelf()) {
    SCOPED_TRACE(item.file);
    auto program = program_on({item});
    press(program, Key::enter);
    press(program, Key::enter);
    for (int i = 0; program.stand() == Stand::drill && i < 72'000; ++i) {
      if (i % 4 == 0) do_what_is_urgent(program);  // late now and then
      if (i % 700 == 70) expect_texts_stand_out(program, "moment " + std::to_string(i));
      program.pass(std::chrono::milliseconds(100));
    }
    program.settle();
    expect_texts_stand_out(program, "debrief");
    press(program, Key::end);
    expect_texts_stand_out(program, "end of the debrief");
  }
}

}  // namespace
}  // namespace beforehand::stage
