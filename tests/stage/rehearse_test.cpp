// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// A team rehearses at one machine: two people on rows of keys of their own.
#include <gtest/gtest.h>

#include "drill/recording.hpp"
#include "playing.hpp"
#include "procedure/reader.hpp"
#include "stage/app.hpp"
#include "stage/big_buttons.hpp"
#include "study/team_debrief.hpp"

namespace beforehand::stage {
namespace {

void to_rehearsal(Program& program) {
  press(program, Key::enter);
  type(program, "r");
  ASSERT_EQ(program.stand(), Program::Stand::rehearse);
}

/// Both do what can be done, the keys of the first possible choice each; covers are held until
/// nothing is covered. Gives up after so many moments.
void play_on(Program& program, int moments) {
  for (int i = 0; i < moments && !program.rehearse()->debriefed(); ++i) {
    const auto& r = *program.rehearse()->rehearsal();
    for (std::size_t column = 0; column < r.procedure().people.size(); ++column) {
      const auto options = r.options(PersonIx{column}, buttons_a_column, 0);
      for (std::size_t k = 0; k < options.size(); ++k) {
        const bool asks =
            options[k].command.op == drill::Op::ask || options[k].command.op == drill::Op::help;
        if (options[k].going_on || asks || !options[k].why_not.empty()) continue;
        type(program, std::string(1, static_cast<char>(column_keys[column][k])));
        break;
      }
    }
    program.pass(std::chrono::milliseconds(200));
    if (!r.timed()) press(program, Key::space);
  }
}

TEST(Rehearse, TwoPeopleOneRecordingAndItsReplayTellsTheSame) {
  TemporaryFolder folder;
  auto program = program_on(tiny_shelf(), &folder);
  to_rehearsal(program);
  press(program, Key::enter);
  play_on(program, 3000);
  const auto& r = *program.rehearse()->rehearsal();
  ASSERT_TRUE(program.rehearse()->debriefed()) << drill::to_text(r.procedure(), r.run().session());
  const auto& p = r.procedure();
  const auto text = procedure::load_text(r.recording());
  const auto again = drill::from_text(text, p, "recording");
  EXPECT_TRUE(again.complete());
  EXPECT_EQ(again.events.back().value, 0);  // everything was done
  EXPECT_NO_THROW(drill::verify(p, again, "recording"));
  const auto told = study::team_debrief(p, r.run().session()),
             replayed = study::team_debrief(p, again);
  EXPECT_EQ(told.change, replayed.change);
  EXPECT_EQ(told.waits.size(), replayed.waits.size());
  EXPECT_EQ(told.both_idle, replayed.both_idle);
  EXPECT_EQ(told.score.stretches, replayed.score.stretches);
  program.settle();
  EXPECT_TRUE(look_at(program, 1280, 720, 1).shows("How it went"));
  const auto page = look_at(program, 1280, 4000, 1);
  EXPECT_TRUE(page.shows("The chart in words"));
  for (const auto& event : again.events)
    if (event.what == drill::What::step_started)
      EXPECT_TRUE(page.shows(p.step(event.step).title)) << p.step(event.step).title;
}

TEST(Rehearse, EachHandsOwnKeysAndOnlyTheirs) {
  auto program = program_on(tiny_shelf());
  to_rehearsal(program);
  type(program, "1");  // the clinician is played by the program
  press(program, Key::enter);
  const auto& r = *program.rehearse()->rehearsal();
  EXPECT_FALSE(r.human(PersonIx{0}));
  type(program, "123456");
  for (const auto& c : r.run().session().commands) EXPECT_NE(c.person, PersonIx{1});
  type(program, "q");
  EXPECT_FALSE(r.run().world().people[1].doing.empty());
}

TEST(Rehearse, AGamepadActsForItsPersonOnly) {
  auto program = program_on(tiny_shelf());
  to_rehearsal(program);
  program.handle(Input::of_pad(Key::pad_start, 0));  // begins, as Enter does
  const auto& r = *program.rehearse()->rehearsal();
  const auto options = r.options(PersonIx{1}, buttons_a_column, 0);
  std::size_t possible = 0;
  while (!options[possible].why_not.empty()) ++possible;
  for (std::size_t i = 0; i < possible; ++i) program.handle(Input::of_pad(Key::pad_down, 0));
  EXPECT_TRUE(look_at(program, 1280, 720, 1).shows("gamepad"));
  program.handle(Input::of_pad(Key::pad_south, 0));
  ASSERT_FALSE(r.run().world().people[1].doing.empty());
  for (const auto& c : r.run().session().commands) EXPECT_EQ(c.person, PersonIx{1});
  program.handle(Input::of_pad(Key::pad_east, 0));
  EXPECT_TRUE(r.run().world().people[1].doing.empty());
  program.handle(Input::of_pad(Key::pad_south, 1));  // the clinician's
  for (const auto& c : r.run().session().commands)
    if (c.op == drill::Op::begin) EXPECT_EQ(c.person, PersonIx{0});
  program.handle(Input::of_pad(Key::pad_start, 1));
  EXPECT_FALSE(program.moves());  // paused
}

TEST(Rehearse, AGamepadsMarkStaysOnItsChoiceWhileOthersComeAndGo) {
  auto program = program_on(tiny_shelf());
  to_rehearsal(program);
  press(program, Key::enter);
  const auto& r = *program.rehearse()->rehearsal();
  const auto before = r.options(PersonIx{1}, buttons_a_column, 0);
  std::size_t at = before.size() - 1;  // the last one that can be done now
  while (!before[at].why_not.empty()) --at;
  ASSERT_GT(at, 0u);
  for (std::size_t i = 0; i < at; ++i) program.handle(Input::of_pad(Key::pad_down, 0));
  type(program, "q");  // the keyboard begins the first, which changes the list
  program.handle(Input::of_pad(Key::pad_south, 0));
  const auto& commands = r.run().session().commands;
  ASSERT_EQ(commands.size(), 2u);
  EXPECT_EQ(commands[1].action, before[at].command.action);
}

TEST(Rehearse, ASurpriseComesAtTheMomentChosen) {
  auto program = program_on(tiny_shelf());
  to_rehearsal(program);
  press(program, Key::enter);
  const auto& r = *program.rehearse()->rehearsal();
  const auto& signals = r.run().world().signals;
  for (int i = 0; i < 3000 && r.run().world().signal_due[0] == never; ++i) play_on(program, 1);
  ASSERT_GT(r.run().world().signal_due[0], r.run().now());
  type(program, "7");
  EXPECT_EQ(signals[0], drill::SignalState::happened);
  EXPECT_EQ(r.run().world().signal_at[0], r.run().now());
}

TEST(Rehearse, TalkedThroughTimePassesOnlyWhenLet) {
  auto program = program_on(tiny_shelf());
  to_rehearsal(program);
  type(program, "t");
  press(program, Key::enter);
  const auto& r = *program.rehearse()->rehearsal();
  EXPECT_FALSE(program.moves());
  type(program, "q");
  for (int i = 0; i < 50; ++i) program.pass(std::chrono::milliseconds(100));
  EXPECT_EQ(r.run().now(), Ms{0});
  press(program, Key::space);
  EXPECT_GT(r.run().now(), Ms{0});
  play_on(program, 3000);
  EXPECT_TRUE(program.rehearse()->debriefed());
}

TEST(Rehearse, TheLeaderLetsASurpriseCome) {
  auto program = program_on(tiny_shelf());
  to_rehearsal(program);
  press(program, Key::enter);
  type(program, "7");
  play_on(program, 3000);
  const auto signals = program.rehearse()->debriefed();
  ASSERT_TRUE(signals);
  EXPECT_EQ(signals->size(), 1u);
}

TEST(Rehearse, WhoeverWaitsIsNamed) {
  TemporaryFolder folder;
  auto program = program_on(tiny_shelf(), &folder);
  to_rehearsal(program);
  type(program, "2");
  press(program, Key::enter);  // the program assists, the clinician dawdles
  for (int i = 0; i < 300; ++i) program.pass(std::chrono::milliseconds(100));
  play_on(program, 3000);
  ASSERT_TRUE(program.rehearse()->debriefed());
  const auto told = study::team_debrief(program.rehearse()->rehearsal()->procedure(),
                                        program.rehearse()->rehearsal()->run().session());
  ASSERT_FALSE(told.change[0].empty());
  EXPECT_NE(told.change[0][0].find("begin, or say what you wait for"), std::string::npos);
}

TEST(Rehearse, TheScreensHoldAtEverySize) {
  auto program = program_on(shipped_shelf());
  const auto look = [&](const std::string& where) {
    for (const auto& [width, height, scale] :
         {std::tuple{1280, 720, 1.0}, std::tuple{1920, 1080, 2.0}, std::tuple{1120, 630, 1.0}}) {
      const double fits = fitting_scale(scale, width, height);
      for (const auto& fault : look_at(program, width, height, fits).faults(16 * fits))
        ADD_FAILURE() << where << ", " << width << ": " << fault;
    }
  };
  to_rehearsal(program);
  look("roles");
  press(program, Key::enter);
  look("begin");
  play_on(program, 200);
  look("playing");
  press(program, Key::escape);
  program.settle();
  look("debrief");
  press(program, Key::end);
  look("end of the debrief");
  for (const auto& [key, shown] : program.strings().missing())
    ADD_FAILURE() << "no text for " << key;
}

}  // namespace
}  // namespace beforehand::stage
