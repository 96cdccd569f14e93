// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// The reference of the format, docs/scenario.md: its example can be played, and it names every
// word.
#include <fstream>
#include <nlohmann/json.hpp>
#include <set>

#include "procedure/materials.hpp"
#include "procedure/texts.hpp"
#include "scenario_files.hpp"

namespace beforehand::procedure {
namespace {

std::string docs_page(const std::string& name = "scenario.md") {
  std::ifstream in(PROJECT_DIR "/docs/" + name, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

// The first block of a page that holds `mark`.
std::string block(const std::string& text, const std::string& mark) {
  const auto at = text.find(mark);
  EXPECT_NE(at, std::string::npos) << mark;
  const auto from = text.find('\n', text.rfind("```", at)) + 1;
  return text.substr(from, text.find("```", at) - from);
}

TEST(ScenarioPage, ItsExampleIsAScenario) {
  const auto text = docs_page();
  const std::string opening = "```yaml\n";
  const auto from = text.find(opening) + opening.size();
  const auto p = read_well(text.substr(from, text.find("```", from) - from));
  EXPECT_EQ(p.steps.size(), 5u);
  EXPECT_EQ(p.steps[4].needs.size(), 1u);
}

TEST(ScenarioPage, ItsCardAndItsMaterialsGoWithTheExample) {
  const auto text = docs_page();
  const auto scenario = block(text, "id: liner\n"), card = block(text, "card: 2\n"),
             list = block(text, "materials: 1\n"), es = block(text, "texts: 2\n");
  const auto materials = read_materials(list);
  EXPECT_EQ(print(materials.problems, "materials", list), "");
  const auto reading = read(Layers{scenario, card, nullptr});
  EXPECT_EQ(print(reading.problems, {{"scenario", scenario}, {"card", card}}), "");
  EXPECT_EQ(reading.procedure->steps.size(), 6u);
  EXPECT_TRUE(read_texts(es + "complete: false\n", read_well(scenario)).texts);
  const auto own = block(text, "card-title: ");
  const auto base = read_well(scenario);
  const auto words = read_texts(own, *reading.procedure, &base);
  EXPECT_EQ(print(words.problems, "texts of the card", own), "");
}

template <class E>
void expect_named(const std::string& text, std::size_t count, std::size_t first = 0) {
  for (std::size_t i = first; i < first + count; ++i) {
    const std::string name(word(static_cast<E>(i)));
    EXPECT_NE(text.find("`" + name + "`"), std::string::npos) << name;
  }
}

TEST(ScenarioPage, NamesEveryWord) {
  const auto text = docs_page();
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
  const auto text = docs_page();
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
