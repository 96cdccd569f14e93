// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// A session played again: by keyboard alone, by mouse alone, and at every size.
#include "stage/replay_screen.hpp"

#include <gtest/gtest.h>

#include <sstream>

#include "drill/cast.hpp"
#include "playing.hpp"

namespace beforehand::stage {
namespace {

using Kind = ReplayMoment::Kind;
using Stand = Program::Stand;

constexpr std::chrono::milliseconds tenth{100};

class ReplayTest : public testing::Test {
 protected:
  Played played(const std::string& habit, std::uint64_t seed = 5) const {
    const auto& p = *shelf_[0].procedure;
    drill::Setup setup;
    setup.seed = seed;
    setup.trainee = "Ines";
    drill::Run run(p, setup);
    drill::cast(run, drill::habit_from(habit));
    run.play_out();
    return just_played(p, run.session());
  }

  ReplayScreen& show(Program& program, const std::string& habit) const {
    program.show_replay(played(habit), Stand::start);
    program.settle();
    return *program.replay();
  }

  std::vector<ShelfItem> shelf_ = tiny_shelf();
  Program program_ = program_on(tiny_shelf());
};

// Where the moment lies on the chart, as drawn last.
picture::Point on_chart(const ReplayScreen& screen, double share) {
  const auto& plot = screen.chart().plot();
  return {plot.x + plot.width * share, plot.centre().y};
}

TEST_F(ReplayTest, PlaysAtItsPaceAndStandsStillWhenPaused) {
  auto& screen = show(program_, "late:4");
  EXPECT_FALSE(program_.moves());
  press(program_, Key::space);
  EXPECT_TRUE(program_.moves());
  for (int i = 0; i < 50; ++i) program_.pass(tenth);
  EXPECT_EQ(screen.now(), Ms{5000});
  program_.handle(Input::of_symbol(U'f'));
  for (int i = 0; i < 10; ++i) program_.pass(tenth);
  EXPECT_EQ(screen.now(), Ms{6250});
  press(program_, Key::space);
  program_.pass(tenth);
  EXPECT_EQ(screen.now(), Ms{6250});
}

TEST_F(ReplayTest, StopsAtTheEndAndBeginsAgainFromThere) {
  auto& screen = show(program_, "expert");
  press(program_, Key::end);
  const Ms end = screen.now();
  EXPECT_TRUE(screen.world().over);
  press(program_, Key::space);
  EXPECT_EQ(screen.now(), Ms{0});
  for (int i = 0; i < 36'000 && screen.playing(); ++i) program_.pass(tenth);
  EXPECT_FALSE(screen.playing());
  EXPECT_EQ(screen.now(), end);
}

TEST_F(ReplayTest, KeysMoveBySecondsAndByWhatHappened) {
  auto& screen = show(program_, "late:4");
  press(program_, Key::page_down);
  EXPECT_EQ(screen.now(), Ms{15'000});
  press(program_, Key::left);
  EXPECT_EQ(screen.now(), Ms{14'000});
  press(program_, Key::right);
  press(program_, Key::home);
  EXPECT_EQ(screen.now(), Ms{0});
  std::size_t before = screen.marked();
  press(program_, Key::down);
  EXPECT_EQ(screen.marked(), before + 1);
  EXPECT_EQ(screen.now(), screen.moments()[before + 1].at);
  press(program_, Key::up);
  EXPECT_EQ(screen.marked(), before);
}

TEST_F(ReplayTest, EveryMomentCanBeSteppedToAndShowsItsRoom) {
  const auto session = played("forgetful:40");
  auto& screen = show(program_, "forgetful:40");
  drill::Replay fresh(*session.procedure, session.session);
  press(program_, Key::home);
  for (std::size_t i = 0; i < screen.moments().size(); ++i) {
    fresh.to(screen.now());
    EXPECT_EQ(checksum(fresh.world()), checksum(screen.world()));
    press(program_, Key::down);
  }
  EXPECT_EQ(screen.marked(), screen.moments().size() - 1);
}

TEST_F(ReplayTest, OnlyWhatWentWrongCanBeListed) {
  auto& screen = show(program_, "absent");
  program_.handle(Input::of_symbol(U'm'));
  press(program_, Key::home);
  for (int i = 0; i < 20; ++i) {
    press(program_, Key::down);
    EXPECT_TRUE(screen.moments()[screen.marked()].bad);
  }
}

TEST_F(ReplayTest, TheChartIsScrubbedByMouse) {
  auto& screen = show(program_, "late:4");
  look_at(program_, 1280, 720, 1);
  const auto half = on_chart(screen, 0.5), late = on_chart(screen, 0.8);
  program_.handle(Input::of_press(half.x, half.y));
  const Ms middle = screen.now();
  EXPECT_NEAR(to_seconds(middle), to_seconds(screen.chart().end()) / 2, 0.5);
  program_.handle(Input::of_pointer(late.x, 0));  // the pointer may leave the chart meanwhile
  EXPECT_GT(screen.now(), middle);
  program_.handle(Input::of_release(late.x, 0));
  const Ms there = screen.now();
  program_.handle(Input::of_pointer(half.x, half.y));
  EXPECT_EQ(screen.now(), there);
}

TEST_F(ReplayTest, AnErrorIsShownFromShortlyBefore) {
  auto& screen = show(program_, "absent");
  ASSERT_FALSE(screen.score().errors.empty());
  for (std::size_t i = 0; i < screen.score().errors.size(); ++i) {
    screen.show_error(i);
    const Ms at = screen.score().errors[i].at;
    EXPECT_EQ(screen.now(), std::max(Ms{0}, at - ReplayScreen::lead_in));
    EXPECT_EQ(screen.moments()[screen.marked()].error, i);
    screen.set_playing(true);
    for (int k = 0; k < 25; ++k) screen.pass(tenth);
    screen.set_playing(false);
    EXPECT_GE(screen.moments()[screen.marked()].at, std::min(at, screen.now()));
  }
}

TEST_F(ReplayTest, WhatIsMarkedIsSaidWhole) {
  auto& screen = show(program_, "absent");
  screen.show_error(0);
  const auto seen = look_at(program_, 1280, 720, 1);
  EXPECT_TRUE(seen.shows("What comes at"));
  EXPECT_TRUE(seen.shows("Instead: "));
}

std::string all_lines(const Seen& seen) {
  std::string all;
  for (const auto& text : seen.texts) all += text.line + ' ';
  return all;
}

// In large letters and a small window what is said about a mistake is higher than the list: the
// arrows read it to its end, and go on only then.
TEST_F(ReplayTest, WhatDoesNotFitIsReadOnByTheArrows) {
  auto& screen = show(program_, "absent");
  const auto& error = screen.score().errors.front();
  const auto words = words_under(*shelf_[0].procedure, error, english());
  screen.show_error(0);
  const auto marked = screen.marked();
  std::string read;
  int pages = 0;
  for (; screen.marked() == marked && pages < 20; ++pages) {
    read += all_lines(look_at(program_, 960, 540, 2));
    press(program_, Key::down);
  }
  EXPECT_GT(pages, 1) << "a text that needs no reading on tests nothing";
  EXPECT_EQ(screen.marked(), marked + 1);
  for (const auto& text : {words.instead, words.why}) {
    std::istringstream each(text);
    for (std::string word; each >> word;) EXPECT_NE(read.find(word), std::string::npos) << word;
  }
  press(program_, Key::up);
  look_at(program_, 960, 540, 2);
  press(program_, Key::tab);
  EXPECT_EQ(screen.marked(), marked + 1) << "Tab goes on at once";
}

TEST_F(ReplayTest, TheMarkedRowIsInViewAtEverySize) {
  auto& screen = show(program_, "absent");
  for (std::size_t i = 0; i < screen.score().errors.size(); ++i) {
    screen.show_error(i);
    for (const double scale : {1.0, 2.0, 1.0})
      EXPECT_TRUE(look_at(program_, 1280, 720, scale).shows("What comes at")) << i << ", " << scale;
  }
}

TEST_F(ReplayTest, ListsRequestsAndErrorsUnderTheSignsOfTheChart) {
  auto& screen = show(program_, "asked");
  std::vector<std::string> listed, marks;
  for (const auto& m : screen.moments())
    if (m.kind == Kind::request && m.sign != "✗") listed.push_back(m.sign);
  for (const auto& mark : screen.chart().chart().marks)
    if (mark.kind == picture::ChartMark::Kind::request) marks.push_back(mark.text);
  EXPECT_FALSE(listed.empty());
  EXPECT_EQ(listed, marks);
}

TEST_F(ReplayTest, TheWayOutLeadsBack) {
  show(program_, "expert");
  press(program_, Key::escape);
  EXPECT_EQ(program_.stand(), Stand::start);
  program_.show_replay(played("expert"), Stand::closed);
  ASSERT_TRUE(press_on(program_, "Close"));
  EXPECT_TRUE(program_.closed());
}

TEST_F(ReplayTest, SideBySideHasOneAxisAndOpensTheRoomOfEither) {
  program_.show_side_by_side(played("expert"), played("absent"), Stand::start);
  auto& pair = *program_.side_by_side();
  auto seen = look_at(program_, 1280, 720, 1);
  EXPECT_TRUE(seen.shows("better by"));
  EXPECT_NEAR(pair.chart(0).plot().x, pair.chart(1).plot().x, 1e-9);
  EXPECT_NEAR(pair.chart(0).plot().width, pair.chart(1).plot().width, 1e-9);
  for (int i = 0; i < 30; ++i) press(program_, Key::right);
  EXPECT_EQ(pair.moment(), Ms{30'000});
  program_.handle(Input::of_symbol(U'2'));
  ASSERT_NE(pair.watching(), nullptr);
  EXPECT_EQ(pair.watching()->now(), Ms{30'000});
  press(program_, Key::escape);
  EXPECT_EQ(pair.watching(), nullptr);
  press(program_, Key::escape);
  EXPECT_EQ(program_.stand(), Stand::start);
}

// A narrow bar has no room for its name.
TEST_F(ReplayTest, OfTwoSideBySideWhatGoesOnStandsOverEachChart) {
  program_.show_side_by_side(played("expert"), played("absent"), Stand::start);
  auto& pair = *program_.side_by_side();
  int bars = 0;
  for (const std::size_t side : {0, 1})
    for (const auto& lane : pair.chart(side).chart().lanes)
      for (const auto& bar : lane.bars) {
        if (!picture::is_named(bar)) continue;
        ++bars;
        const auto words = pair.chart(side).going_on(bar.from);
        EXPECT_NE(words.find(lane.name + ": "), std::string::npos) << words;
        EXPECT_NE(words.find(bar.label), std::string::npos) << words;
        pair.point(bar.from);
        EXPECT_TRUE(look_at(program_, 1920, 1080, 1).shows(words)) << words;
      }
  EXPECT_GT(bars, 4);
}

TEST_F(ReplayTest, ASessionLeftAtOnceCanBeLookedAt) {
  const auto& p = *shelf_[0].procedure;
  drill::Run run(p, {});
  run.abandon();
  program_.show_replay(just_played(p, run.session()), Stand::start);
  for (const auto key : {Key::space, Key::end, Key::down, Key::up, Key::left, Key::home}) {
    press(program_, key);
    program_.pass(tenth);
    look_at(program_, 1280, 720, 1);
  }
  EXPECT_EQ(program_.replay()->now(), Ms{0});
}

}  // namespace
}  // namespace beforehand::stage
