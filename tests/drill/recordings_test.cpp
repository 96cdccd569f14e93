// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include <filesystem>
#include <map>

#include "drill/recording.hpp"
#include "play.hpp"

// Every recording in tests/recordings still follows from its commands, event for event. When a
// change of the rules is meant to change them, tools/rerecord makes them anew; read the difference.

namespace beforehand {
namespace {

namespace fs = std::filesystem;

std::vector<std::string> recordings() {
  std::vector<std::string> files;
  std::error_code none;  // an empty list fails below, where it can be said
  for (const auto& f : fs::directory_iterator(fs::path(PROJECT_DIR) / "tests/recordings", none)) {
    if (f.path().extension() == ".jsonl") files.push_back(f.path().filename().string());
  }
  std::sort(files.begin(), files.end());
  return files;
}

class Recordings : public testing::TestWithParam<std::string> {};

TEST_P(Recordings, FollowFromTheirCommands) {
  const auto path = std::string(PROJECT_DIR) + "/tests/recordings/" + GetParam();
  const auto text = procedure::load_text(path);
  const auto header = drill::header_of(text, GetParam());
  const auto shipped = "scenarios/" + header.scenario + "/scenario.yaml";
  const auto p = fs::exists(fs::path(PROJECT_DIR) / shipped)
                     ? test::scenario(shipped)
                     : test::scenario("tests/scenarios/good/" + header.scenario + ".yaml");
  try {
    const auto session = drill::from_text(text, p, GetParam());
    EXPECT_TRUE(session.complete());
    drill::verify(p, session, GetParam());
  } catch (const drill::RecordingError& e) {
    FAIL() << e.what() << "\nIf the rules were meant to change, run tools/rerecord.";
  }
}

INSTANTIATE_TEST_SUITE_P(Folder, Recordings, testing::ValuesIn(recordings()),
                         [](const auto& parameter) {
                           auto name = fs::path(parameter.param).stem().string();
                           for (auto& c : name) c = std::isalnum(c) ? c : '_';
                           return name;
                         });

}  // namespace
}  // namespace beforehand
