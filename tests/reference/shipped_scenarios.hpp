// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <gtest/gtest.h>

#include <algorithm>
#include <chrono>
#include <stdexcept>
#include <string>
#include <vector>

#include "procedure/reader.hpp"

// The scenarios that come with the program, as the checks against the outside read them.

namespace beforehand::procedure {

using namespace std::chrono_literals;

/// Every scenario that comes with the program; scenarios_room_test.cpp compares it with the folder.
inline const std::vector<std::string> shelf{
    "fissure-sealant",   "class-ii-composite", "rubber-dam",      "simple-extraction",
    "crown-preparation", "core-build-up",      "chair-emergency", "room-turnover"};

inline std::string text_of(const std::string& id) {
  return load_text(std::string(PROJECT_DIR) + "/scenarios/" + id + "/scenario.yaml");
}

inline Procedure scenario(const std::string& id) {
  const auto text = text_of(id);
  auto reading = read(text);
  EXPECT_TRUE(reading.problems.empty()) << print(reading.problems, id, text);
  if (!reading.procedure) throw std::runtime_error(id + " cannot be read");
  return std::move(*reading.procedure);
}

inline StepIx find(const Procedure& p, const std::string& id) {
  for (std::size_t i = 0; i < p.steps.size(); ++i) {
    if (p.steps[i].id == id) return StepIx{i};
  }
  throw std::runtime_error("no step " + id);
}

inline const Step& step(const Procedure& p, const std::string& id) { return p.step(find(p, id)); }

inline const Supply& supply(const Procedure& p, const std::string& id) {
  for (const auto& s : p.supplies) {
    if (s.id == id) return s;
  }
  throw std::runtime_error("no supply " + id);
}

inline const Link& link(const Procedure& p, const std::string& from, const std::string& to,
                        Anchor anchor) {
  for (const auto& l : step(p, to).after) {
    if (l.step == find(p, from) && l.from == anchor && !l.implied) return l;
  }
  throw std::runtime_error("no link from " + from + " to " + to);
}

inline void expect_in_order(const Procedure& p, const std::vector<std::string>& ids) {
  for (std::size_t i = 1; i < ids.size(); ++i) {
    EXPECT_TRUE(p.precedes(find(p, ids[i - 1]), find(p, ids[i])))
        << ids[i - 1] << " before " << ids[i];
  }
}

inline bool is_assistants(const Procedure& p, const Step& s) {
  return p.person(s.by.front()).role == Role::assistant;
}

inline bool has(const FieldSet& fields, Field f) { return fields[static_cast<std::size_t>(f)]; }

class EveryScenario : public testing::TestWithParam<std::string> {
 protected:
  const Procedure p = scenario(GetParam());
};

inline std::string test_name(const testing::TestParamInfo<std::string>& scenario) {
  auto name = scenario.param;
  std::replace(name.begin(), name.end(), '-', '_');
  return name;
}

}  // namespace beforehand::procedure
