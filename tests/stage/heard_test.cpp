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
  EXPECT_FALSE(suction());
  ASSERT_TRUE(press_on(program, "Suction: Suction tip"));
  program.pass(std::chrono::seconds(3));  // the hand gets there
  EXPECT_TRUE(suction());
  ASSERT_TRUE(press_on(program, "Suction: Suction tip"));
  program.pass(std::chrono::seconds(3));  // the hand gets there
  EXPECT_FALSE(suction());
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
  sound.say("Suction, please.", "en");
  EXPECT_EQ(testing::internal::GetCapturedStderr(), "");
}

}  // namespace
}  // namespace beforehand::stage
