// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "picture/report.hpp"

#include <gtest/gtest.h>

#include <cstring>
#include <pugixml.hpp>
#include <sstream>

#include "../records/stores.hpp"

namespace beforehand::picture {
namespace {

using records::Person;
using records::Store;

const Strings english = Strings::load(PROJECT_DIR "/assets/strings/en.txt");
const Strings spanish = Strings::load(PROJECT_DIR "/assets/strings/es.txt");

constexpr const char* hostile = "<script>alert('x')</script> & \"Ana\" =1+1";

// The page as XML, which it also is, so that a parser of another's finds what is not closed.
pugi::xml_document parsed(const std::string& page) {
  pugi::xml_document d;
  const auto result = d.load_string(page.c_str(), pugi::parse_full);
  EXPECT_TRUE(result) << result.description() << " at "
                      << page.substr(static_cast<std::size_t>(result.offset), 200);
  return d;
}

// What every page of a report must be.
void expect_sound(const std::string& page) {
  EXPECT_EQ(page.rfind("<!DOCTYPE html>", 0), 0u);
  const auto d = parsed(page);
  EXPECT_TRUE(d.select_nodes("//script|//link|//img|//iframe|//@onclick|//@onload").empty());
  EXPECT_FALSE(d.select_nodes("//h1").empty());
  EXPECT_NE(page.find("clinician's direction come first"), std::string::npos) << "cautions";
  // Nothing is fetched: the only address is the name of SVG.
  for (std::size_t at = 0; (at = page.find("://", at)) != std::string::npos; ++at)
    EXPECT_EQ(page.compare(at - 4, 30, "http://www.w3.org/2000/svg\" wi"), 0)
        << page.substr(at - 9, 60);
  EXPECT_EQ(page.find("url("), std::string::npos);
  for (const auto& figure : d.select_nodes("//figure")) {
    const auto f = figure.node();
    EXPECT_STRNE(f.select_node(".//svg/title").node().child_value(), "");
    EXPECT_STRNE(f.select_node(".//svg/desc").node().child_value(), "");
    EXPECT_FALSE(f.select_nodes(".//table/tbody/tr").empty());
    EXPECT_STRNE(f.select_node(".//table/caption").node().child_value(), "");
  }
  for (const auto& table : d.select_nodes("//table")) {
    const auto columns = table.node().select_nodes("thead/tr/th").size();
    EXPECT_GT(columns, 1u);
    for (const auto& row : table.node().select_nodes("tbody/tr"))
      EXPECT_EQ(row.node().select_nodes("th|td").size(), columns);
  }
}

struct Report : testing::Test {
  test::Folder folder;
  Store store = Store::open(folder.file("records.db"), test::ticking());
  records::Library library{store};
  Person ana = store.add_person(Person::Part::trainee, hostile);

  records::Id play(const Person& who, const std::string& bot, std::uint64_t seed = 1) {
    const auto drill = test::drilled_tiny(who, store.now(), bot, seed);
    store.save(drill);
    return drill.record.id;
  }
};

TEST_F(Report, OfASession) {
  const auto id = play(ana, "late:3");
  const auto page = session_report(session_file(store, library, id), english);
  expect_sound(page);
  EXPECT_EQ(parsed(page).select_nodes("//figure").size(), 1u);
  EXPECT_NE(page.find("What to change"), std::string::npos);
  EXPECT_EQ(page.find("<script>"), std::string::npos);
  EXPECT_NE(page.find("&lt;script&gt;alert"), std::string::npos);
}

TEST_F(Report, OfATrainee) {
  for (int i = 0; i < 4; ++i) play(ana, "late:3", static_cast<std::uint64_t>(i));
  for (int i = 0; i < 16; ++i) play(ana, "expert", static_cast<std::uint64_t>(i));
  const auto file = trainee_file(store, library, ana);
  const auto page = trainee_report(file, english);
  expect_sound(page);
  EXPECT_EQ(page.find("<script>"), std::string::npos);
  EXPECT_NE(page.find("4.9 % of cases"), std::string::npos) << "the false-pass chance";
  EXPECT_NE(page.find("complete since attempt"), std::string::npos);
  ASSERT_EQ(file.scenarios.size(), 1u);
  EXPECT_EQ(file.scenarios[0].counted.size(), 20u);
  ASSERT_TRUE(file.scenarios[0].curve);
}

TEST_F(Report, OfATraineeWithoutADrillSaysWhatToDo) {
  const auto page = trainee_report(trainee_file(store, library, ana), english);
  expect_sound(page);
  EXPECT_NE(page.find("Play one"), std::string::npos);
}

TEST_F(Report, OfAClassInPicturesOfTen) {
  std::vector<Person> people{ana};
  for (int i = 0; i < 11; ++i)
    people.push_back(store.add_person(Person::Part::trainee, "Trainee " + std::to_string(i)));
  for (const auto& p : people) play(p, "expert");
  const auto page = cohort_report(cohort_file(store, library, {}), english);
  expect_sound(page);
  const auto d = parsed(page);
  EXPECT_EQ(d.select_nodes("//figure").size(), 2u) << "ten trainees a picture";
  EXPECT_EQ(page.find("<script>"), std::string::npos);
  expect_sound(cohort_report({}, english));
}

// Every text of the pages' own, and none of another language.
void expect_all_in(const std::string& page, const Strings& t, const Strings& other) {
  const auto d = parsed(page);
  EXPECT_EQ(d.document_element().attribute("lang").value(), t("language.code"));
  EXPECT_TRUE(t.missing().empty()) << t.missing().begin()->first;
  for (const auto& [key, text] : other.all()) {
    const bool tells = key.starts_with("report.") && text.size() >= 12 &&
                       text.find_first_of("{&'\"<") == std::string::npos && t(key) != text;
    if (tells) {
      EXPECT_EQ(page.find(">" + text + "<"), std::string::npos) << key;
    }
  }
}

TEST_F(Report, EveryPageComesInTheLanguageAskedFor) {
  auto drill = test::drilled_tiny(ana, store.now(), "late:3");
  drill.evidence.around.set_up =
      records::TaskRecord{3, 5, Ms{41'000}, {{"missing", {"Espejo"}}, {"superfluous", {"Lima"}}}};
  drill.evidence.around.turnover =
      records::TaskRecord{2, 3, Ms{9'000}, {{"wrong", {"Aguja", "waste", "sharps", "soiled"}}}};
  store.save(drill);
  for (int i = 0; i < 9; ++i)
    play(ana, i % 3 == 0 ? "absent" : "late:2", static_cast<std::uint64_t>(i));
  const auto bo = store.add_person(Person::Part::trainee, "Bo Lind");
  for (const auto* t : {&english, &spanish}) {
    const auto& other = t == &english ? spanish : english;
    for (const auto& page :
         {session_report(session_file(store, library, drill.record.id), *t),
          trainee_report(trainee_file(store, library, ana), *t),
          trainee_report(trainee_file(store, library, bo), *t),
          cohort_report(cohort_file(store, library, {}), *t), cohort_report({}, *t)})
      expect_all_in(page, *t, other);
  }
  const auto page = session_report(session_file(store, library, drill.record.id), spanish);
  EXPECT_NE(page.find("La bandeja: 3 de 5 cosas necesarias, en orden de uso, en 0:41"),
            std::string::npos);
  EXPECT_NE(page.find("Aguja: elegiste Residuos. Lo correcto:"), std::string::npos)
      << page.substr(page.size() - 900);
}

}  // namespace
}  // namespace beforehand::picture
