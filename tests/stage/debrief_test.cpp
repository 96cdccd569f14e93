// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// The debrief as the one who played badly reads it: into the room at each mistake, the stretch
// again, and beside what was played before.
#include <gtest/gtest.h>

#include "drill/cast.hpp"
#include "playing.hpp"

namespace beforehand::stage {
namespace {

using Stand = Program::Stand;

constexpr std::chrono::milliseconds tenth{100};

// Plays a drill in which the assistant does nothing, to its debrief.
void idle_to_debrief(Program& program) {
  for (int i = 0; i < 72'000 && program.stand() == Stand::drill; ++i) program.pass(tenth);
  ASSERT_EQ(program.stand(), Stand::debrief);
  program.pass(Program::deaf_after_a_drill);
  program.settle();
}

void to_bad_debrief(Program& program) {
  press(program, Key::enter);
  press(program, Key::enter);
  idle_to_debrief(program);
}

TEST(Debrief, IsInTheOrderOfAGoodOne) {
  auto program = program_on(shipped_shelf());
  to_bad_debrief(program);
  const auto seen = look_at(program, 1280, 4000, 1);
  const auto top_of = [&](const std::string& text) {
    for (const auto& shown : seen.texts)
      if (shown.line.find(text) == 0) return shown.box.y;
    ADD_FAILURE() << text;
    return 0.0;
  };
  const double happened = top_of("What happened"), well = top_of("What went well"),
               change = top_of("What to change"), errors = top_of("Errors");
  EXPECT_LT(happened, well);
  EXPECT_EQ(well, change);
  EXPECT_LT(change, top_of("Why: "));
  EXPECT_LT(change, errors);
  EXPECT_LT(top_of("Why: "), top_of("Try again: "));
}

// Of what did not come: it was fetched, done, or gone on without a hand, and says which.
TEST(Debrief, SaysWhatTheClinicianDidAboutWhatDidNotCome) {
  auto program = program_on(shipped_shelf());
  to_bad_debrief(program);
  std::string all;
  for (const auto& shown : look_at(program, 1920, 8000, 1).texts) all += shown.line + "\n";
  EXPECT_NE(all.find("the clinician had to fetch it, "), std::string::npos);
  EXPECT_NE(all.find("the clinician had to manage alone, "), std::string::npos);
  EXPECT_NE(all.find("was left to the clinician."), std::string::npos);
  EXPECT_EQ(all.find("did without"), std::string::npos);
}

// Whatever is pressed for the drill's last moment, by whatever means.
TEST(Debrief, TakesNoPressInItsFirstHalfSecond) {
  auto program = program_on(tiny_shelf());
  press(program, Key::enter);
  press(program, Key::enter);
  for (int i = 0; i < 72'000 && program.stand() == Stand::drill; ++i) {
    press(program, Key::down);
    press(program, Key::enter);  // in the drill's last frame too
    program.pass(tenth);
  }
  ASSERT_EQ(program.stand(), Stand::debrief);
  look_at(program, 1280, 720, 1);
  for (int i = 0; i < 4; ++i) {
    press(program, Key::enter);
    press(program, Key::pad_south);
    press(program, Key::escape);
    type(program, "ntw");
    EXPECT_TRUE(press_on(program, "The same again"));
    EXPECT_TRUE(press_on(program, "Choose another"));
    EXPECT_EQ(program.stand(), Stand::debrief) << i << " tenths of a second";
    EXPECT_EQ(program.debrief()->watching(), nullptr);
    program.pass(tenth);
  }
  program.pass(tenth);
  press(program, Key::enter);
  EXPECT_EQ(program.stand(), Stand::drill);
}

TEST(Debrief, OfADrillThatWasLeftListensAtOnce) {
  auto program = program_on(tiny_shelf());
  press(program, Key::enter);
  press(program, Key::enter);
  program.pass(tenth);
  press(program, Key::escape);
  press(program, Key::enter);
  ASSERT_EQ(program.stand(), Stand::debrief);
  press(program, Key::escape);
  EXPECT_EQ(program.stand(), Stand::start);
}

// What is written first is not cut by the edge of a small window.
TEST(Debrief, ItsFirstWordsAreWholeAtTheSmallestUsualSize) {
  for (const auto& item : shipped_shelf())
    for (const char* language : {"en", "es"}) {
      if (item.procedure->people.size() > 2) continue;  // a third lane: the chart takes the view
      SCOPED_TRACE(item.file + ", " + language);
      auto program = program_on({item}, nullptr, language);
      press(program, Key::enter);
      press(program, Key::enter);
      program.pass(std::chrono::seconds(1));
      press(program, Key::escape);
      press(program, Key::enter);  // left: the debrief has its head all the same
      ASSERT_EQ(program.stand(), Stand::debrief);
      const auto seen = look_at(program, 1280, 720, 1);
      const auto t = in_language(language);
      int whole = 0;
      double top = 1e9;
      for (const auto& text : seen.texts)
        if (text.line == t("debrief.well")) top = text.box.bottom();
      for (const auto& text : seen.texts)
        if (text.box.y > top && text.box.y < 640 && text.visible.height > text.box.height - 0.5)
          ++whole;
      EXPECT_GE(whole, 2) << "a point of what went well and one of what to change";
    }
}

TEST(Debrief, ByKeyboardIntoTheRoomAtEachMistakeAndBack) {
  auto program = program_on(shipped_shelf());
  to_bad_debrief(program);
  auto& debrief = *program.debrief();
  const auto& changes = debrief.advice().change;
  ASSERT_GE(changes.size(), 2u);
  for (std::size_t i = 0; i < changes.size() + debrief.score().errors.size(); ++i) {
    press(program, Key::tab);
    EXPECT_EQ(debrief.marked(), i);
    const Ms at =
        i < changes.size() ? changes[i].first : debrief.score().errors[i - changes.size()].at;
    press(program, Key::enter);
    ASSERT_NE(debrief.watching(), nullptr);
    EXPECT_EQ(debrief.watching()->now(), std::max(Ms{0}, at - ReplayScreen::lead_in));
    press(program, Key::escape);
    EXPECT_EQ(debrief.watching(), nullptr);
    EXPECT_EQ(debrief.marked(), i);
  }
  press(program, Key::tab);
  EXPECT_EQ(debrief.marked(), 0u);
  press(program, Key::escape);
  EXPECT_FALSE(debrief.marked());
  EXPECT_EQ(program.stand(), Stand::debrief);
  press(program, Key::escape);
  EXPECT_EQ(program.stand(), Stand::start);
}

TEST(Debrief, WhatTheKeyboardIsOnIsInView) {
  auto program = program_on(shipped_shelf());
  to_bad_debrief(program);
  auto& debrief = *program.debrief();
  for (std::size_t i = 0; i < debrief.advice().change.size() + debrief.score().errors.size(); ++i) {
    press(program, Key::tab);
    EXPECT_TRUE(look_at(program, 1280, 720, 1).shows("See it")) << i;
  }
}

TEST(Debrief, APressOnTheChartShowsTheRoomThere) {
  auto program = program_on(shipped_shelf());
  to_bad_debrief(program);
  auto& debrief = *program.debrief();
  look_at(program, 1280, 720, 1);
  const auto plot = debrief.chart().plot();
  program.handle(Input::of_press(plot.x + plot.width / 4, plot.centre().y));
  ASSERT_NE(debrief.watching(), nullptr);
  EXPECT_NEAR(to_seconds(debrief.watching()->now()), to_seconds(debrief.chart().end()) / 4, 0.5);
  EXPECT_FALSE(program.moves());
  press(program, Key::space);
  EXPECT_TRUE(program.moves());
  const Ms before = debrief.watching()->now();
  program.pass(tenth);
  EXPECT_EQ(debrief.watching()->now(), before + Ms{100});
}

TEST(Debrief, ThatStretchIsTriedAgainAndBothResultsAreShown) {
  auto program = program_on(shipped_shelf());
  to_bad_debrief(program);
  const auto* debrief = program.debrief();
  const auto& p = program.sitting()->procedure();
  const auto whole = program.sitting()->run().session();
  const PhaseIx phase = p.step(debrief->advice().change[0].step).phase;
  ASSERT_TRUE(phase);
  program.handle(Input::of_symbol(U't'));
  ASSERT_EQ(program.stand(), Stand::drill);
  const auto& setup = program.sitting()->run().session().setup;
  EXPECT_EQ(setup.phase, phase);
  EXPECT_EQ(setup.seed, whole.setup.seed);
  ASSERT_TRUE(play_to_debrief(program));
  EXPECT_EQ(program.debrief(), debrief);
  EXPECT_EQ(program.sitting()->run().session().events, whole.events);
  const auto seen = look_at(program, 1280, 720, 1);
  EXPECT_TRUE(seen.shows("That stretch again: " + p.phases[phase.at()].title));
  EXPECT_TRUE(seen.shows("In this drill"));
  EXPECT_TRUE(seen.shows("better by"));
  program.handle(Input::of_symbol(U'v'));
  ASSERT_NE(program.debrief()->watching(), nullptr);
  press(program, Key::escape);
  program.handle(Input::of_symbol(U't'));
  EXPECT_EQ(program.sitting()->run().session().setup.phase, phase);
  press(program, Key::escape);
  press(program, Key::enter);  // left before its end
  ASSERT_EQ(program.stand(), Stand::debrief);
  const auto left = look_at(program, 1280, 720, 1);
  EXPECT_TRUE(left.shows("Try 2"));
  EXPECT_TRUE(left.shows("left before its end"));
  press(program, Key::enter);
  EXPECT_FALSE(program.sitting()->run().session().setup.phase) << "the whole one again";
}

TEST(Debrief, AStretchOfAnAssessedDrillIsPractice) {
  auto program = program_on(shipped_shelf());
  press(program, Key::tab);
  press(program, Key::right);
  press(program, Key::right);
  press(program, Key::enter);
  press(program, Key::enter);
  ASSERT_EQ(program.sitting()->level(), drill::Level::assessed);
  idle_to_debrief(program);
  program.handle(Input::of_symbol(U't'));
  ASSERT_EQ(program.stand(), Stand::drill);
  EXPECT_EQ(program.sitting()->level(), drill::Level::unaided);
}

// Left out of a chain of steps: what could not be right any more hangs under the one mistake.
TEST(Debrief, WhatFollowedHangsUnderTheMistake) {
  const auto t = english();
  int found = 0;
  for (const auto& item : shipped_shelf()) {
    const auto& p = *item.procedure;
    drill::Setup setup;
    setup.seed = 3;
    drill::Run run(p, setup);
    drill::cast(run, drill::habit_from("forgetful:60"));
    run.play_out();
    const auto score = scoring::score(p, run.session(), p.who(procedure::Role::assistant));
    for (const auto& error : score.errors) {
      const auto words = words_under(p, error, t);
      EXPECT_EQ(words.followed.empty(), error.followed_by.empty());
      for (const auto step : error.followed_by)
        EXPECT_NE(words.followed.find(p.step(step).title), std::string::npos);
      found += error.followed_by.empty() ? 0 : 1;
    }
  }
  EXPECT_GT(found, 0);
}

TEST(Debrief, LaysOwnEarlierAttemptsBesideThisOne) {
  const TemporaryFolder folder;
  RecordDesk desk(folder / "records.db", folder.path().string(), ticking());
  Outside outside;
  outside.new_recording = [](const std::string&, std::uint64_t) { return std::string(); };
  outside.new_seed = [] { return std::uint64_t{7}; };
  outside.records = &desk;
  Program program(tiny_shelf(), english(), std::move(outside));
  press(program, Key::enter);
  type(program, "Ines");
  press(program, Key::enter);
  press(program, Key::enter);
  press(program, Key::enter);
  idle_to_debrief(program);
  EXPECT_TRUE(look_at(program, 1280, 4000, 1).shows("This is the first"));
  press(program, Key::enter);
  ASSERT_TRUE(play_to_debrief(program));
  program.settle();
  auto seen = look_at(program, 1280, 4000, 1);
  EXPECT_TRUE(seen.shows("The last time and your best (2026-03-02, "));
  EXPECT_TRUE(seen.shows("better by"));
  press(program, Key::enter);
  idle_to_debrief(program);
  seen = look_at(program, 1280, 4000, 1);
  EXPECT_TRUE(seen.shows("The last time and your best"));
  EXPECT_TRUE(seen.shows("worse by"));
  press(program, Key::enter);
  idle_to_debrief(program);
  seen = look_at(program, 1280, 4000, 1);
  EXPECT_TRUE(seen.shows("The last time (")) << "the last and the best are two now";
  EXPECT_TRUE(seen.shows("Your best ("));
  EXPECT_TRUE(seen.shows("= the same"));
  type(program, "b");
  ASSERT_EQ(program.stand(), Stand::side_by_side);
  EXPECT_TRUE(look_at(program, 1280, 720, 1).shows("2 · Ines · 2026-03-02"));
  press(program, Key::escape);
  EXPECT_EQ(program.stand(), Stand::debrief);
}

TEST(Debrief, WithoutRecordsNothingIsCompared) {
  auto program = program_on(shipped_shelf());
  to_bad_debrief(program);
  EXPECT_FALSE(look_at(program, 1280, 4000, 1).shows("earlier attempts"));
}

// Compared as they are shown, and told in words.
TEST(Comparison, SaysBetterAndWorseInWords) {
  const auto t = english();
  Figures now, then;
  now.total = 80.4, then.total = 79.6;  // both shown as 80
  now.clinician_wait = Ms{4000}, then.clinician_wait = Ms{10'500};
  now.errors = 5, then.errors = 2;
  now.anticipation = 0.5, then.anticipation = 0.25;
  const auto rows = compared(now, then, t);
  const auto row = [&](const std::string& name) -> const FigureRow& {
    return *std::find_if(rows.begin(), rows.end(),
                         [&](const FigureRow& r) { return r.name == name; });
  };
  EXPECT_EQ(row("Total").change, "= the same");
  EXPECT_EQ(row("The clinician waited").change, "▲ better by 6.5 s");
  EXPECT_EQ(row("Errors").change, "▼ worse by 3");
  EXPECT_EQ(row("Anticipation").change, "▲ better by 25 %");
}

}  // namespace
}  // namespace beforehand::stage
