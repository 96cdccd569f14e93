// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// The scenarios of the tests, as files and as text.
#pragma once

#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <string>
#include <vector>

#include "procedure/reader.hpp"

namespace beforehand::procedure {

inline std::string scenario_path(const std::string& name) {
  return std::string(PROJECT_DIR "/tests/scenarios/") + name;
}

// The files of a folder of tests/scenarios/ that end so, without the ending, in order.
inline std::vector<std::string> scenario_names(const std::string& folder,
                                               const std::string& ending) {
  std::vector<std::string> names;
  for (const auto& entry : std::filesystem::directory_iterator(scenario_path(folder))) {
    if (entry.path().extension() == ending) names.push_back(entry.path().stem().string());
  }
  std::sort(names.begin(), names.end());
  return names;
}

inline std::string tiny_text() { return load_text(scenario_path("good/tiny.yaml")); }

// Reads what must be without problems.
inline Procedure read_well(const std::string& text) {
  auto reading = read(text);
  EXPECT_EQ(print(reading.problems, "text", text), "");
  return reading.procedure.value_or(Procedure{});
}

inline StepIx step_named(const Procedure& p, std::string_view id) {
  for (std::size_t i = 0; i < p.steps.size(); ++i) {
    if (p.steps[i].id == id) return StepIx{i};
  }
  ADD_FAILURE() << "no step " << id;
  return StepIx{0};
}

// The text with its first `from` changed to `to`; fails when there is none.
inline std::string with(std::string text, const std::string& from, const std::string& to) {
  const auto at = text.find(from);
  EXPECT_NE(at, std::string::npos) << from;
  return at == std::string::npos ? text : text.replace(at, from.size(), to);
}

}  // namespace beforehand::procedure
