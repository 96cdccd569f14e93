// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// The reference of the format, docs/scenario.md: its example can be played, and it names every
// word.
#include <fstream>
#include <nlohmann/json.hpp>
#include <set>

#include "scenario_files.hpp"

namespace beforehand::procedure {
namespace {

std::string page() {
  std::ifstream in(PROJECT_DIR "/docs/scenario.md", std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

TEST(ScenarioPage, ItsExampleIsAScenario) {
  const auto text = page();
  const std::string opening = "```yaml\n";
  const auto from = text.find(opening) + opening.size();
  const auto p = read_well(text.substr(from, text.find("```", from) - from));
  EXPECT_EQ(p.steps.size(), 5u);
  EXPECT_EQ(p.steps[4].needs.size(), 1u);
}

template <class E>
void expect_named(const std::string& text, std::size_t count, std::size_t first = 0) {
  for (std::size_t i = first; i < first + count; ++i) {
    const std::string name(word(static_cast<E>(i)));
    EXPECT_NE(text.find("`" + name + "`"), std::string::npos) << name;
  }
}

TEST(ScenarioPage, NamesEveryWord) {
  const auto text = page();
  expect_named<Verb>(text, verb_count);
  expect_named<Role>(text, 3);
  expect_named<Zone>(text, 4);
  expect_named<Motion>(text, 5, 1);
  expect_named<PlaceKind>(text, 8);
  expect_named<Severity>(text, 3);
  expect_named<Hazard>(text, hazard_count);
  expect_named<Field>(text, field_count);
  expect_named<AfterUse>(text, 3);
  expect_named<SupplyState>(text, 3);
}

void collect_keys(const nlohmann::json& schema, std::set<std::string>& keys) {
  if (schema.contains("properties"))
    for (const auto& [key, value] : schema["properties"].items()) keys.insert(key);
  for (const auto& part : schema)
    if (part.is_structured()) collect_keys(part, keys);
}

// Every key of the schema, which the schema's own test compares with the reader.
TEST(ScenarioPage, NamesEveryKey) {
  const auto text = page();
  const auto schema = load_text(PROJECT_DIR "/engine/procedure/scenario.schema.json");
  std::set<std::string> keys;
  collect_keys(nlohmann::json::parse(schema), keys);
  EXPECT_GT(keys.size(), 60u);
  for (const auto& key : keys) {
    const bool named = text.find("`" + key) != std::string::npos ||
                       text.find(key + ":") != std::string::npos ||
                       text.find("## " + key + "\n") != std::string::npos;
    EXPECT_TRUE(named) << key;
  }
}

}  // namespace
}  // namespace beforehand::procedure
