// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// The command as a person runs it: what comes out, what it costs to ask wrongly, and that no plan
// it gives breaks a rule of its scenario.
#include <gtest/gtest.h>
#include <unistd.h>

#include <cmath>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <pugixml.hpp>

#include "procedure/reader.hpp"
#include "process.hpp"
#include "timing/feasible.hpp"

namespace beforehand {
namespace {

namespace fs = std::filesystem;
using nlohmann::json;
using procedure::Procedure;

const std::string tiny = PROJECT_DIR "/tests/scenarios/good/tiny.yaml";

std::vector<std::string> shipped() {
  std::vector<std::string> files;
  for (const auto& entry : fs::directory_iterator(PROJECT_DIR "/scenarios")) {
    const auto file = entry.path() / "scenario.yaml";
    if (fs::exists(file)) files.push_back(file.string());
  }
  return files;
}

Procedure read_file(const std::string& file) {
  return procedure::read(procedure::load_text(file)).procedure.value();
}

// Work that either may do, in pieces that do not divide evenly: the best of it is found at once,
// and proving it best takes longer than anybody waits.
class Hard {
 public:
  Hard() : file_(fs::temp_directory_path() / ("beforehand-hard-" + std::to_string(getpid()))) {
    std::ofstream out(file_);
    out << R"(beforehand: 1
id: hard
title: Hard to prove
summary: Invented, for testing.
plan: "As it comes."
cautions: ["An invented example: never a model for treating anybody."]
people:
  clinician: {role: clinician, name: Clinician}
  assistant: {role: assistant, name: Assistant}
places:
  tray: {name: Tray, clock: 3, zone: assistant, motion: II, kind: tray}
supplies:
  gauze: {name: Gauze, icon: gauze, at: tray}
phases:
  all: {title: All of it}
steps:
  - {id: first, title: First, phase: all, by: clinician, takes: 1 s}
)";
    for (int i = 0; i < 23; ++i) {
      out << "  - {id: check-" << i << ", title: Check " << i
          << ", phase: all, by: [assistant, clinician], does: check, takes: 20 s}\n";
    }
  }
  ~Hard() { fs::remove(file_); }
  std::string file() const { return file_.string(); }

 private:
  fs::path file_;
};

Ms milliseconds(const json& seconds) { return Ms{std::llround(seconds.get<double>() * 1000)}; }

// The plan a JSON text gives, for the check that shares nothing with the search.
timing::Plan plan_of(const Procedure& p, const json& j) {
  timing::Plan plan;
  plan.chair_time = milliseconds(j.at("chair_time_s"));
  plan.lower_bound = milliseconds(j.at("lower_bound_s"));
  plan.clinician_wait = milliseconds(j.at("clinician_wait_s"));
  plan.steps.resize(p.steps.size());
  for (const auto& s : j.at("steps")) {
    const auto step = std::find_if(p.steps.begin(), p.steps.end(),
                                   [&](const auto& x) { return x.id == s.at("id"); });
    const auto who = std::find_if(p.people.begin(), p.people.end(),
                                  [&](const auto& x) { return x.id == s.at("by"); });
    EXPECT_NE(step, p.steps.end());
    EXPECT_NE(who, p.people.end());
    plan.steps[static_cast<std::size_t>(step - p.steps.begin())] = {
        PersonIx{static_cast<std::size_t>(who - p.people.begin())}, milliseconds(s.at("start_s")),
        milliseconds(s.at("end_s")), milliseconds(s.at("earliest_s")),
        milliseconds(s.at("latest_s"))};
  }
  return plan;
}

std::vector<SignalIx> signals_of(const Procedure& p, const json& j) {
  std::vector<SignalIx> signals;
  for (std::size_t i = 0; i < p.signals.size(); ++i) {
    for (const auto& id : j.at("signals")) {
      if (p.signals[i].id == id) signals.emplace_back(i);
    }
  }
  return signals;
}

void expect_feasible(const std::string& file, const json& j) {
  const auto p = read_file(file);
  PhaseIx phase;
  for (std::size_t i = 0; i < p.phases.size(); ++i) {
    if (j.at("phase") == p.phases[i].id) phase = PhaseIx{i};
  }
  EXPECT_EQ(timing::violations(p, signals_of(p, j), plan_of(p, j), phase),
            std::vector<std::string>{})
      << file;
}

TEST(PlanCommand, JsonOfEveryShippedScenarioIsProvenAndBreaksNoRule) {
  const auto files = shipped();
  EXPECT_GE(files.size(), 2u);
  for (const auto& file : files) {
    const auto done = run({"plan", file, "--format", "json"});
    ASSERT_EQ(done.code, 0) << done.err;
    EXPECT_EQ(done.err, "");
    const auto j = json::parse(done.out);
    EXPECT_EQ(j.at("proven"), true) << file;
    EXPECT_EQ(j.at("exact_windows"), true) << file;
    EXPECT_EQ(j.at("lower_bound_s"), j.at("chair_time_s"));
    EXPECT_FALSE(j.at("critical_chain").empty());
    expect_feasible(file, j);
  }
}

TEST(PlanCommand, EveryPhaseOfEveryShippedScenarioHasItsPlan) {
  for (const auto& file : shipped()) {
    for (const auto& phase : read_file(file).phases) {
      const auto done = run({"plan", file, "--phase", phase.id, "--format", "json"});
      ASSERT_EQ(done.code, 0) << done.err;
      const auto j = json::parse(done.out);
      EXPECT_EQ(j.at("phase"), phase.id);
      EXPECT_EQ(j.at("proven"), true);
      expect_feasible(file, j);
    }
  }
}

TEST(PlanCommand, SignalsAddTheirSteps) {
  const auto usual = json::parse(run({"plan", tiny, "--format", "json"}).out);
  const auto done = run({"plan", tiny, "--signals", "bleeding", "--format", "json"});
  ASSERT_EQ(done.code, 0) << done.err;
  const auto bleeding = json::parse(done.out);
  EXPECT_EQ(bleeding.at("signals"), json::array({"bleeding"}));
  EXPECT_NE(bleeding.at("steps").size(), usual.at("steps").size());
  expect_feasible(tiny, bleeding);
}

TEST(PlanCommand, TextSaysWhatIsBestAndWhatItHangsOn) {
  const auto done = run({"plan", tiny});
  EXPECT_EQ(done.code, 0);
  EXPECT_EQ(done.err, "");
  for (const auto* part : {"proven: no plan is shorter", "What the chair time hangs on",
                           "Who has time, and who waits", "Clinician", "% standing by"}) {
    EXPECT_NE(done.out.find(part), std::string::npos) << part << " in\n" << done.out;
  }
}

TEST(PlanCommand, SvgIsWellFormedAndNamesWhatItShows) {
  for (const auto& file : shipped()) {
    const auto done = run({"plan", file, "--format", "svg"});
    ASSERT_EQ(done.code, 0);
    pugi::xml_document svg;
    ASSERT_TRUE(svg.load_string(done.out.c_str())) << file;
    EXPECT_STREQ(svg.first_child().name(), "svg");
    const auto p = read_file(file);
    EXPECT_STREQ(svg.first_child().child_value("title"), p.title.c_str());
    EXPECT_NE(std::string(svg.first_child().child_value("desc")).find("proven"), std::string::npos);
  }
}

TEST(PlanCommand, TheSameFileGivesTheSameBytes) {
  for (const auto* format : {"text", "json", "svg"}) {
    const auto once = run({"plan", shipped().front(), "--format", format});
    const auto again = run({"plan", shipped().front(), "--format", format});
    EXPECT_EQ(once.out, again.out) << format;
    EXPECT_GT(once.out.size(), 100u);
  }
}

TEST(PlanCommand, OutOfTimeItGivesTheBestFoundAndItsBound) {
  const Hard hard;
  const auto done = run({"plan", hard.file(), "--time-limit", "1.5", "--format", "json"});
  ASSERT_EQ(done.code, 0) << done.err;
  const auto j = json::parse(done.out);
  EXPECT_EQ(j.at("proven"), false);
  EXPECT_LT(j.at("lower_bound_s").get<double>(), j.at("chair_time_s").get<double>());
  EXPECT_GE(j.at("lower_bound_s").get<double>(), 231.0) << "half of the work for each";
  expect_feasible(hard.file(), j);
  const auto text = run({"plan", hard.file(), "--time-limit", "1.5"}).out;
  EXPECT_NE(text.find("best found; no plan is shorter than"), std::string::npos);
  EXPECT_EQ(text.find("proven"), std::string::npos);
}

TEST(PlanCommand, WithNoTimeAtAllThereIsNoPlan) {
  const auto done = run({"plan", tiny, "--time-limit", "0"});
  EXPECT_EQ(done.code, 3);
  EXPECT_EQ(done.out, "");
  EXPECT_NE(done.err.find("--time-limit"), std::string::npos);
}

TEST(PlanCommand, InterruptedItGivesTheBestSoFar) {
  const Hard hard;
  Setting setting;
  setting.terminal = true;
  setting.interrupt_at = ", best so far";
  const auto done = run({"plan", hard.file(), "--format", "json"}, setting);
  EXPECT_EQ(done.code, 0);
  const auto j = json::parse(done.out);
  EXPECT_EQ(j.at("proven"), false);
  expect_feasible(hard.file(), j);
}

TEST(PlanCommand, ProgressIsForATerminalOnly) {
  Setting setting;
  setting.terminal = true;
  const auto seen = run({"plan", tiny, "--format", "json"}, setting);
  EXPECT_NE(seen.err.find("chair time: not less than"), std::string::npos);
  EXPECT_NE(seen.err.find("Ctrl-C"), std::string::npos);
  EXPECT_NO_THROW(json::parse(seen.out));
  EXPECT_EQ(run({"plan", tiny, "--format", "json"}).err, "");
}

TEST(PlanCommand, WrongUsageAndBadFilesAreToldApart) {
  EXPECT_EQ(run({"plan"}).code, 2);
  EXPECT_EQ(run({"plan", tiny, "--format", "pdf"}).code, 2);
  EXPECT_EQ(run({"plan", tiny, "--time-limit", "soon"}).code, 2);
  const auto signal = run({"plan", tiny, "--signals", "rain"});
  EXPECT_EQ(signal.code, 2);
  EXPECT_NE(signal.err.find("it has bleeding"), std::string::npos) << signal.err;
  EXPECT_EQ(run({"plan", tiny, "--phase", "dessert"}).code, 2);
  const auto missing = run({"plan", "no-such-file.yaml"});
  EXPECT_EQ(missing.code, 1);
  EXPECT_NE(missing.err.find("no-such-file.yaml"), std::string::npos);
  const auto bad = run({"plan", PROJECT_DIR "/tests/scenarios/bad/cycle.yaml"});
  EXPECT_EQ(bad.code, 1);
  EXPECT_EQ(bad.out, "");
  EXPECT_NE(bad.err.find("cycle.yaml:"), std::string::npos) << "with the place";
  EXPECT_EQ(run({"plan", "--help"}).code, 0);
}

}  // namespace
}  // namespace beforehand
