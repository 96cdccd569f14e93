// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "drill/recording.hpp"

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <functional>

#include "play.hpp"

namespace beforehand {
namespace {

using test::play;

std::string refusal(const std::function<void()>& f) {
  try {
    f();
  } catch (const drill::RecordingError& e) {
    return e.what();
  }
  return "nothing was refused";
}

class Recording : public testing::Test {
 protected:
  procedure::Procedure p = test::tiny();
  drill::Session session = play(p, "late:3", 4);
  std::string text = to_text(p, session);

  std::string read_refusal(const std::string& t) {
    return refusal([&] { drill::verify(p, drill::from_text(t, p, "r.jsonl"), "r.jsonl"); });
  }
};

TEST_F(Recording, WhatIsWrittenIsReadAgain) {
  const auto again = drill::from_text(text, p, "r.jsonl");
  EXPECT_EQ(again.events, session.events);
  EXPECT_EQ(again.commands, session.commands);
  EXPECT_EQ(again.events_before, session.events_before);
  EXPECT_EQ(again.setup.seed, session.setup.seed);
  EXPECT_NO_THROW(drill::verify(p, again, "r.jsonl"));
}

TEST_F(Recording, CutOffAnywhereItIsReadUpToThere) {
  const auto header_end = text.find('\n') + 1;
  for (auto at = header_end; at <= text.size(); at += 37) {
    const auto cut = text.substr(0, at);
    drill::Session s;
    ASSERT_NO_THROW(s = drill::from_text(cut, p, "r.jsonl")) << at;
    EXPECT_EQ(s.complete(), at == text.size());
    ASSERT_NO_THROW(drill::verify(p, s, "r.jsonl")) << cut.substr(cut.size() - 60);
    ASSERT_LE(s.events.size(), session.events.size());
    EXPECT_TRUE(std::equal(s.events.begin(), s.events.end(), session.events.begin()));
  }
}

TEST_F(Recording, AnEditIsFoundByTheNextCheck) {
  auto edited = text;
  const auto at = edited.find("\"t\":", edited.find("step-started"));
  ASSERT_NE(at, std::string::npos);
  edited.insert(at + 4, "1");
  const auto message = read_refusal(edited);
  EXPECT_TRUE(message.find("edited") != std::string::npos) << message;
  EXPECT_EQ(message.rfind("r.jsonl:", 0), 0u) << message;
}

// Whoever edits the checks as well is found by playing the commands again.
TEST_F(Recording, EventsThatDoNotFollowAreNamedWithTheFirstFalseMoment) {
  auto forged = session;
  for (auto& e : forged.events) {
    if (e.what != drill::What::step_started) continue;
    e.value -= 1000;
    break;
  }
  const auto message = refusal([&] { drill::verify(p, forged, "r.jsonl"); });
  EXPECT_NE(message.find("do not follow from its commands"), std::string::npos) << message;
  EXPECT_NE(message.find("step-started"), std::string::npos) << message;
}

TEST_F(Recording, AddedAndMissingEventsAreFound) {
  auto added = session;
  added.events.insert(added.events.end() - 1, added.events[2]);
  EXPECT_NE(refusal([&] { drill::verify(p, added, "r"); }).find("do not follow"),
            std::string::npos);
  auto missing = session;
  missing.events.erase(missing.events.begin() + 3);
  EXPECT_NE(refusal([&] { drill::verify(p, missing, "r"); }).find("do not follow"),
            std::string::npos);
}

TEST_F(Recording, AnotherScenarioVersionOrFormatIsNamedAsThat) {
  auto other = p;
  other.id = "another";
  EXPECT_NE(refusal([&] {
              drill::from_text(text, other, "r");
            }).find("is of the scenario 'tiny', not of 'another'"),
            std::string::npos);
  other = p;
  other.fingerprint ^= 1;
  EXPECT_NE(refusal([&] { drill::from_text(text, other, "r"); }).find("another version"),
            std::string::npos);
  auto newer = text;
  newer.replace(newer.find("\"version\":1"), 11, "\"version\":9");
  EXPECT_NE(read_refusal(newer).find("format version 9"), std::string::npos);
  EXPECT_NE(read_refusal("").find("empty"), std::string::npos);
  EXPECT_NE(read_refusal("{\"a\":1}\n").find("header"), std::string::npos);
  EXPECT_NE(read_refusal("not json\n").find("no record"), std::string::npos);
  EXPECT_NE(read_refusal(text + text).find("goes on after its end"), std::string::npos);
}

TEST_F(Recording, ANameThatIsMarkupOrQuotesSurvives) {
  drill::Setup setup;
  setup.trainee = "\"<b>Ana</b>\"\n'; DROP TABLE x; --";
  drill::Run run(p, setup);
  const auto t = to_text(p, run.session());
  EXPECT_EQ(drill::from_text(t, p, "r").setup.trainee, setup.trainee);
}

TEST_F(Recording, GrowsWithTheDrillAndEqualsTheWhole) {
  const auto path = std::filesystem::temp_directory_path() /
                    ("beforehand_recording_" +
                     std::to_string(::testing::UnitTest::GetInstance()->random_seed()) + ".jsonl");
  std::filesystem::remove(path);
  drill::Setup setup;
  setup.seed = 4;
  setup.assistant = "late:3";
  drill::Run run(p, setup);
  test::cast(run, "late:3");
  {
    drill::RecordingWriter writer(path.string(), p, run.session());
    while (!run.over()) {
      run.advance_to(run.now() + Ms{500});
      writer.append(run.session());
      const auto so_far = procedure::load_text(path.string());
      EXPECT_EQ(drill::from_text(so_far, p, "r").events.size(), run.session().events.size());
    }
  }
  EXPECT_EQ(procedure::load_text(path.string()), text);
  EXPECT_NE(refusal([&] {
              drill::RecordingWriter(path.string(), p, run.session());
            }).find("exists already"),
            std::string::npos);
  std::filesystem::remove(path);
}

TEST_F(Recording, AFullDiskIsSaidAndKeepsWhatIsThere) {
  if (!std::filesystem::exists("/dev/full")) GTEST_SKIP() << "this system has no /dev/full";
  const auto message = refusal([&] { drill::RecordingWriter("/dev/full", p, session); });
  EXPECT_NE(message, "nothing was refused");
}

}  // namespace
}  // namespace beforehand
