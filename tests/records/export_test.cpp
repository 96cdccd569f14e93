// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "records/export.hpp"

#include <fstream>
#include <nlohmann/json.hpp>

#include "stores.hpp"

namespace beforehand::records {
namespace {

using nlohmann::json;

// A drill of a bot as it is exported, owning what the export points to.
struct Sample {
  explicit Sample(const std::string& name, const std::string& bot = "late:3")
      : procedure(test::tiny()) {
    Person ana;
    ana.id = "0190f000-0000-7000-8000-000000000001";
    ana.name = name;
    saved = test::drilled_tiny(ana, Moment{std::chrono::milliseconds{1'772'442'000'000}}, bot);
    session = drill::from_text(saved.evidence.recording, procedure, "here");
  }
  ExportSession get() const {
    return {saved.record, name_, saved.evidence.needs, &procedure, &session};
  }
  Sample& named(const std::string& name) {
    name_ = name;
    return *this;
  }
  procedure::Procedure procedure;
  NewSession saved;
  drill::Session session;
  std::string name_ = "Ana Petrov";
};

// RFC 4180, read by a reader of the test's own.
std::vector<std::vector<std::string>> read_csv(const std::string& text) {
  std::vector<std::vector<std::string>> rows;
  std::size_t i = 0;
  while (i < text.size()) {
    rows.emplace_back();
    for (;;) {
      std::string cell;
      if (text.at(i) == '"') {
        for (++i; text.at(i) != '"' || (i + 1 < text.size() && text[i + 1] == '"'); ++i) {
          if (text[i] == '"') ++i;
          cell += text.at(i);
        }
        ++i;
      } else {
        while (text.at(i) != ',' && text[i] != '\r') {
          EXPECT_NE(text[i], '"') << "a quote in a field without quotes";
          cell += text[i++];
        }
      }
      rows.back().push_back(cell);
      if (text.at(i++) == ',') continue;
      EXPECT_EQ(text.at(i++), '\n') << "lines end in CR LF";
      break;
    }
  }
  return rows;
}

// What xmllint says against the log by our rules; empty: nothing.
std::string objections(const std::string& log) {
  test::Folder folder;
  std::ofstream(folder.file("log.xes")) << log;
  const auto command = "xmllint --noout --relaxng '" + std::string(PROJECT_DIR) +
                       "/tests/records/xes_rules.rng' '" + folder.file("log.xes") + "' 2>'" +
                       folder.file("said") + "'";
  if (std::system(command.c_str()) == 0) return {};
  std::ifstream said(folder.file("said"));
  return {std::istreambuf_iterator<char>(said), {}};
}

TEST(ExportXes, IsValidAndTellsEveryStepWithItsTime) {
  Sample sample("Ana");
  const auto log = to_xes({sample.get()});
  EXPECT_EQ(objections(log), "");
  EXPECT_NE(log.find("<log xes.version=\"1849.2016\""), std::string::npos);
  EXPECT_EQ(log.find("xmlns"), std::string::npos);
  std::size_t events = 0;
  for (std::size_t at = 0; (at = log.find("<event>", at)) != std::string::npos; ++at) ++events;
  EXPECT_GE(events, sample.procedure.steps.size());
  for (const auto& step : sample.procedure.steps) {
    if (!step.when.empty()) continue;
    EXPECT_NE(log.find(step.title), std::string::npos) << step.title;
  }
  EXPECT_NE(log.find("2026-03-02T09:00:"), std::string::npos);
}

TEST(ExportXes, HostileNamesStayText) {
  Sample sample("Ana");
  const auto log = to_xes({sample.named("</trace><x y=\"&'\x01").get()});
  EXPECT_EQ(objections(log), "");
  EXPECT_EQ(log.find("</trace><x"), std::string::npos);
}

// The rules must be able to find fault, or the check above would say nothing.
TEST(ExportXes, TheRulesRefuseWhatTheStandardDoes) {
  Sample sample("Ana");
  const auto log = to_xes({sample.get()});
  const auto changed = [&](const std::string& what, const std::string& to) {
    auto text = log;
    const auto at = text.find(what);
    EXPECT_NE(at, std::string::npos) << what;
    return text.replace(at, what.size(), to);
  };
  EXPECT_NE(objections(changed("1849.2016", "1849-2016")), "");
  EXPECT_NE(objections(changed("<log ", "<log xmlns=\"http://www.xes-standard.org/\" ")), "");
  EXPECT_NE(objections(changed("<float key=\"total\" value=\"", "<float key=\"total\" value=\"x")),
            "");
  EXPECT_NE(objections(changed("<date key=\"started\" value=\"2026-",
                               "<date key=\"started\" value=\"26-")),
            "");
}

TEST(ExportXapi, OneStatementASessionAndNoMoreThanAsked) {
  Sample sample("Ana", "expert");
  const auto list = json::parse(to_xapi({sample.get()}, std::string(xapi_home), false));
  ASSERT_EQ(list.size(), 1u);
  const auto& s = list[0];
  EXPECT_EQ(s["id"], sample.saved.record.id);
  EXPECT_EQ(s["version"], "1.0.3");
  EXPECT_EQ(s["verb"]["id"], "http://adlnet.gov/expapi/verbs/passed");
  EXPECT_EQ(s["result"]["success"], true);
  EXPECT_DOUBLE_EQ(s["result"]["score"]["scaled"].get<double>() * 100, s["result"]["score"]["raw"]);
  EXPECT_FALSE(s["actor"].contains("name")) << "pseudonyms unless names are asked for";
  EXPECT_FALSE(s["actor"].contains("mbox"));
  const auto named = json::parse(to_xapi({sample.get()}, "https://school.example", true));
  EXPECT_EQ(named[0]["actor"]["name"], "Ana Petrov");
  EXPECT_EQ(named[0]["actor"]["account"]["homePage"], "https://school.example/trainees");
}

TEST(ExportXapi, AnInterruptedDrillWasAttempted) {
  Sample sample("Ana");
  sample.saved.record.complete = false;
  const auto s = json::parse(to_xapi({sample.get()}, std::string(xapi_home), false))[0];
  EXPECT_EQ(s["verb"]["id"], "http://adlnet.gov/expapi/verbs/attempted");
  EXPECT_EQ(s["result"]["completion"], false);
  EXPECT_FALSE(s["result"].contains("success"));
}

TEST(ExportCsv, IsReadBackAsItWas) {
  Sample sample("Ana");
  const std::string name = "Petrov, \"Ana\"\r\nline two";
  const auto rows = read_csv(sessions_csv({sample.named(name).get(), sample.get()}));
  ASSERT_EQ(rows.size(), 3u);
  for (const auto& row : rows) EXPECT_EQ(row.size(), rows[0].size());
  EXPECT_EQ(rows[0][3], "trainee_name");
  EXPECT_EQ(rows[1][3], name);
  EXPECT_EQ(rows[1][0], sample.saved.record.id);
  EXPECT_NEAR(std::stod(rows[1][12]), sample.saved.record.total, 5e-4);
  const auto needs = read_csv(needs_csv({sample.get()}));
  EXPECT_EQ(needs.size(), 1 + sample.saved.evidence.needs.size());
}

TEST(ExportCsv, NoTextBecomesAFormula) {
  for (const std::string text : {"=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "\r=1", " =1", "\n=1"}) {
    const auto cell = read_csv(csv_text(text) + "\r\n")[0][0];
    EXPECT_EQ(cell, "'" + text);
  }
  EXPECT_EQ(csv_text("Ana-Maria = 1"), "Ana-Maria = 1");
  EXPECT_EQ(csv_text(""), "");
}

}  // namespace
}  // namespace beforehand::records
