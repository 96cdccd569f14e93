// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// Timing a real case as a person would, by keys and by mouse.
#include <gtest/gtest.h>

#include "playing.hpp"
#include "procedure/reader.hpp"
#include "stage/app.hpp"

namespace beforehand::stage {
namespace {

void wait(Program& program, int seconds) {
  for (int i = 0; i < seconds * 10; ++i) program.pass(std::chrono::milliseconds(100));
}

class Observe : public testing::Test {
 protected:
  Program open() {
    Outside outside;
    outside.new_recording = [](const std::string&, std::uint64_t) { return std::string(); };
    outside.new_seed = [] { return std::uint64_t{7}; };
    outside.observation = [this](const std::string& id) { return folder_ / (id + "-open.case"); };
    return Program(tiny_shelf(), english(), std::move(outside), {}, drill_alone());
  }
  static void to_observe(Program& program) {
    press(program, Key::enter);
    type(program, "o");
    ASSERT_EQ(program.stand(), Program::Stand::observe);
  }
  TemporaryFolder folder_;
};

TEST_F(Observe, TapsByKeyAndMouseMakeACase) {
  auto program = open();
  to_observe(program);
  EXPECT_FALSE(program.observe()->running());
  type(program, "q");  // the assistant's first: sets out the lining paste
  wait(program, 4);
  type(program, "1");  // the clinician's first: rinses
  ASSERT_TRUE(press_on(program, "Takes up the water"));
  wait(program, 10);
  type(program, "1");  // what goes on stands first
  const auto timed = program.observe()->log().timed(program.observe()->now(), "");
  ASSERT_EQ(timed.seen.size(), 3u);
  EXPECT_EQ(timed.seen[0].step, "Sets out the lining paste");
  EXPECT_EQ(timed.seen[1].step, "Rinses the cavity");
  EXPECT_EQ(timed.seen[1].start, Ms{4000});
  EXPECT_EQ(timed.seen[1].end, Ms{14'000});
  // A cover takes no attention, so the setting out was not ended by it.
  EXPECT_TRUE(program.observe()->log().goes_on("Assistant", "Sets out the lining paste"));
  EXPECT_TRUE(look_at(program, 1280, 720, 1)
                  .shows("Last tap, at 0:14: Clinician ended “Rinses the cavity”"));
  press(program, Key::escape);
  const auto page = look_at(program, 1280, 3000, 1);
  EXPECT_TRUE(page.shows("The chart in words"));
  for (const auto& done : timed.seen) EXPECT_TRUE(page.shows(done.step)) << done.step;
}

TEST_F(Observe, UndoCorrectNoteAndPause) {
  auto program = open();
  to_observe(program);
  type(program, "1");
  wait(program, 5);
  type(program, "1");
  press(program, Key::left);
  press(program, Key::left);
  const auto& observe = *program.observe();
  EXPECT_EQ(observe.log().timed(observe.now(), "").seen.at(0).end, Ms{4000});
  press(program, Key::backspace);
  EXPECT_EQ(observe.log().timed(observe.now(), "").seen.at(0).end, Ms{4500});
  press(program, Key::space);
  wait(program, 60);
  EXPECT_EQ(observe.now(), Ms{5000});
  type(program, "n");
  type(program, "12 q");  // keys of steps are letters here
  press(program, Key::enter);
  EXPECT_EQ(observe.log().taps().back().text, "12 q");
  type(program, "m");
  type(program, "Talks");
  press(program, Key::enter);
  EXPECT_TRUE(observe.log().goes_on("Clinician", "Talks"));
}

TEST_F(Observe, ClosedAtAnyMomentItIsGoneOnWith) {
  {
    auto program = open();
    to_observe(program);
    type(program, "1");
    wait(program, 5);
    program.handle({Input::Kind::close, Key::none, 0, 0, 0, 0, 0});
    EXPECT_TRUE(program.closed());
  }
  auto program = open();
  to_observe(program);
  EXPECT_TRUE(program.observe()->log().goes_on("Clinician", "Rinses the cavity"));
  wait(program, 9);  // paused until somebody goes on
  press(program, Key::space);
  wait(program, 3);
  type(program, "1");
  press(program, Key::escape);
  EXPECT_TRUE(look_at(program, 1280, 720, 1).shows("What was seen"));
  press(program, Key::enter);
  EXPECT_EQ(program.stand(), Program::Stand::start);
  const auto table = procedure::load_text(folder_ / "tiny-case-1.csv");
  EXPECT_EQ(table, "person,step,start,end\nClinician,Rinses the cavity,0.000,3.000\n");
  EXPECT_FALSE(std::filesystem::exists(folder_ / "tiny-open.case"));
}

TEST_F(Observe, FreeTextWithPeopleAndStepsAsTheyCome) {
  {
    auto program = open();
    to_observe(program);
    type(program, "b");
    ASSERT_EQ(program.stand(), Program::Stand::observe);
    EXPECT_TRUE(look_at(program, 1280, 720, 1).shows("Who is watched"));
    type(program, "Clinician");
    press(program, Key::enter);
    type(program, "m");
    type(program, "Looks");
    press(program, Key::enter);
    wait(program, 3);
    type(program, "p");
    type(program, "Assistant");
    press(program, Key::enter);
    type(program, "m");
    type(program, "Rinses");
    press(program, Key::enter);
    wait(program, 4);
    type(program, "1");  // the clinician stops looking
    wait(program, 1);
    type(program, "1");  // and looks again: it stayed a button
    EXPECT_TRUE(look_at(program, 1280, 720, 1).faults(16).empty());
    program.handle({Input::Kind::close, Key::none, 0, 0, 0, 0, 0});
  }
  auto program = open();
  to_observe(program);
  type(program, "b");  // gone on with, people and all
  EXPECT_TRUE(program.observe()->log().goes_on("Assistant", "Rinses"));
  press(program, Key::space);
  wait(program, 2);
  press(program, Key::escape);
  EXPECT_TRUE(look_at(program, 1280, 720, 1).faults(16).empty());
  press(program, Key::enter);
  EXPECT_EQ(procedure::load_text(folder_ / "free-case-1.csv"),
            "person,step,start,end\nClinician,Looks,0.000,7.000\nAssistant,Rinses,3.000,10.000\n"
            "Clinician,Looks,8.000,10.000\n");
  for (const auto& [key, shown] : program.strings().missing())
    ADD_FAILURE() << "no text for " << key;
}

TEST_F(Observe, SeveralCasesBecomeDurationsInACopy) {
  std::filesystem::create_directories(folder_ / "own");
  Outside outside;
  outside.scenarios = folder_ / "own";
  outside.new_recording = [](const std::string&, std::uint64_t) { return std::string(); };
  outside.new_seed = [] { return std::uint64_t{7}; };
  outside.observation = [this](const std::string& id) { return folder_ / (id + "-open.case"); };
  Program program(tiny_shelf(), english(), std::move(outside));
  for (const int seconds : {9, 11, 10, 30}) {
    to_observe(program);
    type(program, "1");
    wait(program, seconds);
    press(program, Key::escape);
    if (seconds != 30) press(program, Key::enter);
  }
  type(program, "d");  // finishes the last one, too
  ASSERT_EQ(program.stand(), Program::Stand::observed);
  EXPECT_EQ(program.observed()->cases(), 4u);
  const auto screen = look_at(program, 1280, 720, 1);
  EXPECT_TRUE(screen.faults(16).empty());
  EXPECT_TRUE(screen.shows("far out: 30.0 s in tiny-case-4"));
  press(program, Key::enter);
  const auto copy = program.observed()->copy();
  ASSERT_FALSE(copy.empty());
  const auto text = procedure::load_text(copy);
  EXPECT_NE(text.find("least: 9 s, usual: 10.5 s, most: 30 s"), std::string::npos) << text;
  EXPECT_NE(text.find("# takes: 4 cases timed, seen 4 times"), std::string::npos);
  press(program, Key::escape);
  EXPECT_EQ(program.start().chosen()->id, "tiny-2");
  for (const auto& [key, shown] : program.strings().missing())
    ADD_FAILURE() << "no text for " << key;
}

TEST_F(Observe, TheScreenHoldsAtEverySize) {
  auto program = open();
  to_observe(program);
  const auto look = [&](const std::string& where) {
    for (const auto& [width, height, scale] :
         {std::tuple{1280, 720, 1.0}, std::tuple{1920, 1080, 2.0}, std::tuple{1120, 630, 1.0}}) {
      const double fits = fitting_scale(scale, width, height);
      for (const auto& fault : look_at(program, width, height, fits).faults(16 * fits))
        ADD_FAILURE() << where << ", " << width << ": " << fault;
    }
  };
  look("before");
  type(program, "q1");
  wait(program, 7);
  look("timing");
  type(program, "n");
  type(program, "a note");
  look("note");
  press(program, Key::enter);
  press(program, Key::escape);
  look("result");
  for (const auto& [key, shown] : program.strings().missing())
    ADD_FAILURE() << "no text for " << key;
}

}  // namespace
}  // namespace beforehand::stage
