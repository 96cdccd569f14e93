// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// Each bad file of tests/scenarios/bad beside what is said of it, to the letter: NAME.yaml and
// NAME.expected. Those of tests/scenarios/doubtful can be played, with a warning.
#include "scenario_files.hpp"

namespace beforehand::procedure {
namespace {

std::string said_of(const std::string& folder, const std::string& name, bool& playable) {
  const auto text = load_text(scenario_path(folder + "/" + name + ".yaml"));
  const auto reading = read(text);
  playable = reading.procedure.has_value();
  EXPECT_NE(playable, has_errors(reading.problems));
  return print(reading.problems, name + ".yaml", text);
}

class BadScenario : public testing::TestWithParam<std::string> {};

TEST_P(BadScenario, SaysWhatIsWrongAndWhere) {
  const auto& name = GetParam();
  bool playable = true;
  const auto said = said_of("bad", name, playable);
  EXPECT_FALSE(playable);
  const auto expected = scenario_path("bad/" + name + ".expected");
  ASSERT_TRUE(std::filesystem::exists(expected)) << "write down what should be said; now it is:\n"
                                                 << said;
  EXPECT_EQ(said, load_text(expected));
}

INSTANTIATE_TEST_SUITE_P(Files, BadScenario, testing::ValuesIn(scenario_names("bad", ".yaml")),
                         [](const auto& file) {
                           auto name = file.param;
                           std::replace(name.begin(), name.end(), '-', '_');
                           return name;
                         });

TEST(BadScenarios, HaveNoExpectationLeftBehind) {
  EXPECT_EQ(scenario_names("bad", ".expected"), scenario_names("bad", ".yaml"));
}

TEST(DoubtfulScenario, IsPlayedAndWarnedOf) {
  bool playable = false;
  const auto said = said_of("doubtful", "unused", playable);
  EXPECT_TRUE(playable);
  EXPECT_EQ(said, load_text(scenario_path("doubtful/unused.expected")));
}

}  // namespace
}  // namespace beforehand::procedure
