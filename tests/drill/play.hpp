// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <gtest/gtest.h>

#include <string>

#include "drill/cast.hpp"
#include "procedure/reader.hpp"

// Helpers to play drills in tests.

namespace beforehand::test {

inline procedure::Procedure scenario(const std::string& file) {
  const auto path = std::string(PROJECT_DIR) + "/" + file;
  const auto text = procedure::load_text(path);
  auto reading = procedure::read(text);
  EXPECT_TRUE(reading.procedure) << print(reading.problems, file, text);
  return reading.procedure ? std::move(*reading.procedure) : procedure::Procedure{};
}

inline procedure::Procedure tiny() { return scenario("tests/scenarios/good/tiny.yaml"); }

/// A procedure with text replaced, as an author would change it.
inline procedure::Procedure tiny_with(const std::string& old_text, const std::string& new_text) {
  auto text = procedure::load_text(std::string(PROJECT_DIR) + "/tests/scenarios/good/tiny.yaml");
  const auto at = text.find(old_text);
  EXPECT_NE(at, std::string::npos) << old_text;
  text.replace(at, old_text.size(), new_text);
  auto reading = procedure::read(text);
  EXPECT_TRUE(reading.procedure) << print(reading.problems, "tiny.yaml", text);
  return reading.procedure ? std::move(*reading.procedure) : procedure::Procedure{};
}

inline void cast(drill::Run& run, const std::string& assistant) {
  drill::cast(run, drill::habit_from(assistant));  // "human" is no habit
}

inline drill::Session play(const procedure::Procedure& p, const std::string& assistant,
                           std::uint64_t seed = 1, const std::string& phase = "") {
  drill::Setup setup;
  setup.seed = seed;
  setup.assistant = assistant;
  for (std::size_t i = 0; i < p.phases.size(); ++i) {
    if (p.phases[i].id == phase) setup.phase = PhaseIx{i};
  }
  drill::Run run(p, setup);
  cast(run, assistant);
  run.play_out();
  return run.session();
}

inline StepIx step(const procedure::Procedure& p, const std::string& id) {
  for (std::size_t i = 0; i < p.steps.size(); ++i) {
    if (p.steps[i].id == id) return StepIx{i};
  }
  ADD_FAILURE() << "no step " << id;
  return {};
}

inline int count(const drill::Session& s, drill::What what) {
  int n = 0;
  for (const auto& e : s.events) n += e.what == what;
  return n;
}

inline const drill::Event* find(const drill::Session& s, drill::What what, StepIx step) {
  for (const auto& e : s.events) {
    if (e.what == what && e.step == step) return &e;
  }
  return nullptr;
}

}  // namespace beforehand::test
