// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// The team's screens and the studies at several sizes and scales, in both languages, empty and
// full: no text on another, none outside the window, none smaller than 16 px at scale 1, no key
// without a text; and at twice the scale in 1280x720 as large as was asked for.
#include <gtest/gtest.h>

#include <memory>

#include "playing.hpp"
#include "stage/app.hpp"

namespace beforehand::stage {
namespace {

using Stand = Program::Stand;

struct WindowSize {
  int width, height;
  double scale;
};
constexpr WindowSize window_sizes[] = {{1120, 630, 1},  {1280, 720, 1},  {1280, 720, 1.5},
                                       {1280, 720, 2},  {1920, 1080, 1}, {1920, 1080, 2},
                                       {3840, 2160, 2}, {1024, 1280, 1}};

void audit(Program& program, const std::string& where) {
  for (const auto& size : window_sizes) {
    const double scale = fitting_scale(size.scale, size.width, size.height, program.needs());
    EXPECT_GE(scale, 0.85 * size.scale) << where;  // a little smaller to have all side by side
    std::string all;
    for (const auto& fault : look_at(program, size.width, size.height, scale).faults(16 * scale))
      all += "\n  " + fault;
    EXPECT_TRUE(all.empty()) << where << " at " << size.width << "x" << size.height << ", scale "
                             << scale << ":" << all;
  }
  for (const auto& [key, shown] : program.strings().missing())
    ADD_FAILURE() << where << ": no text for " << key;
}

// What a button says is whole at every size.
void audit_whole(Program& program, const std::string& where) {
  for (const auto& size : window_sizes) {
    const double scale = fitting_scale(size.scale, size.width, size.height, program.needs());
    for (const auto& cut : look_at(program, size.width, size.height, scale).cut())
      ADD_FAILURE() << where << " at " << size.width << "x" << size.height << ", scale " << scale
                    << ": " << cut;
  }
}

// From the top to the end of what scrolls.
void audit_down(Program& program, const std::string& where) {
  audit(program, where);
  for (int i = 0; i < 4; ++i) {
    press(program, Key::page_down);
    audit(program, where + ", further down");
  }
  press(program, Key::end);
  audit(program, where + ", end");
}

class TeamLayout : public testing::TestWithParam<const char*> {
 protected:
  /// At the briefing of the shipped scenario that has this id.
  std::unique_ptr<Program> briefed(const std::string& id,
                                   const std::string& scenarios = PROJECT_DIR "/scenarios") {
    Outside outside;
    outside.scenarios = scenarios;
    outside.own_scenarios = folder_ / "own";
    outside.new_recording = [this](const std::string& of, std::uint64_t) {
      return folder_ / (of + ".jsonl");
    };
    outside.new_seed = [] { return std::uint64_t{7}; };
    outside.observation = [this](const std::string& of) { return folder_ / (of + ".case"); };
    outside.strings_in = in_language;
    auto shelf = read_shelf(outside.scenarios, GetParam());
    auto held = std::make_unique<Program>(std::move(shelf), in_language(GetParam()),
                                          std::move(outside), Choice{}, drill_alone(GetParam()));
    auto& program = *held;
    for (int i = 0; i < 12 && program.start().chosen()->id != id; ++i) press(program, Key::down);
    EXPECT_EQ(program.start().chosen()->id, id);
    press(program, Key::enter);
    return held;
  }
  TemporaryFolder folder_;
};
INSTANTIATE_TEST_SUITE_P(InBothLanguages, TeamLayout, testing::Values("en", "es"),
                         [](const auto& of) { return std::string(of.param); });

TEST_P(TeamLayout, Rehearsal) {
  for (const bool talked : {false, true}) {
    const auto held = briefed("class-ii-composite");
    auto& program = *held;
    type(program, "r");
    ASSERT_EQ(program.stand(), Stand::rehearse);
    audit(program, "roles");
    if (talked) type(program, "t");
    press(program, Key::enter);
    audit(program, "begun");
    type(program, "1q7");
    for (int i = 0; i < 40; ++i) {
      program.pass(std::chrono::milliseconds(500));
      if (talked) press(program, Key::space);
      type(program, i % 2 ? "1" : "q2");
      if (i % 10 == 3) audit(program, "played, moment " + std::to_string(i));
    }
    press(program, Key::page_down);
    audit(program, "looking ahead");
    press(program, Key::escape);
    program.settle();
    audit_down(program, "team debrief");
  }
}

TEST_P(TeamLayout, ButtonsOfARehearsalAreWhole) {
  for (const auto* id : {"class-ii-composite", "chair-emergency"}) {
    const auto held = briefed(id);
    auto& program = *held;
    type(program, "r");
    press(program, Key::enter);
    type(program, "1q7");
    program.pass(std::chrono::milliseconds(20'000));
    audit_whole(program, id);
    press(program, Key::page_down);
    audit_whole(program, std::string(id) + ", looking ahead");
  }
}

// Where there is no room beside the clock they take turns with the columns.
TEST_P(TeamLayout, SurprisesTakeTurnsInASmallWindow) {
  const auto held = briefed("class-ii-composite");
  auto& program = *held;
  type(program, "r");
  press(program, Key::enter);
  const auto& signals = program.rehearse()->rehearsal()->run().procedure().signals;
  const auto shown = [&] { return look_at(program, 1280, 720, 2).shows(signals.front().title); };
  EXPECT_FALSE(shown());
  type(program, "v");
  EXPECT_TRUE(shown());
  audit(program, "surprises");
  EXPECT_TRUE(shown());
  type(program, "v");
  EXPECT_FALSE(shown());
  EXPECT_TRUE(look_at(program, 1280, 720, 1).shows(signals.front().title));
}

TEST_P(TeamLayout, RehearsalOfThree) {
  const auto held = briefed("chair-emergency");
  auto& program = *held;
  type(program, "r");
  press(program, Key::enter);
  audit(program, "begun");
  for (int i = 0; i < 20; ++i) {
    type(program, "1qa");
    program.pass(std::chrono::milliseconds(1000));
  }
  audit(program, "played");
  press(program, Key::escape);
  program.settle();
  audit(program, "team debrief");
}

TEST_P(TeamLayout, TimingACase) {
  const auto held = briefed("class-ii-composite");
  auto& program = *held;
  type(program, "o");
  ASSERT_EQ(program.stand(), Stand::observe);
  audit(program, "nothing tapped");
  type(program, "d");
  for (int i = 0; i < 20; ++i) {
    type(program, i % 2 ? "1" : "q");
    program.pass(std::chrono::milliseconds(3000));
  }
  audit(program, "timing");
  type(program, "n");
  type(program, "a note");
  audit(program, "a note");
  press(program, Key::enter);
  press(program, Key::escape);
  audit_down(program, "what was seen");
  type(program, "d");
  ASSERT_EQ(program.stand(), Stand::observed);
  audit_down(program, "durations");
  press(program, Key::enter);
  press(program, Key::home);
  audit(program, "durations written");
}

TEST_P(TeamLayout, TimingWithoutAProtocol) {
  const auto held = briefed("fissure-sealant");
  auto& program = *held;
  type(program, "o");
  type(program, "b");
  audit(program, "nobody yet");
  type(program, "helper");
  press(program, Key::enter);
  audit(program, "one");
  type(program, "m");
  type(program, "something long that nobody has ever written down in a protocol before today");
  press(program, Key::enter);
  program.pass(std::chrono::milliseconds(5000));
  audit(program, "timing");
}

TEST_P(TeamLayout, DurationsOfNoCase) {
  const auto held = briefed("fissure-sealant");
  auto& program = *held;
  type(program, "o");
  press(program, Key::escape);
  audit(program, "nothing seen");
  type(program, "d");
  ASSERT_EQ(program.stand(), Stand::observed);
  audit(program, "no durations");
}

TEST_P(TeamLayout, WaysToImproveAndWhatTheyAreWorth) {
  std::filesystem::create_directories(folder_ / "tiny");
  std::filesystem::copy_file(PROJECT_DIR "/tests/scenarios/good/tiny.yaml",
                             folder_ / "tiny/scenario.yaml");
  const auto held = briefed("tiny", folder_.path().string());
  auto& program = *held;
  type(program, "w");
  ASSERT_EQ(program.stand(), Stand::improve);
  audit(program, "looking");
  program.settle();
  audit_down(program, "found");
  type(program, "1");
  press(program, Key::enter);
  press(program, Key::home);
  audit(program, "written");
  press(program, Key::enter);
  ASSERT_EQ(program.stand(), Stand::compare);
  program.settle();
  audit_down(program, "compared");
  press(program, Key::escape);
  audit(program, "the choice");
}

}  // namespace
}  // namespace beforehand::stage
