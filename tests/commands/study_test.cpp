// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// Studies of a team's own way of working, and in its own language.
#include <gtest/gtest.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "folder.hpp"

namespace beforehand {
namespace {

using nlohmann::json;

const std::string smallest_text =
    procedure::load_text(PROJECT_DIR "/tests/scenarios/good/tiny.yaml");

constexpr const char* card = R"(card: 2
id: mine
title: My way
scenario: tiny
places:
  cabinet: {motion: V}  # in the next room
steps:
  - {change: rinse, takes: 20 s, says: "Water."}
  - {change: mix-liner, after: [rinse]}
)";

// ---- improve SCENARIO+CARD ---------------------------------------------------------------------

class WithACard : public testing::Test {
 protected:
  WithACard() {
    folder.save("scenario.yaml", smallest_text);
    folder.save("cards/mine.yaml", card);
  }
  Folder folder;
};

json improvements(const Folder& folder, const std::string& file) {
  const auto done = folder.run({"improve", file, "--runs", "20", "--format", "json"});
  EXPECT_EQ(done.code, 0) << done.err;
  return json::parse(done.out);
}

// The card lets mixing wait for the rinse, and that is what can be bettered; the scenario alone
// does not.
TEST_F(WithACard, WhatCanBeBetteredIsLookedForInTheTwoTogether) {
  const auto told = improvements(folder, "scenario.yaml+mine");
  EXPECT_EQ(told["scenario"], "tiny-mine");
  ASSERT_EQ(told["improvements"].size(), 1u);
  const auto& found = told["improvements"][0];
  EXPECT_EQ(found["kind"], "earlier-cue");
  EXPECT_GT(found["plan_saves_s"], 0.0);

  for (const auto& other : improvements(folder, "scenario.yaml")["improvements"])
    EXPECT_NE(other["kind"], "earlier-cue");
}

TEST_F(WithACard, WhatIsAcceptedIsWrittenAsAScenarioOfItsOwn) {
  const auto done = folder.run({"improve", "scenario.yaml+mine", "--runs", "20", "--accept", "1",
                                "--write", "copy.yaml", "--format", "json"});
  ASSERT_EQ(done.code, 0) << done.err;
  const auto taken = json::parse(done.out)["taken"];
  EXPECT_EQ(taken["file"], "copy.yaml");

  const auto reading = procedure::read(folder.text("copy.yaml"));
  ASSERT_TRUE(reading.procedure);
  const auto& p = *reading.procedure;
  EXPECT_EQ(p.id, "tiny-mine");
  EXPECT_EQ(p.card, "");
  const auto rinse = std::find_if(p.steps.begin(), p.steps.end(),
                                  [](const procedure::Step& s) { return s.id == "rinse"; });
  ASSERT_NE(rinse, p.steps.end());
  EXPECT_EQ(rinse->says, "Water.");
  EXPECT_EQ(folder.text("scenario.yaml"), smallest_text);
  EXPECT_EQ(folder.text("cards/mine.yaml"), card);

  const auto before =
      json::parse(folder.run({"plan", "scenario.yaml", "--card", "mine", "--format", "json"}).out);
  const auto after = json::parse(folder.run({"plan", "copy.yaml", "--format", "json"}).out);
  const double saved = before["chair_time_s"].get<double>() - after["chair_time_s"].get<double>();
  EXPECT_NEAR(taken["plan_saves_s"].get<double>(), saved, 1e-9);
  EXPECT_GT(saved, 0);
}

TEST_F(WithACard, OneThatIsNotThereOrIsWrongIsSaidWithItsPlace) {
  const auto missing = folder.run({"improve", "scenario.yaml+yours", "--runs", "20"});
  EXPECT_EQ(missing.code, 1);
  EXPECT_NE(missing.err.find("yours"), std::string::npos) << missing.err;

  folder.save("cards/mine.yaml", std::string(card) + "  - {change: rinze, says: Water}\n");
  const auto wrong = folder.run({"improve", "scenario.yaml+mine", "--runs", "20"});
  EXPECT_EQ(wrong.code, 1);
  EXPECT_NE(wrong.err.find("mine.yaml:10:14: error: the scenario has no step \"rinze\""),
            std::string::npos)
      << wrong.err;
}

// ---- a case timed in Spanish -------------------------------------------------------------------

class TimedInSpanish : public testing::Test {
 protected:
  static constexpr const char* sealing = PROJECT_DIR "/scenarios/fissure-sealant/scenario.yaml";

  Outcome read(const std::string& table, const std::string& format) const {
    folder.save("caso.csv", table);
    return folder.run({"observe", "--import", "caso.csv", "--scenario", sealing, "--format", format,
                       "--language", "es"});
  }
  Folder folder;
};

constexpr const char* table = R"(person,step,start,end
Asistente,Se frota las manos y se pone guantes,0,21
Clínico,Coloca los rollos y seca el diente,23,38
clínico,GRABA LAS FISURAS,50,1:08.5
clinician,Rinses the gel off,72,92
)";

// Titles and names in Spanish, small letters or large, beside others in English.
TEST_F(TimedInSpanish, IsReadBesideTheScenarioByItsTitlesAndNames) {
  const auto done = read(table, "json");
  ASSERT_EQ(done.code, 0) << done.err;
  EXPECT_EQ(done.err, "");
  const auto told = json::parse(done.out);
  const auto& order = told["cases"][0]["order"];
  EXPECT_EQ(order["kept"], 4);
  EXPECT_EQ(order["extra"], json::array());
  EXPECT_EQ(told["cases"][0]["time"].size(), 2u);  // nobody stands there twice
  std::vector<std::pair<std::string, double>> steps;
  for (const auto& s : told["steps"]) steps.emplace_back(s["step"], s["usual_s"]);
  EXPECT_EQ(steps, (std::vector<std::pair<std::string, double>>{
                       {"rub-hands", 21}, {"isolate", 15}, {"etch", 18.5}, {"rinse", 20}}));
}

TEST_F(TimedInSpanish, ASlipOfThePenIsAskedAboutInTheWordsOfTheTable) {
  const auto done =
      read(std::string(table) + "Clínico,Extiende el selador por las fisuras,95,110\n" +
               "Paciente,Lava el gel,95,96\n",
           "json");
  ASSERT_EQ(done.code, 0) << done.err;
  EXPECT_NE(done.err.find("did you mean \"Extiende el sellador por las fisuras\"?"),
            std::string::npos)
      << done.err;
  EXPECT_NE(done.err.find("\"Paciente\" is no person of fissure-sealant"), std::string::npos);
  EXPECT_EQ(json::parse(done.out)["cases"][0]["order"]["extra"].size(), 1u);
}

TEST_F(TimedInSpanish, ItsDurationsGoIntoACopyByTheStepsThemselves) {
  folder.save("caso.csv", table);
  const auto done = folder.run(
      {"observe", "--import", "caso.csv", "--scenario", sealing, "--write", "copia.yaml"});
  ASSERT_EQ(done.code, 0) << done.err;
  const auto reading = procedure::read(folder.text("copia.yaml"));
  ASSERT_TRUE(reading.procedure);
  const auto& steps = reading.procedure->steps;
  const auto etch = std::find_if(steps.begin(), steps.end(),
                                 [](const procedure::Step& s) { return s.id == "etch"; });
  ASSERT_NE(etch, steps.end());
  EXPECT_EQ(etch->takes.usual, Ms{18'500});
}

}  // namespace
}  // namespace beforehand
