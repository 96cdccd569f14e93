// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// `replay`: what happened when, and the screen at a moment; what does not follow is refused.
#include <gtest/gtest.h>
#include <unistd.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <pugixml.hpp>

#include "drill/recording.hpp"
#include "procedure/reader.hpp"
#include "process.hpp"

namespace beforehand {
namespace {

namespace fs = std::filesystem;
using nlohmann::json;

const std::string late_sealant = PROJECT_DIR "/tests/recordings/fissure-sealant-late-4.jsonl";
const std::string expert = PROJECT_DIR "/tests/recordings/fissure-sealant-expert.jsonl";

// A file that is gone with the object.
struct File {
  std::string path =
      (fs::temp_directory_path() / ("beforehand-replay-" + std::to_string(getpid()) + ".jsonl"))
          .string();
  explicit File(const std::string& text) { std::ofstream(path, std::ios::binary) << text; }
  ~File() { fs::remove(path); }
};

procedure::Procedure the_sealant() {
  const auto file = PROJECT_DIR "/scenarios/fissure-sealant/scenario.yaml";
  return std::move(*procedure::read(procedure::load_text(file)).procedure);
}

TEST(ReplayCommand, TellsWhatHappenedInOrder) {
  const auto done = run({"replay", late_sealant, "--format", "json"});
  ASSERT_EQ(done.code, 0) << done.err;
  const auto moments = json::parse(done.out)["moments"];
  ASSERT_GT(moments.size(), 20u);
  double last = 0;
  int errors = 0;
  for (const auto& m : moments) {
    EXPECT_GE(m["at_s"].get<double>(), last);
    last = m["at_s"];
    EXPECT_NE(m["text"], "");
    errors += m["kind"] == "error" ? 1 : 0;
  }
  const auto score = json::parse(run({"score", late_sealant, "--format", "json"}).out);
  EXPECT_EQ(errors, static_cast<int>(score["errors"].size()));
  EXPECT_NEAR(last, score["chair_time_s"].get<double>(), 1e-9);
  const auto text = run({"replay", late_sealant, "--format", "text"});
  EXPECT_EQ(text.code, 0);
  EXPECT_NE(text.out.find(moments[3]["text"].get<std::string>()), std::string::npos);
}

TEST(ReplayCommand, DrawsTheScreenAtAMoment) {
  const auto early = run({"replay", late_sealant, "--format", "svg", "--at", "30"});
  ASSERT_EQ(early.code, 0) << early.err;
  pugi::xml_document svg;
  EXPECT_TRUE(svg.load_string(early.out.c_str()));
  EXPECT_NE(early.out.find("0:30"), std::string::npos);
  EXPECT_EQ(early.out, run({"replay", late_sealant, "--format", "svg", "--at", "30"}).out);
  EXPECT_NE(early.out, run({"replay", late_sealant, "--format", "svg", "--at", "31"}).out);
  const auto pair = run({"replay", late_sealant, "--beside", expert, "--format", "svg"});
  ASSERT_EQ(pair.code, 0) << pair.err;
  EXPECT_NE(pair.out.find("worse by"), std::string::npos);
}

// Forged with its checks made anew: only playing the commands again finds it.
TEST(ReplayCommand, RefusesEventsThatDoNotFollowAndNamesTheFirstFalseMoment) {
  const auto p = the_sealant();
  auto session = drill::from_text(procedure::load_text(late_sealant), p, late_sealant);
  Ms at{0};
  for (auto& e : session.events)
    if (e.what == drill::What::step_started && e.at > Ms{60'000}) {
      e.value -= 1000;
      at = e.at;
      break;
    }
  ASSERT_GT(at, Ms{60'000});
  const File forged(drill::to_text(p, session));
  for (const char* format : {"window", "text", "svg"}) {
    const auto refused = run({"replay", forged.path, "--format", format});
    EXPECT_EQ(refused.code, 1);
    EXPECT_EQ(refused.out, "");
    EXPECT_NE(refused.err.find("do not follow from its commands"), std::string::npos);
    EXPECT_NE(refused.err.find(clock_text(at)), std::string::npos) << refused.err;
  }
}

TEST(ReplayCommand, TwoSessionsAreToldBesideEachOther) {
  const auto done = run({"replay", expert, "--beside", late_sealant, "--format", "json"});
  ASSERT_EQ(done.code, 0) << done.err;
  const auto j = json::parse(done.out);
  const auto scored = json::parse(run({"score", late_sealant, "--format", "json"}).out);
  EXPECT_NEAR(j["second"]["total"], scored["score"]["total"], 1e-9);
  EXPECT_NEAR(j["second"]["clinician_wait_s"], scored["clinician_wait_s"], 1e-9);
  EXPECT_GT(j["first"]["total"], j["second"]["total"]);
  ASSERT_FALSE(j["different"].empty());
  EXPECT_EQ(j["different"][0]["first"], "ready in time");
}

TEST(ReplayCommand, AnEditedFileIsRefusedWithItsLine) {
  auto text = procedure::load_text(late_sealant);
  text.insert(text.find("\"t\":", text.find("step-started")) + 4, "1");
  const File edited(text);
  const auto refused = run({"replay", edited.path, "--format", "text"});
  EXPECT_EQ(refused.code, 1);
  EXPECT_NE(refused.err.find(edited.path + ":"), std::string::npos) << refused.err;
}

TEST(ReplayCommand, WhatWasCutOffIsPlayedUpToThere) {
  const auto text = procedure::load_text(late_sealant);
  const File cut(text.substr(0, text.size() * 2 / 3));
  const auto done = run({"replay", cut.path, "--format", "text"});
  EXPECT_EQ(done.code, 0) << done.err;
  EXPECT_GT(done.out.size(), 500u);
}

TEST(ReplayCommand, WrongUseAndAMissingDisplayAreToldApart) {
  EXPECT_EQ(run({"replay"}).code, 2);
  EXPECT_EQ(run({"replay", late_sealant, "--at", "-1"}).code, 2);
  EXPECT_EQ(run({"replay", "no-such-file.jsonl"}).code, 1);
  const char* display = std::getenv("DISPLAY");
  const std::string kept = display ? display : "";
  unsetenv("DISPLAY");
  const auto blind = run({"replay", late_sealant});
  if (display) setenv("DISPLAY", kept.c_str(), 1);
  EXPECT_EQ(blind.code, 3);
  EXPECT_FALSE(blind.err.empty());
}

}  // namespace
}  // namespace beforehand
