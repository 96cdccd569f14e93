// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// Changing a file as a person would: what is asked for changes, and not one other byte.
#include "procedure/edit.hpp"

#include <yaml-cpp/yaml.h>

#include "procedure/yaml_tree.hpp"
#include "scenario_files.hpp"

namespace beforehand::procedure {
namespace {

const std::string page = R"(# A remark at the top.
id: one   # its name
pacing: {patience: 4 s, offer: "10 s"}  # slow
summary: >-
  Two lines,
  folded.

# before the steps
steps:
  - id: etch
    takes: {least: 5 s, usual: 6 s}
    after: rinse

  # about the rinse
  - id: rinse
    says: "Rinsing, # now: yes"
    after: [etch, {step: dry, at-most: 5 s}]
    needs:
      - water
      - air  # both

  - {id: dry, takes: 3 s}
end: here
)";

std::string changed(const std::string& from, const std::string& to) { return with(page, from, to); }

TEST(Edit, ReplacesAValueAndNoOtherByte) {
  EXPECT_EQ(with_value(page, "id", "two"), changed("one ", "two "));
  EXPECT_EQ(with_value(page, "pacing/offer", "9 s"), changed("\"10 s\"", "9 s"));
  EXPECT_EQ(with_value(page, "steps/etch/takes/usual", "7 s"), changed("6 s", "7 s"));
  EXPECT_EQ(with_value(page, "steps/etch/takes", "8 s"),
            changed("{least: 5 s, usual: 6 s}", "8 s"));
  EXPECT_EQ(with_value(page, "steps/rinse/says", "\"No.\""),
            changed("\"Rinsing, # now: yes\"", "\"No.\""));
  EXPECT_EQ(with_value(page, "steps/rinse/after/1/at-most", "9 s"),
            changed("at-most: 5 s", "at-most: 9 s"));
  EXPECT_EQ(with_value(page, "steps/dry/takes", "4 s"), changed("takes: 3 s", "takes: 4 s"));
  EXPECT_EQ(with_value(page, "summary", "Short."),
            changed(">-\n  Two lines,\n  folded.\n", "Short.\n"));
  EXPECT_EQ(with_value(page, "steps/rinse/needs", "[air]"),
            changed("\n      - water\n      - air  # both", " [air]  # both"));
}

TEST(Edit, AddsAKeyWhereItsNeighboursStand) {
  EXPECT_EQ(with_value(page, "steps/etch/cue", "now"),
            changed("after: rinse\n", "after: rinse\n    cue: now\n"));
  EXPECT_EQ(with_value(page, "steps/dry/cue", "now"),
            changed("takes: 3 s}", "takes: 3 s, cue: now}"));
  EXPECT_EQ(with_value(page, "pacing/self-help", "12 s"),
            changed("\"10 s\"}", "\"10 s\", self-help: 12 s}"));
  EXPECT_EQ(with_value(page, "last", "1"), page + "last: 1\n");
  EXPECT_EQ(with_value(page, "steps/rinse/when", "[x]"),
            changed("- air  # both\n", "- air  # both\n    when: [x]\n"));
}

TEST(Edit, AddsAnItem) {
  EXPECT_EQ(with_item(page, "steps", "etch", "id: blot\ntakes: 2 s"),
            changed("after: rinse\n", "after: rinse\n\n  - id: blot\n    takes: 2 s\n"));
  EXPECT_EQ(with_item(page, "steps", "", "id: first"),
            changed("  - id: etch", "  - id: first\n\n  - id: etch"));
  EXPECT_EQ(with_item(page, "steps", "dry", "id: last"),
            changed("takes: 3 s}\n", "takes: 3 s}\n\n  - id: last\n"));
  EXPECT_EQ(with_item(page, "steps/rinse/needs", "0", "soap"),
            changed("- water\n", "- water\n      - soap\n"));
  EXPECT_EQ(with_item(page, "steps/rinse/after", "0", "blot"), changed("[etch, ", "[etch, blot, "));
  EXPECT_EQ(with_item(page, "steps/rinse/after", "", "blot"), changed("[etch, ", "[blot, etch, "));
  EXPECT_EQ(with_item(page, "steps/etch/after", "0", "dry"),
            changed("after: rinse", "after: [rinse, dry]"));
  EXPECT_EQ(with_item(page, "steps/dry/after", "", "etch"),
            changed("takes: 3 s}", "takes: 3 s, after: [etch]}"));
}

TEST(Edit, TakesAway) {
  EXPECT_EQ(without(page, "steps/etch/after"), changed("    after: rinse\n", ""));
  EXPECT_EQ(without(page, "steps/rinse/after/1"), changed(", {step: dry, at-most: 5 s}", ""));
  EXPECT_EQ(without(page, "steps/rinse/after/0"), changed("etch, {step", "{step"));
  EXPECT_EQ(without(page, "steps/dry"), changed("  - {id: dry, takes: 3 s}\n", ""));
  EXPECT_EQ(without(page, "pacing/patience"), changed("patience: 4 s, ", ""));
  EXPECT_EQ(without(page, "steps/rinse/needs/1"), changed("      - air  # both\n", ""));
  EXPECT_EQ(without(page, "id"), changed("id: one   # its name\n", ""));
}

TEST(Edit, RefusesWhatItCannotDo) {
  EXPECT_THROW(with_value(page, "steps/blot/takes", "1 s"), EditError);
  EXPECT_THROW(with_value(page, "id", "a: b: c"), EditError);
  EXPECT_THROW(with_value(page, "id", "a\nb: 2"), EditError);
  EXPECT_THROW(with_item(page, "steps", "nobody", "id: x"), EditError);
  EXPECT_THROW(without("a: {b: 1}\n", "a/b"), EditError);
  EXPECT_THROW(with_value("a: &x 1\nb: *x\n", "a", "2"), EditError);
  EXPECT_THROW(with_value("a: [", "a", "2"), EditError);
  EXPECT_THROW(with_value("", "a", "2"), EditError);
}

TEST(Edit, QuotesWhatYamlWouldReadOtherwise) {
  for (const std::string text :
       {"plain", "a: b", "#no", "say \"it\"", "", "[x]", "- a", "*star", "&and", "it's",
        "5 % of it", "% 5", "end ", "a # b", "key:", "back\\slash", "null", "~", "ñandú"}) {
    const auto yaml = "{key: " + yaml_text(text) + "}\n";
    EXPECT_EQ(YAML::Load(yaml)["key"].as<std::string>(), text) << yaml;
  }
  EXPECT_EQ(yaml_text("15 s"), "15 s");
}

// Titles in the shipped scenarios, replaced and put back: the same bytes.
TEST(Edit, ComesBackToTheSameBytes) {
  int values = 0;
  for (const std::string id : {"fissure-sealant", "class-ii-composite"}) {
    const auto text = load_text(PROJECT_DIR "/scenarios/" + id + "/scenario.yaml");
    const auto p = read_well(text);
    for (std::size_t i = 0; i < p.steps.size(); i += 7) {
      const auto& step = p.steps[i];
      const auto at = "steps/" + step.id;
      const auto once = with_value(text, at + "/title", "Something else");
      EXPECT_TRUE(with_value(once, at + "/title", step.title) == text) << step.id;
      const auto item = with_item(text, "steps", step.id, "id: new\ntakes: 1 s");
      EXPECT_EQ(item.size(), text.size() + std::string("\n  - id: new\n    takes: 1 s\n").size());
      const auto rest = without(item, "steps/new");
      EXPECT_EQ(rest.size(), text.size() + 1) << "the empty line stays";
      ++values;
    }
  }
  EXPECT_GT(values, 10);
}

}  // namespace
}  // namespace beforehand::procedure
