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
    program.handle({Input::Kind::close, Key::none, 0, 0, 0, 0});
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
