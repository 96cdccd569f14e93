// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// Where things lie, what the tooth is called, and whether the shipped scenarios are fit for
// practising.
#include "shipped_scenarios.hpp"

#include <filesystem>
#include <regex>
#include <set>

#include "procedure/advice.hpp"
#include "procedure/materials.hpp"
#include "procedure/texts.hpp"
#include "procedure/tooth.hpp"
#include "timing/advice.hpp"
#include "timing/doubts.hpp"

namespace beforehand::procedure {
namespace {

class Room : public EveryScenario {};

INSTANTIATE_TEST_SUITE_P(Shipped, Room, testing::ValuesIn(shelf), test_name);

TEST(Shelf, HoldsEveryFolderOfScenarios) {
  std::vector<std::string> folders, named = shelf;
  for (const auto& entry :
       std::filesystem::directory_iterator(std::string(PROJECT_DIR) + "/scenarios")) {
    if (std::filesystem::exists(entry.path() / "scenario.yaml"))
      folders.push_back(entry.path().filename().string());
  }
  std::sort(folders.begin(), folders.end());
  std::sort(named.begin(), named.end());
  EXPECT_EQ(folders, named);
}

TEST_P(Room, IsNeitherTooShortNorTooLongAndChecksWithoutWarning) {
  EXPECT_GE(p.steps.size(), 12u);
  EXPECT_LE(p.steps.size(), 80u);
  const auto reading = read(text_of(GetParam()));
  EXPECT_TRUE(reading.problems.empty()) << print(reading.problems, GetParam(), "");
}

// Everything `check` warns of besides, on the shelf: what is left is meant, and
// scenarios/README.md says why.
TEST(Shelf, WhatCheckStillWarnsOfIsMeant) {
  const auto generic =
      read_materials(load_text(std::string(PROJECT_DIR) + "/scenarios/materials/generic.yaml"));
  ASSERT_TRUE(generic.materials);
  std::set<std::string> said;
  for (const auto& id : shelf) {
    const auto p = scenario(id);
    for (const auto& problems : {timing::doubts(p), timing::advice(p), advice(p),
                                 compare_with_published(p, *generic.materials)})
      for (const auto& problem : problems)
        said.insert(id + ": " +
                    problem.message.english().substr(0, problem.message.english().find(" for ")));
  }
  EXPECT_EQ(said, (std::set<std::string>{"chair-emergency: assistant has nothing to do",
                                         "chair-emergency: second has nothing to do",
                                         "fissure-sealant: assistant has nothing to do"}));
}

// ---- room --------------------------------------------------------------------------------------

struct Arc {
  Zone zone;
  double from, to;  ///< clock hours, clockwise
};

// Finkbeiner, J Contemp Dent Pract 2000;1(4) (bounds from memory); for a left-handed operator
// mirrored, h -> 12 - h.
constexpr Arc right_handed[] = {{Zone::operator_zone, 7, 12},
                                {Zone::static_zone, 12, 14},
                                {Zone::assistant_zone, 2, 4},
                                {Zone::transfer_zone, 4, 7}};
constexpr Arc left_handed[] = {{Zone::operator_zone, 12, 17},
                               {Zone::static_zone, 10, 12},
                               {Zone::assistant_zone, 8, 10},
                               {Zone::transfer_zone, 5, 8}};

bool lies_in(const Arc& arc, double hour) {
  return (hour >= arc.from && hour <= arc.to) || (hour + 12 >= arc.from && hour + 12 <= arc.to);
}

TEST(Zones, EitherSetOfArcsGoesOnceRoundTheClock) {
  for (const auto* arcs : {right_handed, left_handed}) {
    double hours = 0;
    for (int i = 0; i < 4; ++i) hours += arcs[i].to - arcs[i].from;
    EXPECT_EQ(hours, 12);
  }
}

TEST_P(Room, PlacesLieInTheZonesTheyName) {
  for (const auto& place : p.places) {
    for (const auto& arc : right_handed) {
      if (arc.zone == place.zone) {
        EXPECT_TRUE(lies_in(arc, place.clock_hour)) << place.id;
      }
    }
    for (const auto& arc : left_handed) {
      if (arc.zone == place.zone) {
        EXPECT_TRUE(lies_in(arc, 12 - place.clock_hour)) << place.id;
      }
    }
  }
}

// Motions of classes I to III only, but for the store (Finkbeiner 2000; classes by common
// convention).
TEST_P(Room, NothingNeededNowTakesMoreThanTheForearm) {
  for (const auto& place : p.places) {
    if (place.kind != PlaceKind::store) {
      EXPECT_LE(place.motion, Motion::iii) << place.id;
    }
  }
}

// ISO 3950: the number in the summary names one tooth in both systems, and the system is said.
TEST_P(Room, ToothIsNamedInBothSystems) {
  if (GetParam() == "chair-emergency" || GetParam() == "room-turnover")
    GTEST_SKIP() << "no tooth is treated";
  std::smatch found;
  const std::regex pattern(R"((\d\d) by FDI \([^)]*?(\d+) in the Universal system\))");
  ASSERT_TRUE(std::regex_search(p.summary, found, pattern)) << p.summary;
  const auto tooth = tooth_from_fdi(std::stoi(found[1]));
  ASSERT_TRUE(tooth);
  EXPECT_EQ(universal_number(*tooth), std::stoi(found[2]));
  EXPECT_NE(p.plan.find(found[1].str() + " by FDI"), std::string::npos) << p.plan;
}

// ---- fit for practising ------------------------------------------------------------------------

TEST_P(Room, EveryStepOfTheAssistantSaysWhenAndWhy) {
  for (const auto& s : p.steps) {
    EXPECT_FALSE(s.title.empty() || s.why.empty()) << s.id;
    if (!is_assistants(p, s)) continue;
    EXPECT_FALSE(s.cue.empty()) << s.id;
    if (s.severity == Severity::critical) {
      EXPECT_FALSE(s.caution.empty()) << s.id;
    }
  }
}

TEST_P(Room, CautionsDeferToLeafletLawAndClinician) {
  std::string all;
  for (const auto& c : p.cautions) all += c + "\n";
  for (const auto* word : {"leaflet", "law", "clinician", "permission"}) {
    EXPECT_NE(all.find(word), std::string::npos) << word;
  }
}

std::size_t keys_of_the_assistant(const Procedure& p) {
  return static_cast<std::size_t>(
      std::count_if(p.actions.begin(), p.actions.end(), [&](const ActionKind& a) {
        return std::any_of(a.steps.begin(), a.steps.end(),
                           [&](StepIx s) { return is_assistants(p, p.step(s)); });
      }));
}

Ms clinicians_time_at_full_pace(const Procedure& p) {
  Ms total{0};
  for (const auto& s : p.steps) {
    const bool at_chair = !is_assistants(p, s) || s.verb == Verb::light || s.verb == Verb::dry;
    if (at_chair && !s.lapse && s.when.empty()) total += s.takes.usual;
  }
  return total;
}

// Another language mirrors every text (procedure/texts.hpp says what is missing).
TEST_P(Room, SpanishIsComplete) {
  const auto path = std::string(PROJECT_DIR) + "/scenarios/" + GetParam() + "/es.yaml";
  const auto text = load_text(path);
  const auto reading = read_texts(text, p);
  EXPECT_TRUE(reading.problems.empty()) << print(reading.problems, path, text);
  ASSERT_TRUE(reading.texts);
  EXPECT_EQ(reading.texts->language, "es");
  EXPECT_EQ(text.find("complete: false"), std::string::npos);
}

// A name would stand out by its capital letter: inside a sentence only these have one.
void expect_no_names(const std::string& text, const std::string& where) {
  static const std::set<std::string> known{"FDI", "Universal", "I", "J"};
  static const std::regex inside(R"([a-z0-9,;)%] ([A-Z][A-Za-z]*))");
  for (std::sregex_iterator word(text.begin(), text.end(), inside), end; word != end; ++word) {
    EXPECT_TRUE(known.count((*word)[1])) << where << ": " << (*word)[1];
  }
}

TEST_P(Room, NobodyAndNothingIsNamed) {
  auto copy = p;
  for (const auto& slot : text_slots(copy)) expect_no_names(*slot.text, slot.path);
  const auto spanish =
      load_text(std::string(PROJECT_DIR) + "/scenarios/" + GetParam() + "/es.yaml");
  const auto reading = read_texts(spanish, p);
  ASSERT_TRUE(reading.texts);
  for (const auto& entry : reading.texts->entries) expect_no_names(entry.text, entry.path);
}

TEST(FissureSealant, IsAStarter) {
  const auto p = scenario("fissure-sealant");
  EXPECT_GE(p.steps.size(), 12u);
  EXPECT_LE(p.steps.size(), 18u);
  EXPECT_LE(keys_of_the_assistant(p), 24u);
}

TEST(ClassII, IsAWholeFillingInEightToTwelveMinutes) {
  const auto p = scenario("class-ii-composite");
  EXPECT_GE(p.steps.size(), 40u);
  EXPECT_LE(p.steps.size(), 60u);
  EXPECT_GE(p.signals.size(), 2u);
  EXPECT_LE(keys_of_the_assistant(p), 40u);
  EXPECT_GE(clinicians_time_at_full_pace(p), 8min);
  EXPECT_LE(clinicians_time_at_full_pace(p), 11min);
}

}  // namespace
}  // namespace beforehand::procedure
