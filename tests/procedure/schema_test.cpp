// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// The JSON Schema an editor uses beside the reader: what the reader takes, the schema takes; and
// what a schema can tell, it tells. Checked with valijson, an implementation of draft-07 of others.
#include <yaml-cpp/yaml.h>

#include <nlohmann/json.hpp>
#include <set>
#include <valijson/adapters/nlohmann_json_adapter.hpp>
#include <valijson/schema.hpp>
#include <valijson/schema_parser.hpp>
#include <valijson/validator.hpp>

#include "base/random.hpp"
#include "scenario_files.hpp"

namespace beforehand::procedure {
namespace {

using nlohmann::json;

// Plain words as the core schema of YAML 1.2 reads them, so as editors do.
json typed(const std::string& word) {
  if (word == "true" || word == "false") return word == "true";
  const auto number = json::parse(word, nullptr, false);
  return number.is_number() ? number : json(word);
}

json as_json(const YAML::Node& node) {
  if (node.IsScalar()) return node.Tag() == "?" ? typed(node.Scalar()) : json(node.Scalar());
  json out = node.IsMap() ? json::object() : node.IsSequence() ? json::array() : json();
  if (node.IsSequence())
    for (const auto& item : node) out.push_back(as_json(item));
  if (node.IsMap())
    for (const auto& entry : node) out[entry.first.Scalar()] = as_json(entry.second);
  return out;
}

class ScenarioSchema : public testing::Test {
 protected:
  ScenarioSchema() {
    const auto document =
        json::parse(load_text(PROJECT_DIR "/engine/procedure/scenario.schema.json"));
    valijson::adapters::NlohmannJsonAdapter adapter(document);
    valijson::SchemaParser(valijson::SchemaParser::kDraft7).populateSchema(adapter, schema_);
  }

  // What is wrong with the text, or nothing.
  std::string fault(const std::string& text) {
    const json document = as_json(YAML::Load(text));
    valijson::adapters::NlohmannJsonAdapter adapter(document);
    valijson::ValidationResults results;
    if (validator_.validate(schema_, adapter, &results)) return {};
    valijson::ValidationResults::Error error;
    std::string said;
    while (results.popError(error)) {
      for (const auto& part : error.context) said += part;
      said += ": " + error.description + "\n";
    }
    return said;
  }

 private:
  valijson::Schema schema_;
  valijson::Validator validator_;
};

TEST_F(ScenarioSchema, TakesGoodScenarios) {
  EXPECT_EQ(fault(tiny_text()), "");
  EXPECT_EQ(fault(load_text(scenario_path("doubtful/unused.yaml"))), "");
  for (const auto& entry : std::filesystem::directory_iterator(PROJECT_DIR "/scenarios")) {
    const auto file = entry.path() / "scenario.yaml";
    if (!std::filesystem::exists(file)) continue;
    EXPECT_EQ(fault(load_text(file.string())), "") << file;
  }
}

// Everything that can be told from one map alone.
TEST_F(ScenarioSchema, TellsWhatASchemaCan) {
  for (const std::string name :
       {"cautions-empty", "cautions-none", "cover-of-nothing", "cover-with-duration", "format",
        "hands-of-a-person", "hands-of-a-step", "ids", "list", "many", "missing-keys",
        "missing-sections", "named-twice", "nobody", "percent", "types", "units", "unknown-keys"})
    EXPECT_NE(fault(load_text(scenario_path("bad/" + name + ".yaml"))), "") << name;
}

// Words of good scenarios exchanged at random: what the reader still takes, the schema takes too.
TEST_F(ScenarioSchema, IsNeverStricterThanTheReader) {
  const auto good = tiny_text();
  std::vector<std::string> words;
  for (std::size_t at = 0; at < good.size();) {
    const auto end = std::min(good.find_first_of(" ,{}[]\n:\"", at), good.size() - 1);
    if (end > at) words.push_back(good.substr(at, end - at));
    at = end + 1;
  }
  int taken = 0;
  for (std::uint64_t i = 0; i < 1000; ++i) {
    auto text = good;
    const auto& from = words[keyed_bits({i, 1, 0}) % words.size()];
    const auto at = text.find(from, keyed_bits({i, 2, 0}) % text.size());
    if (at == std::string::npos) continue;
    text.replace(at, from.size(), words[keyed_bits({i, 3, 0}) % words.size()]);
    if (!read(text).procedure) continue;
    ++taken;
    ASSERT_EQ(fault(text), "") << text;
  }
  EXPECT_GT(taken, 30);
}

}  // namespace
}  // namespace beforehand::procedure
