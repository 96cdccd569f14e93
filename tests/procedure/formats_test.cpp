// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// Older formats: read as they stand, written as of today without touching anything else.
#include "procedure/formats.hpp"

#include "procedure/edit.hpp"
#include "procedure/texts.hpp"
#include "scenario_files.hpp"

namespace beforehand::procedure {
namespace {

const std::string card_1 =
    "# mine\ncard: 1   # as it came\nid: mine\ntitle: Mine\nscenario: tiny\nplan: Quickly now.\n";

TEST(Formats, AFileOfFormat1MeansTheSameAsItsConversion) {
  const auto old = tiny_text();
  const auto now = convert(old);
  EXPECT_EQ(now.from, 1);
  EXPECT_EQ(now.to, 2);
  const auto before = read_well(old), after = read_well(now.text);
  EXPECT_EQ(before.plan, after.plan);
  EXPECT_FALSE(after.plan.empty());
  EXPECT_EQ(before.steps.size(), after.steps.size());
}

TEST(Formats, ConvertingChangesNoOtherByte) {
  auto now = convert(tiny_text()).text;
  for (const auto& [to, from] :
       {std::pair<std::string, std::string>{"beforehand: 2", "beforehand: 1"},
        {"\nannounces:", "\nplan:"}}) {
    const auto at = now.find(to);
    ASSERT_NE(at, std::string::npos);
    now.replace(at, to.size(), from);
  }
  EXPECT_EQ(now, tiny_text());
}

TEST(Formats, RemarksOrderAndLineEndsStay) {
  const auto now =
      convert("# first\r\nplan: >-  # said\r\n  Well.\r\n# between\r\nbeforehand: 1 # one\r\n");
  EXPECT_EQ(now.text,
            "# first\r\nannounces: >-  # said\r\n  Well.\r\n# between\r\nbeforehand: 2 # one\r\n");
  EXPECT_EQ(now.changes,
            (std::vector<std::string>{"line 2: plan is now announces", "line 5: 1 is now 2"}));
}

TEST(Formats, ACardAndTextsHaveTheirOwnVersions) {
  EXPECT_EQ(convert(card_1).text,
            "# mine\ncard: 2   # as it came\nid: mine\ntitle: Mine\nscenario: tiny\nannounces: "
            "Quickly now.\n");
  EXPECT_EQ(convert("texts: 1\nlanguage: es\nplan: Hola\n").text,
            "texts: 2\nlanguage: es\nannounces: Hola\n");
  EXPECT_EQ(convert("materials: 1\nid: x\n").from, convert("materials: 1\nid: x\n").to);
}

TEST(Formats, OldAndNewGoTogether) {
  const auto now = convert(tiny_text()).text;
  for (const auto& scenario : {tiny_text(), now})
    for (const auto& card : {card_1, convert(card_1).text}) {
      const auto reading = read(Layers{scenario, card, nullptr});
      ASSERT_TRUE(reading.procedure) << print(reading.problems, {{"s", scenario}, {"c", card}});
      EXPECT_EQ(reading.procedure->plan, "Quickly now.");
    }
  const auto es = load_text(scenario_path("good/tiny_texts/es.yaml"));
  EXPECT_TRUE(read_texts(es, read_well(now)).texts);
  EXPECT_TRUE(read_texts(convert(es).text, read_well(tiny_text())).texts);
}

TEST(Formats, WhatIsOddIsRefused) {
  for (const std::string odd :
       {"", "beforehand: 3\n", "beforehand: one\n", "shopping: milk\n", "[1, 2]\n",
        "beforehand: 1\nplan: x\nannounces: y\n", "beforehand: 1\n\"plan\": x\n", "beforehand: [1"})
    EXPECT_THROW(convert(odd), EditError) << odd;
}

TEST(Formats, AProblemStandsWhereItIsInTheOldFile) {
  const auto odd =
      with(tiny_text(), "plan: \"Rinse, then the lining, then we look at it.\"", "plan: [x]");
  const auto reading = read(odd);
  ASSERT_FALSE(reading.procedure);
  EXPECT_EQ(reading.problems.front().mark.line, 6);
  EXPECT_EQ(reading.problems.front().mark.column, 7);
}

}  // namespace
}  // namespace beforehand::procedure
