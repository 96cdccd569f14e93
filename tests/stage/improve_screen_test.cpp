// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// From the briefing to a copy of the scenario that stands on the shelf and is faster.
#include <gtest/gtest.h>

#include <fstream>

#include "playing.hpp"
#include "procedure/reader.hpp"

namespace beforehand::stage {
namespace {

TEST(ImproveScreen, WhatIsTakenGoesIntoACopyOnTheShelf) {
  TemporaryFolder folder;
  std::filesystem::create_directories(folder / "tiny");
  auto text = procedure::load_text(PROJECT_DIR "/tests/scenarios/good/tiny.yaml");
  std::ofstream(folder / "tiny/scenario.yaml") << text;
  Outside outside;
  outside.scenarios = folder.path().string();
  outside.new_recording = [](const std::string&, std::uint64_t) { return std::string(); };
  outside.new_seed = [] { return std::uint64_t{7}; };
  Program program(read_shelf(folder.path()), english(), std::move(outside));
  press(program, Key::enter);
  type(program, "w");
  ASSERT_EQ(program.stand(), Program::Stand::improve);
  EXPECT_TRUE(program.moves());
  program.settle();
  ASSERT_NE(program.improve()->found(), nullptr);
  ASSERT_FALSE(program.improve()->found()->found.empty());
  EXPECT_TRUE(look_at(program, 1280, 720, 1).faults(16).empty());
  press(program, Key::enter);  // nothing is taken yet
  EXPECT_TRUE(program.improve()->copy().empty());
  type(program, "1");
  press(program, Key::enter);
  EXPECT_TRUE(look_at(program, 1280, 720, 1).shows("Written"));
  EXPECT_FALSE(program.moves());
  for (const auto& [key, shown] : program.strings().missing())
    ADD_FAILURE() << "no text for " << key;
  press(program, Key::escape);
  EXPECT_EQ(program.stand(), Program::Stand::start);
  ASSERT_NE(program.start().chosen(), nullptr);
  EXPECT_EQ(program.start().chosen()->id, "tiny-2");
  EXPECT_EQ(procedure::load_text(folder / "tiny/scenario.yaml"), text);
}

}  // namespace
}  // namespace beforehand::stage
