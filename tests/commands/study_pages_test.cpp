// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// Studies as pages: well-formed, no script, every picture with a title, a description and its
// figures as a table.
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <pugixml.hpp>
#include <sstream>

#include "process.hpp"

namespace beforehand {
namespace {

const std::string smallest = PROJECT_DIR "/tests/scenarios/good/tiny.yaml";

/// The page as a tree, after the checks that hold for every page.
pugi::xml_document page_of(const std::vector<std::string>& arguments) {
  const auto done = run(arguments);
  EXPECT_EQ(done.code, 0) << done.err;
  pugi::xml_document page;
  const auto body = done.out.substr(done.out.find("<html"));  // the doctype is no XML
  const auto parsed = page.load_string(body.c_str(), pugi::parse_full);
  EXPECT_TRUE(parsed) << parsed.description() << " at " << parsed.offset;
  EXPECT_TRUE(page.select_nodes("//script").empty());
  EXPECT_EQ(page.select_nodes("//h1").size(), 1u);
  for (const auto& svg :
       page.select_nodes("//*[local-name()='svg' and not(ancestor::*[local-name()='svg'])]")) {
    EXPECT_FALSE(svg.node().child("title").text().empty());
    EXPECT_FALSE(svg.node().child("desc").text().empty());
  }
  EXPECT_EQ(page.select_nodes("//figure").size(), page.select_nodes("//figure//table").size());
  return page;
}

TEST(StudyPages, ManyRuns) {
  const auto page = page_of({"simulate", smallest, "--assistant", "expert", "--assistant", "late:3",
                             "--runs", "100", "--format", "html"});
  EXPECT_EQ(page.select_nodes("//figure").size(), 7u);  // a measure each
}

TEST(StudyPages, TwoProtocols) {
  const auto page = page_of({"compare", smallest, smallest, "--runs", "100", "--format", "html"});
  EXPECT_EQ(page.select_nodes("//figure").size(), 2u);  // both plans; no step differs
}

TEST(StudyPages, WaysToImprove) {
  const auto page = page_of({"improve", smallest, "--runs", "50", "--format", "html"});
  EXPECT_EQ(page.select_nodes("//figure").size(), 1u);
}

TEST(StudyPages, TimedCases) {
  const auto file = std::filesystem::temp_directory_path() / "beforehand-study-page.csv";
  std::ofstream(file) << "person,step,start,end\nclinician,rinse,0,12\nassistant,mix-liner,4,12\n";
  const auto page =
      page_of({"observe", "--import", file.string(), "--scenario", smallest, "--format", "html"});
  EXPECT_EQ(page.select_nodes("//figure").size(), 1u);
  EXPECT_FALSE(page.select_nodes("//table[caption[contains(., 'By step')]]").empty());
  std::filesystem::remove(file);
}

TEST(StudyPages, ComeInSpanishToo) {
  const auto file = std::filesystem::temp_directory_path() / "beforehand-study-page-es.csv";
  std::ofstream(file) << "person,step,start,end\nclinician,rinse,0,12\nassistant,mix-liner,4,12\n";
  const std::vector<std::pair<std::vector<std::string>, std::string>> pages = {
      {{"simulate", smallest, "--assistant", "late:3", "--runs", "50"}, "Dónde espera el clínico"},
      {{"compare", smallest, smallest, "--runs", "50"}, "Dos protocolos comparados"},
      {{"improve", smallest, "--runs", "20"}, "Formas de mejorar: "},
      {{"observe", "--import", file.string(), "--scenario", smallest}, "Cuánto duraron los pasos"}};
  for (auto [arguments, title] : pages) {
    arguments.insert(arguments.end(), {"--format", "html", "--language", "es"});
    const auto page = page_of(arguments);
    EXPECT_STREQ(page.document_element().attribute("lang").value(), "es") << arguments[0];
    std::ostringstream text;
    page.save(text);
    EXPECT_NE(text.str().find(title), std::string::npos) << arguments[0];
    EXPECT_NE(text.str().find("la ley sobre tareas delegadas"), std::string::npos) << "cautions";
    for (const auto* gone : {"?report", "clinician waits", "Chair time", "95 % sure", "Least"})
      EXPECT_EQ(text.str().find(gone), std::string::npos) << arguments[0] << ": " << gone;
  }
  std::filesystem::remove(file);
  const auto none = run({"simulate", smallest, "--assistant", "expert", "--runs", "5", "--format",
                         "html", "--language", "xx"});
  EXPECT_EQ(none.code, 2);
  EXPECT_NE(none.err.find("only in en and es"), std::string::npos) << none.err;
}

TEST(StudyPages, PicturesOfTheirOwn) {
  for (const auto& arguments :
       {std::vector<std::string>{"simulate", smallest, "--assistant", "expert", "--runs", "50",
                                 "--format", "svg"},
        std::vector<std::string>{"improve", smallest, "--runs", "50", "--format", "svg"}}) {
    const auto done = run(arguments);
    EXPECT_EQ(done.code, 0) << done.err;
    pugi::xml_document svg;
    EXPECT_TRUE(svg.load_string(done.out.c_str()));
    EXPECT_FALSE(svg.document_element().child("title").text().empty());
  }
}

}  // namespace
}  // namespace beforehand
