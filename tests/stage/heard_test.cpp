// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/heard.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "playing.hpp"
#include "stage/sound.hpp"

namespace beforehand::stage {
namespace {

TEST(Heard, NoisesAreAudibleDoNotClipAndHaveNoSeam) {
  for (std::size_t i = 0; i < noise_count; ++i) {
    const auto samples = samples_of(static_cast<Noise>(i));
    double power = 0;
    int largest_step = 0;
    for (std::size_t k = 0; k < samples.size(); ++k) {
      power += double(samples[k]) * samples[k];
      if (k > 0) largest_step = std::max(largest_step, std::abs(samples[k] - samples[k - 1]));
      EXPECT_LT(std::abs(samples[k]), 32'000) << i;
    }
    EXPECT_GT(std::sqrt(power / static_cast<double>(samples.size())), 300) << i;
    EXPECT_LE(std::abs(samples.front() - samples.back()), largest_step + 1) << i;
  }
}

TEST(Heard, SuctionIsHeardWhileItIsHeld) {
  auto program = program_on(tiny_shelf());
  press(program, Key::enter);
  press(program, Key::enter);
  const auto suction = [&]() -> bool {
    return heard_in(program.sitting()->procedure(), program.sitting()->world())[0];
  };
  const auto held = [&] {
    const auto& sitting = *program.sitting();
    const auto& doing = sitting.world().person(sitting.trainee()).doing;
    return std::any_of(doing.begin(), doing.end(), [&](const auto& d) {
      return d.action && sitting.procedure().action(d.action).verb == procedure::Verb::suction;
    });
  };
  int heard = 0, silent = 0;
  for (int i = 0; i < 3'000 && program.stand() == Program::Stand::drill; ++i) {
    EXPECT_EQ(suction(), held()) << "after " << i << " tenths of a second";
    ++(suction() ? heard : silent);
    do_what_is_urgent(program);
    program.pass(std::chrono::milliseconds(100));
  }
  EXPECT_GT(heard, 0);
  EXPECT_GT(silent, 0);
}

TEST(Heard, TheHandpieceSlowsBeforeItStops) {
  auto shelf = shipped_shelf();
  std::erase_if(shelf, [](const ShelfItem& item) {
    return !item.procedure || item.procedure->id != "class-ii-composite";
  });
  auto program = program_on(std::move(shelf));
  press(program, Key::enter);
  press(program, Key::enter);
  double before = 0, slowest = 1;
  int stops = 0;
  for (int i = 0; i < 4'000 && program.stand() == Program::Stand::drill && stops == 0; ++i) {
    do_what_is_urgent(program);
    program.pass(std::chrono::milliseconds(100));
    const auto& sitting = *program.sitting();
    const double now = handpiece_speed(sitting.procedure(), sitting.world());
    EXPECT_EQ(now > 0, heard_in(sitting.procedure(), sitting.world())[1]);
    if (before > 0 && now == 0) ++stops;
    if (now > 0) slowest = std::min(slowest, now);
    before = now;
  }
  EXPECT_EQ(stops, 1);
  EXPECT_LT(slowest, 0.6);
  EXPECT_GE(slowest, 0.5);
}

std::size_t times_said(const Sitting& sitting, const std::string& text) {
  return static_cast<std::size_t>(std::count_if(
      sitting.captions().begin(), sitting.captions().end(),
      [&](const Caption& c) { return c.kind == Caption::Kind::said && c.text == text; }));
}

// Whoever's step is the last one; and the thanks can be read before the debrief comes.
TEST(Heard, TheClinicianThanksOnceAtTheEndOfEveryDrillThatWasFinished) {
  const auto thanks = english()("drill.thanks");
  const auto shelf = shipped_shelf();
  for (std::size_t i = 0; i < shelf.size(); ++i) {
    SCOPED_TRACE(shelf[i].file);
    auto program = program_on({shelf[i]});
    press(program, Key::enter);
    press(program, Key::enter);
    bool read = false;
    for (int round = 0; round < 20'000 && program.stand() == Program::Stand::drill; ++round) {
      do_what_is_urgent(program);
      program.pass(std::chrono::milliseconds(250));
      if (!read && program.stand() == Program::Stand::drill &&
          times_said(*program.sitting(), thanks) > 0)
        read = look_at(program, 1280, 720, 1).shows(thanks.substr(0, 9));
    }
    ASSERT_EQ(program.stand(), Program::Stand::debrief);
    EXPECT_TRUE(read);
    EXPECT_EQ(times_said(*program.sitting(), thanks), 1u);
  }
}

TEST(Heard, NobodyIsThankedForADrillThatWasLeft) {
  auto program = program_on(tiny_shelf());
  press(program, Key::enter);
  press(program, Key::enter);
  program.pass(std::chrono::seconds(1));
  press(program, Key::escape);
  press(program, Key::enter);
  ASSERT_EQ(program.stand(), Program::Stand::debrief);
  EXPECT_EQ(times_said(*program.sitting(), english()("drill.thanks")), 0u);
}

// The plan is spoken where it is written, and while the tray is laid for it.
TEST(Heard, ThePlanIsAnnouncedAtTheBriefingAndAtTheTray) {
  auto program = program_on(shipped_shelf(), nullptr, "en", true);
  EXPECT_EQ(program.announced(), "");
  press(program, Key::enter);
  ASSERT_EQ(program.stand(), Program::Stand::briefing);
  const auto plan = program.announced();
  EXPECT_EQ(plan, program.start().chosen()->plan);
  EXPECT_FALSE(plan.empty());
  const auto lines = spoken_lines(*program.start().chosen(), english());
  EXPECT_NE(std::find(lines.begin(), lines.end(), plan), lines.end()) << "it is recorded";
  press(program, Key::enter);
  ASSERT_EQ(program.stand(), Program::Stand::set_up);
  EXPECT_EQ(program.announced(), plan) << "so it is not spoken anew";
  type(program, "d");
  ASSERT_EQ(program.stand(), Program::Stand::drill);
  EXPECT_EQ(program.announced(), "");
}

// FNV-1a with 64 bits, values of the algorithm's published test suite (Fowler, Noll, Vo; from
// memory).
TEST(Heard, ASpokenTextHasItsFingerprintAsName) {
  EXPECT_EQ(speech_name(""), "cbf29ce484222325");
  EXPECT_EQ(speech_name("a"), "af63dc4c8601ec8c");
}

TEST(Sound, WithoutASoundCardNothingIsTouchedAndNothingFails) {
  if (sound_card()) GTEST_SKIP() << "there is a sound card here";
  testing::internal::CaptureStderr();
  Sound sound("no/such/folder");
  sound.follow(nullptr, true, "en");
  sound.announce("Suction, please.", "en");
  EXPECT_EQ(testing::internal::GetCapturedStderr(), "");
}

}  // namespace
}  // namespace beforehand::stage
