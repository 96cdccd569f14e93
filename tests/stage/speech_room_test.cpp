// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// Whatever the clinician says, asks for or shows in a whole drill stands on the screen to its last
// word, at both sizes and both scales.
#include <gtest/gtest.h>

#include <set>

#include "every_screen.hpp"
#include "stage/app.hpp"

namespace beforehand::stage {
namespace {

using Kind = Caption::Kind;

class SpeechRoom : public testing::TestWithParam<const char*> {};

std::string all_of(const Seen& screen) {
  std::string all;
  for (const auto& text : screen.texts) all += text.line + " ";
  return all;
}

void expect_whole(Program& program, const std::string& said) {
  for (const auto& size : usual_looks) {
    const double scale = fitting_scale(size.scale, size.width, size.height, program.needs());
    const auto screen = look_at(program, size.width, size.height, scale);
    EXPECT_NE(all_of(screen).find(said), std::string::npos)
        << "at " << size.height << ", scale " << scale << ": " << said;
  }
}

TEST_P(SpeechRoom, IsEnoughForEveryWord) {
  std::size_t looked_at = 0;
  for (const auto& item : read_shelf(PROJECT_DIR "/scenarios", GetParam())) {
    SCOPED_TRACE(item.file);
    auto program = program_on({item}, nullptr, GetParam());
    press(program, Key::enter);
    program.settle();
    press(program, Key::enter);
    constexpr std::size_t short_enough = 40;  // letters: two lines, as the panel always has
    std::set<std::string> seen;
    for (int i = 0; i < 72'000 && program.stand() == Program::Stand::drill; ++i) {
      const auto& captions = program.sitting()->captions();
      if (!captions.empty() && captions.back().kind != Kind::told &&
          captions.back().text.size() > short_enough && !program.sitting()->lapsing() &&
          seen.insert(captions.back().text).second)
        expect_whole(program, captions.back().text);
      if (i % 30 == 0) do_what_is_urgent(program);  // late enough to be asked now and then
      program.pass(std::chrono::milliseconds(100));
    }
    looked_at += seen.size();
  }
  EXPECT_GT(looked_at, 40u);
}

INSTANTIATE_TEST_SUITE_P(Languages, SpeechRoom, testing::Values("en", "es"),
                         [](const auto& info) { return std::string(info.param); });

}  // namespace
}  // namespace beforehand::stage
