// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <gtest/gtest.h>
#include <unistd.h>

#include <filesystem>
#include <string>

#include "../drill/play.hpp"
#include "drill/recording.hpp"
#include "records/ids.hpp"
#include "records/save.hpp"
#include "records/store.hpp"

// Helpers for tests of the store: a folder of its own, a clock that is told the time, and real
// drills of bots to save.

namespace beforehand::test {

/// A new empty folder, removed with everything in it at the end.
class Folder {
 public:
  Folder() {
    static int made = 0;
    path_ = std::filesystem::temp_directory_path() /
            ("beforehand-" + std::to_string(getpid()) + "-" + std::to_string(++made));
    std::filesystem::remove_all(path_);
    std::filesystem::create_directories(path_);
  }
  ~Folder() {
    std::error_code ignored;
    std::filesystem::remove_all(path_, ignored);
  }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  std::string file(const std::string& name) const { return (path_ / name).string(); }
  std::string path() const { return path_.string(); }

 private:
  std::filesystem::path path_;
};

/// 2026-03-02 09:00 UTC, and a second later each time it is read.
inline records::Clock ticking() {
  return [t = records::Moment{std::chrono::milliseconds{1'772'442'000'000}}]() mutable {
    return t += std::chrono::seconds{1};
  };
}

inline std::string tiny_text() {
  return procedure::load_text(std::string(PROJECT_DIR) + "/tests/scenarios/good/tiny.yaml");
}

/// A drill, ready to be saved for a trainee: a bot plays it in the place of a person.
inline records::NewSession drilled(const procedure::Procedure& p, const std::string& text,
                                   const records::Person& trainee, records::Moment at,
                                   const std::string& bot = "expert", std::uint64_t seed = 1,
                                   drill::Level level = drill::Level::assessed) {
  drill::Setup setup;
  setup.seed = seed;
  setup.level = level;
  setup.assistant = "human";
  setup.trainee = trainee.name;
  drill::Run run(p, setup);
  cast(run, bot);
  run.play_out();
  static records::IdMaker ids;
  records::Sitting sitting;
  sitting.id = ids.make(at);
  sitting.trainee = trainee.id;
  sitting.started = at;
  sitting.ended = at + std::chrono::minutes{8};
  sitting.program = drill::program_version;
  sitting.scenario_text = text;
  return records::new_session(p, run.session(), sitting);
}

inline records::NewSession drilled_tiny(const records::Person& trainee, records::Moment at,
                                        const std::string& bot = "expert", std::uint64_t seed = 1) {
  static const auto p = tiny();
  return drilled(p, tiny_text(), trainee, at, bot, seed);
}

}  // namespace beforehand::test
