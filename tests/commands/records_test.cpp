// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// The commands of the store, each as a process of its own, as a trainer and a trainee use them.
#include <gtest/gtest.h>
#include <unistd.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>

#include "process.hpp"

namespace beforehand {
namespace {

using nlohmann::json;
namespace fs = std::filesystem;

const std::string sealant = PROJECT_DIR "/scenarios/fissure-sealant/scenario.yaml";

class RecordsCommands : public testing::Test {
 protected:
  RecordsCommands() {
    std::string name = (fs::temp_directory_path() / "beforehand-commands-XXXXXX").string();
    folder_ = ::mkdtemp(name.data());
    setenv("XDG_DATA_HOME", folder_.c_str(), 1);
    setenv("BEFOREHAND_STORE", (folder_ / "records.db").c_str(), 1);
    setenv("BEFOREHAND_PASSCODE", "tess's own", 1);
    setenv("BEFOREHAND_NEW_PASSCODE", "tess's own", 1);
  }
  ~RecordsCommands() override {
    for (const auto* name :
         {"XDG_DATA_HOME", "BEFOREHAND_STORE", "BEFOREHAND_PASSCODE", "BEFOREHAND_NEW_PASSCODE"})
      unsetenv(name);
    std::error_code failed;
    fs::remove_all(folder_, failed);
  }

  std::string file(const std::string& name) const { return (folder_ / name).string(); }

  // A command that is to succeed, and its JSON.
  static json told(std::vector<std::string> words) {
    words.insert(words.end(), {"--format", "json"});
    const auto done = run(words);
    EXPECT_EQ(done.code, 0) << words[1] << ": " << done.err;
    return json::parse(done.out, nullptr, false);
  }
  static json as_trainer(std::vector<std::string> words) {
    words.insert(words.end(), {"--trainer", "Tess Arn"});
    return told(std::move(words));
  }

  void set_up(const std::string& bot = "late:2") {
    told({"records", "trainer", "add", "Tess Arn"});
    ana_ = told({"records", "trainee", "add", "Ana Petrov"})["id"];
    told({"drill", sealant, "--assistant", bot, "--save", "--trainee", "Ana Petrov"});
  }
  json sessions() const { return told({"records", "list", "--trainee", "Ana Petrov"})["sessions"]; }

  fs::path folder_;
  std::string ana_;
};

// Against `score` on the same recording: what is kept is what is printed, the proven plan included.
TEST_F(RecordsCommands, ASavedDrillHasTheScoreThatScorePrints) {
  set_up();
  const auto list = sessions();
  ASSERT_EQ(list.size(), 1u);
  const auto kept = told({"records", "show", list[0]["id"]});
  std::ofstream(file("drill.jsonl")) << kept["recording"].get<std::string>();
  const auto printed = told({"score", file("drill.jsonl")});
  EXPECT_TRUE(kept["reference"]["proven"]);
  EXPECT_TRUE(printed["reference"]["proven"]);
  EXPECT_EQ(kept["reference"]["chair_time_s"], printed["reference"]["chair_time_s"]);
  EXPECT_NEAR(kept["score"]["total"].get<double>(), printed["score"]["total"].get<double>(), 0.001);
  EXPECT_EQ(kept["score"]["verdict"], printed["score"]["verdict"]);
  EXPECT_EQ(kept["needs"].size(), printed["needs"].size());
  EXPECT_EQ(run({"records", "verify"}).code, 0);
}

TEST_F(RecordsCommands, PersonGivesAllThatIsKeptAndTellsTheRest) {
  set_up();
  as_trainer({"records", "note", "--trainee", "Ana Petrov", "ask about the clamp"});
  const auto all = told({"records", "person", "Ana Petrov"});
  EXPECT_EQ(all["person"]["name"], "Ana Petrov");
  ASSERT_EQ(all["sessions"].size(), 1u);
  EXPECT_FALSE(all["sessions"][0]["recording"].get<std::string>().empty());
  EXPECT_EQ(all["notes"][0]["text"], "ask about the clamp");
  const auto text = run({"records", "person", "Ana Petrov"});
  EXPECT_EQ(text.code, 0);
  EXPECT_NE(text.out.find("ask about the clamp"), std::string::npos);
  EXPECT_EQ(run({"records", "person", "Nobody"}).code, 1);
}

TEST_F(RecordsCommands, WhoeverMayNotSeeItIsToldNothing) {
  set_up();
  setenv("BEFOREHAND_NEW_PASSCODE", "ana's own", 1);
  as_trainer({"records", "trainee", "passcode", "Ana Petrov"});
  const auto refused = run({"records", "person", "Ana Petrov"});  // Tess's code, and not as Tess
  EXPECT_EQ(refused.code, 1);
  EXPECT_EQ(refused.out, "");
  setenv("BEFOREHAND_PASSCODE", "ana's own", 1);
  EXPECT_EQ(run({"records", "person", "Ana Petrov"}).code, 0);
  EXPECT_EQ(run({"records", "list", "--trainer", "Tess Arn"}).code, 1) << "her code is not Tess's";
  EXPECT_EQ(run({"records", "list"}).code, 2) << "everybody's are for trainers";
}

TEST_F(RecordsCommands, SigningNeedsTheCriteriaOrAReasonAndIsRevokedNotErased) {
  set_up();
  const std::vector<std::string> sign = {"records",    "sign",       "--trainee",
                                         "Ana Petrov", "--scenario", "fissure-sealant",
                                         "--trainer",  "Tess Arn"};
  const auto unmet = run(sign);
  EXPECT_EQ(unmet.code, 1);
  EXPECT_NE(unmet.err.find("not met"), std::string::npos);
  auto with_reason = sign;
  with_reason.insert(with_reason.end(), {"--although-unmet", "--note", "seen at the chair"});
  const auto signed_off = told(with_reason);
  EXPECT_EQ(signed_off["note"], "seen at the chair");
  EXPECT_TRUE(signed_off["stands"]);
  const std::string id = signed_off["id"];
  EXPECT_EQ(run({"records", "revoke", id, "--trainer", "Tess Arn"}).code, 2) << "no reason given";
  EXPECT_EQ(as_trainer({"records", "revoke", id, "--why", "the wrong Ana"})["revoked"], id);
  const auto kept = told({"records", "person", "Ana Petrov"})["sign_offs"];
  ASSERT_EQ(kept.size(), 1u);
  EXPECT_FALSE(kept[0]["stands"]);
  EXPECT_EQ(kept[0]["revoked"]["why"], "the wrong Ana");
  EXPECT_TRUE(told({"records", "verify"})["sound"]);
}

TEST_F(RecordsCommands, EverybodysStandingIsFilteredAndSorted) {
  set_up();
  told({"records", "trainee", "add", "Bo Lind"});
  for (const auto* one : {"1", "2"})
    told({"drill", sealant, "--assistant", "absent", "--seed", one, "--save", "--trainee",
          "Bo Lind"});
  // Drills of bots count for nobody's standing.
  const auto all = as_trainer({"records", "list", "--sort", "drills", "--reverse"})["trainees"];
  ASSERT_EQ(all.size(), 2u);
  EXPECT_EQ(all[0]["completed"], 0);
  EXPECT_EQ(all[0]["standing"], "not started");
  EXPECT_TRUE(all[0]["due"].is_null());
  EXPECT_EQ(as_trainer({"records", "list", "--search", "LIND"})["trainees"].size(), 1u);
  EXPECT_EQ(as_trainer({"records", "list", "--only", "signed-off"})["trainees"].size(), 0u);
  EXPECT_EQ(run({"records", "list", "--trainer", "Tess Arn", "--sort", "shoes"}).code, 2);
  const auto steps = as_trainer({"records", "steps", "--scenario", "fissure-sealant"});
  EXPECT_EQ(steps["trainees"].size(), 2u);
}

TEST_F(RecordsCommands, PagesComeInTheLanguageAskedForWithTheScenariosOwnWords) {
  set_up();
  const std::vector<std::string> ana = {"--trainee", "Ana Petrov", "--language", "es"};
  for (const auto& command : {std::vector<std::string>{"report"}, {"export", "--to", "html"}}) {
    auto words = command;
    words.insert(words.end(), ana.begin(), ana.end());
    const auto page = run(words);
    ASSERT_EQ(page.code, 0) << page.err;
    EXPECT_NE(page.out.find("<html lang=\"es\">"), std::string::npos);
    EXPECT_NE(page.out.find("Registro de prácticas: Ana Petrov"), std::string::npos);
    EXPECT_NE(page.out.find("<h2>Sellador de fisuras, 36</h2>"), std::string::npos);
  }
  const auto session = run({"report", "--session", sessions()[0]["id"], "--language", "es"});
  EXPECT_NE(session.out.find("Lo que el clínico necesitó"), std::string::npos);
  EXPECT_EQ(run({"report", "--trainee", "Ana Petrov", "--language", "xx"}).code, 2);
}

TEST_F(RecordsCommands, AnAddressOfNoKindIsRefusedAndMakesNothing) {
  set_up();
  const auto here = fs::current_path() / "sqlite:";
  const std::string bad = "sqlite:" + file("records.db"), good = "sqlite://" + file("records.db");
  for (const auto& words :
       {std::vector<std::string>{"records", "list", "--trainee", "Ana Petrov"},
        {"drill", sealant, "--assistant", "expert", "--save", "--trainee", "Ana Petrov"}}) {
    auto with = words;
    with.insert(with.end(), {"--store", bad});
    const auto refused = run(with);
    EXPECT_EQ(refused.code, 2);
    EXPECT_NE(refused.err.find("sqlite://FILE"), std::string::npos) << refused.err;
    EXPECT_FALSE(fs::exists(here));
    with.back() = good;
    EXPECT_EQ(run(with).code, 0);
  }
  EXPECT_EQ(sessions().size(), 2u) << "the same file by its address";
  setenv("BEFOREHAND_STORE", bad.c_str(), 1);
  EXPECT_EQ(run({"records", "verify"}).code, 2);
}

TEST_F(RecordsCommands, TwoSessionsLieSideBySide) {
  set_up();
  told({"drill", sealant, "--assistant", "expert", "--save", "--trainee", "Ana Petrov"});
  const auto list = sessions();
  ASSERT_EQ(list.size(), 2u);
  const auto j = told({"records", "show", list[1]["id"], list[0]["id"]});
  ASSERT_FALSE(j["needs"].empty());
  double first = 0, second = 0;
  for (const auto& n : j["needs"]) {
    if (!n["first"].is_null()) first += n["first"]["wait_s"].get<double>();
    if (!n["second"].is_null()) second += n["second"]["wait_s"].get<double>();
  }
  EXPECT_GT(first, second) << "the late one kept the clinician waiting";
  EXPECT_EQ(run({"records", "show", "no-such-session"}).code, 1);
}

TEST_F(RecordsCommands, BackupAndMergeCarryEveryRecordOverOnce) {
  set_up();
  const auto copy = file("copy.db"), other = file("other.db");
  EXPECT_EQ(as_trainer({"records", "backup", copy})["backup"], copy);
  EXPECT_EQ(run({"records", "backup", copy, "--trainer", "Tess Arn"}).code, 3)
      << "nothing is overwritten";
  setenv("BEFOREHAND_STORE", other.c_str(), 1);
  told({"records", "trainer", "add", "Bea Roth"});
  const std::vector<std::string> merge = {"records", "merge", copy, "--trainer", "Bea Roth"};
  const auto merged = told(merge);
  EXPECT_EQ(merged["sessions"], 1);
  EXPECT_EQ(merged["people"], 2);
  EXPECT_TRUE(merged["damaged"].empty());
  EXPECT_EQ(told(merge)["sessions"], 0) << "the second time nothing";
  EXPECT_EQ(run({"records", "list", "--trainer", "Tess Arn"}).code, 1)
      << "a trainer comes without the passcode";
  EXPECT_EQ(sessions().size(), 1u);
  EXPECT_TRUE(told({"records", "verify"})["sound"]);
}

TEST_F(RecordsCommands, ErasingIsAskedTwiceAndLeavesNothingButTheChain) {
  set_up();
  const std::vector<std::string> erase = {"records", "erase", "Ana Petrov", "--trainer",
                                          "Tess Arn"};
  EXPECT_EQ(run(erase).code, 2) << "not without --yes";
  EXPECT_EQ(sessions().size(), 1u);
  EXPECT_EQ(as_trainer({"records", "erase", "Ana Petrov", "--yes"})["erased"], ana_);
  EXPECT_EQ(run({"records", "person", "Ana Petrov"}).code, 1);
  const auto v = told({"records", "verify"});
  EXPECT_TRUE(v["sound"]);
  EXPECT_EQ(v["erased"], 1);
}

TEST_F(RecordsCommands, ADrillThatWaitsIsDeliveredOnce) {
  set_up();
  // Cut off in mid-drill: the store is gone when the drill ends.
  fs::rename(file("records.db"), file("away.db"));
  fs::create_directory(file("records.db"));
  const auto alone =
      run({"drill", sealant, "--assistant", "expert", "--save", "--trainee", "Ana Petrov"});
  EXPECT_NE(alone.code, 0) << "who it is for cannot be looked up";
  fs::remove(file("records.db"));
  fs::rename(file("away.db"), file("records.db"));
  const auto d = told({"records", "deliver"});
  EXPECT_EQ(d["waiting"], 0);
  EXPECT_EQ(sessions().size(), 1u);
}

TEST_F(RecordsCommands, ChangingAPasscodeTakesTheOldOne) {
  set_up();
  setenv("BEFOREHAND_NEW_PASSCODE", "a newer one", 1);
  setenv("BEFOREHAND_PASSCODE", "a wrong one", 1);
  EXPECT_EQ(run({"records", "trainer", "passcode", "Tess Arn"}).code, 1);
  setenv("BEFOREHAND_PASSCODE", "tess's own", 1);
  EXPECT_EQ(told({"records", "trainer", "passcode", "Tess Arn"})["has_passcode"], true);
  EXPECT_EQ(run({"records", "list", "--trainer", "Tess Arn"}).code, 1);
  setenv("BEFOREHAND_PASSCODE", "a newer one", 1);
  EXPECT_EQ(run({"records", "list", "--trainer", "Tess Arn"}).code, 0);
}

}  // namespace
}  // namespace beforehand
