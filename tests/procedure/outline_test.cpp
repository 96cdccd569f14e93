// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// From a plain list to a scenario; and lists that cannot become one.
#include "procedure/outline.hpp"

#include "base/random.hpp"
#include "scenario_files.hpp"

namespace beforehand::procedure {
namespace {

const std::string list = R"(# our way
Title: Lining a cavity
Assistant: sets out the lining paste
Clinician: rinses the cavity, 8-12 s
Assistant: holds the suction
Clinician: dries it, 5 s
Assistant: mixes the lining paste, 10 s
Assistant: passes the lining paste, 2 s
Assistant: passes a plugger
Clinician: lines the cavity, 1 min
Assistant: takes back the plugger
Clinician: looks at it
Assistant: counts the instruments
Second assistant: puts away the lining paste, 4 s
)";

std::string said(const std::string& text) {
  const auto made = scenario_from_outline(text, "mine", "Mine");
  EXPECT_EQ(made.scenario.empty(), has_errors(made.problems));
  return print(made.problems, "list", text);
}

TEST(Outline, BecomesAScenario) {
  const auto made = scenario_from_outline(list, "mine", "unused");
  ASSERT_EQ(print(made.problems, "list", list), "");
  const auto p = read_well(made.scenario);
  EXPECT_EQ(p.id, "mine");
  EXPECT_EQ(p.title, "Lining a cavity");
  ASSERT_EQ(p.steps.size(), 12u);
  const auto& rinse = p.step(step_named(p, "rinses-the-cavity"));
  EXPECT_EQ(rinse.takes.least, Ms{8000});
  EXPECT_EQ(rinse.takes.usual, Ms{10'000});
  EXPECT_EQ(rinse.takes.most, Ms{12'000});
  const auto& lines = p.step(step_named(p, "lines-the-cavity"));
  EXPECT_EQ(lines.takes.usual, Ms{60'000});
  int handed = 0;
  for (const auto& need : lines.needs) handed += need.kind == Need::Kind::supply ? 1 : 0;
  EXPECT_EQ(handed, 2);
  const auto& suction = p.step(step_named(p, "holds-the-suction"));
  EXPECT_EQ(suction.verb, Verb::suction);
  EXPECT_EQ(suction.covers, std::vector<StepIx>{step_named(p, "dries-it")});
}

TEST(Outline, TellsEveryProblemAtItsPlace) {
  EXPECT_EQ(
      said("Clinican: rinses\nrinses\nAssistant:\nClinician: dries, 5 sec\nAssistant: passes\n"
           "Clinician: fills, 9-5 s\nAssistant: passes the mirror\n"),
      "list:1:1: error: \"clinican\" is nobody; it is the clinician, the assistant or the second "
      "assistant\n    Clinican: rinses\n    ^\n"
      "list:2:1: error: write who does it before a colon, as in \"Assistant: passes the "
      "gauze\"\n    rinses\n    ^\n"
      "list:3:11: error: nothing stands behind the colon\n    Assistant:\n              ^\n"
      "list:4:11: error: \"5 sec\" is not a duration; write 5 s\n    Clinician: dries, 5 sec\n"
      "              ^\n"
      "list:5:11: error: say what, behind \"passes\"\n    Assistant: passes\n              ^\n"
      "list:6:11: error: a duration has more than no time, the shorter first\n    Clinician: "
      "fills, 9-5 s\n              ^\n"
      "list:7:11: error: nobody takes it: a line of the clinician's must follow\n    Assistant: "
      "passes the mirror\n              ^\n");
}

TEST(Outline, NeedsAClinician) {
  EXPECT_EQ(
      said("Assistant: counts the files\n"),
      "list: error: no line of the clinician's; write at least one, as in \"Clinician: rinses, "
      "10 s\"\n");
}

// What only the whole scenario shows is told of the list, whose lines its author knows.
TEST(Outline, WhatCannotBePlayedIsToldOfTheList) {
  const std::string text =
      "Clinician: looks, 5 s\n# a remark\nAssistant: mixes the alginate, 45 s, good for 90 s\n"
      "Assistant: passes the alginate, 3 s\nClinician: seats it and holds it, 2-3 min\n";
  const auto made = scenario_from_outline(text, "mine", "Mine");
  const auto reading = read(made.scenario);
  ASSERT_FALSE(reading.procedure);
  EXPECT_EQ(
      print(told_of_list(reading.problems, made), "list", text),
      "list:5:11: error: alginate has set 1 min 30 s after mixes-the-alginate (line 3), but "
      "seats-it-and-holds-it cannot end sooner than 2 min 3 s after it: pass-alginate (3 s, "
      "line 4) and seats-it-and-holds-it (2 min, line 5); where it only has to be in its place "
      "by then, let what follows be a step of its own\n"
      "    Clinician: seats it and holds it, 2-3 min\n              ^\n");
}

TEST(Outline, SaysWhatItDoesNotKnowAndWhatARangeLooksLike) {
  EXPECT_EQ(said("Assistant: juggles the mirror\nClinician: looks, 2 to 3 minutes\n"),
            "list:1:11: warning: \"juggles\" is none of the deeds an assistant's line begins with; "
            "taken as a check, with nothing in the hand\n    Assistant: juggles the mirror\n"
            "              ^\n"
            "list:2:11: error: \"2 to 3 minutes\" is no duration; write a range as in 2-3 min\n"
            "    Clinician: looks, 2 to 3 minutes\n              ^\n");
}

// Nothing of the clinician's follows: what is left comes one after the other.
TEST(Outline, ItsEndIsInOrderAndItsIdsAreWholeWords) {
  const auto p =
      read_well(scenario_from_outline(
                    "Clinician: takes the tray out, 10 s\nAssistant: rinses the impression\n"
                    "Assistant: places the impression into the disinfectant bath\n",
                    "mine", "Mine")
                    .scenario);
  const auto rinse = step_named(p, "rinses-the-impression");
  const auto bath = step_named(p, "places-the-impression-into-the");
  EXPECT_TRUE(p.precedes(step_named(p, "takes-the-tray-out"), rinse));
  EXPECT_TRUE(p.precedes(rinse, bath));
}

// Words in any order: a scenario or reasons, and what is written can always be read as YAML.
TEST(Outline, OfAnyWordsIsAScenarioOrRefused) {
  const std::vector<std::string> words{"Clinician:",
                                       "Assistant:",
                                       "Second assistant:",
                                       "passes",
                                       "mixes",
                                       "the",
                                       "gauze",
                                       ",",
                                       "5 s",
                                       "\n",
                                       "\n",
                                       "\n",
                                       "Title:",
                                       "\"x\": {",
                                       "# no",
                                       "holds the suction",
                                       "ñandú",
                                       "-",
                                       "'",
                                       "1-2 s"};
  int made = 0;
  for (std::uint64_t i = 0; i < 300; ++i) {
    std::string text = "Clinician: looks, 5 s\n";
    for (std::uint64_t j = 0; j < 20; ++j)
      text += words[keyed_bits({i, j, 0}) % words.size()] + " ";
    const auto out = scenario_from_outline(text, "mine", "Mine");
    EXPECT_NE(out.scenario.empty(), !has_errors(out.problems));
    if (out.scenario.empty()) continue;
    ++made;
    for (const auto& problem : read(out.scenario).problems)
      EXPECT_EQ(problem.message.english().find("YAML"), std::string::npos) << text << out.scenario;
  }
  EXPECT_GT(made, 0);
}

}  // namespace
}  // namespace beforehand::procedure
