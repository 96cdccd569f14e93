// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// Fairness on procedures made up by chance, which nobody tuned the scale to. Invented, all of them.
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <deque>

#include "../drill/play.hpp"
#include "made_up.hpp"
#include "scoring/scorer.hpp"

namespace beforehand::scoring {
namespace {

/// One procedure made up by chance, played and scored again and again.
class Sample {
 public:
  Sample(std::uint64_t seed, const test::Shape& shape) : procedure_(test::made_up(seed, shape)) {}
  explicit Sample(std::uint64_t seed) : Sample(seed, test::any_shape(seed)) {}

  const Score& score(const std::string& habit, std::uint64_t seed) {
    drill::Setup setup;
    setup.seed = seed;
    setup.assistant = habit;
    drill::Run run(procedure_, setup);
    drill::cast(run, drill::habit_from(habit), finder_);
    run.play_out();
    return scorer_.score(run.session());
  }

  double mean_total(const std::string& habit, std::uint64_t seeds) {
    double sum = 0;
    for (std::uint64_t seed = 1; seed <= seeds; ++seed) sum += score(habit, seed).total;
    return sum / static_cast<double>(seeds);
  }

  const Procedure& procedure() const { return procedure_; }

 private:
  Procedure procedure_;
  Scorer scorer_{procedure_, procedure_.who(procedure::Role::assistant)};
  std::shared_ptr<timing::WindowFinder> finder_ =
      std::make_shared<timing::WindowFinder>(procedure_);
};

std::string mistakes(const Score& s) {
  std::string all;
  for (const Error& e : s.errors) all += "\n  " + e.what;
  return all;
}

bool of_setting(const Error& e) {
  return e.kind == ErrorKind::too_early || e.kind == ErrorKind::expired;
}

bool something_set(const Score& s) {
  return std::any_of(s.errors.begin(), s.errors.end(), of_setting);
}

// The expert -------------------------------------------------------------------------------------

class FairToTheExpert : public testing::TestWithParam<std::uint64_t> {};

TEST_P(FairToTheExpert, WhateverTheProcedure) {
  for (std::uint64_t seed = GetParam(); seed < GetParam() + 250; ++seed) {
    Sample sample(seed);
    const Score& s = sample.score("expert", seed);
    EXPECT_GE(s.total, 97) << "made up with seed " << seed << mistakes(s);
  }
}

INSTANTIATE_TEST_SUITE_P(AThousand, FairToTheExpert, testing::Values(1, 251, 501, 751));

// The ladder -------------------------------------------------------------------------------------

// The mean over 200 drills, each of another procedure and with another seed.
class FairLadder : public testing::Test {
 protected:
  static constexpr std::uint64_t drills = 200;

  FairLadder() {
    for (std::uint64_t seed = 1; seed <= drills; ++seed) samples_.emplace_back(seed);
  }

  double mean_total(const std::string& habit) {
    double sum = 0;
    for (std::uint64_t i = 0; i < drills; ++i) sum += samples_[i].score(habit, i + 1).total;
    return sum / drills;
  }

  void expect_never_rising(const std::string& habit, int to, int by) {
    double last = mean_total("expert");
    for (int dose = by; dose <= to; dose += by) {
      const double total = mean_total(habit + std::to_string(dose));
      EXPECT_LE(total, last + 1e-9) << habit << dose;
      last = total;
    }
    EXPECT_LT(last, 90) << "at its worst the habit must show";
  }

  std::deque<Sample> samples_;  // none of them moves: scorers hold on to their procedures
};

TEST_F(FairLadder, NeitherLateNorForgetfulNorOutOfOrderIsEverBetter) {
  expect_never_rising("late:", 10, 1);
  expect_never_rising("forgetful:", 100, 20);
  expect_never_rising("shuffled:", 100, 20);
}

// Making everything ready at once ----------------------------------------------------------------

TEST(FairToTheEager, CostsPointsWhereverSomethingSets) {
  int spoilt = 0;
  for (std::uint64_t seed = 1; seed <= 60; ++seed) {
    Sample sample(seed);
    const double expert = sample.score("expert", seed).total;
    const Score& s = sample.score("eager", seed);
    if (!something_set(s)) continue;
    ++spoilt;
    EXPECT_LT(s.total, expert) << "made up with seed " << seed;
  }
  EXPECT_GE(spoilt, 30) << "most of those made up have things that set";
}

TEST(FairToTheEager, CostsNextToNothingWhereNothingSets) {
  for (std::uint64_t seed = 1; seed <= 60; ++seed) {
    auto shape = test::any_shape(seed);
    shape.sets = false;
    Sample sample(seed, shape);
    const Score& s = sample.score("eager", seed);
    EXPECT_GE(s.total, 99) << "made up with seed " << seed << mistakes(s);
    EXPECT_FALSE(something_set(s)) << "made up with seed " << seed << mistakes(s);
  }
}

// Level and pace ---------------------------------------------------------------------------------

class FairAtAnyPace : public testing::TestWithParam<const char*> {
 protected:
  // Played by a window that shows a frame every `frame` of drill time: the slower the machine or
  // the faster the pace, the more passes from frame to frame.
  static drill::Session play(const Procedure& p, drill::Level level, Ms frame) {
    drill::Setup setup;
    setup.seed = 7;
    setup.level = level;
    setup.assistant = GetParam();
    drill::Run run(p, setup);
    test::cast(run, GetParam());
    while (!run.over()) run.advance_to(run.now() + frame);
    return run.session();
  }
};

TEST_P(FairAtAnyPace, NeitherLevelNorPaceChangesTheScore) {
  using drill::Level;
  for (std::uint64_t seed = 1; seed <= 4; ++seed) {
    const Procedure p = test::made_up(seed);
    Scorer scorer(p, p.who(procedure::Role::assistant));
    const auto first = play(p, Level::guided, Ms{16});
    const Score score = scorer.score(first);
    for (const auto level : {Level::unaided, Level::assessed})
      for (const auto frame : {Ms{17}, Ms{250}, Ms{4000}}) {
        const auto session = play(p, level, frame);
        EXPECT_EQ(session.commands, first.commands);
        EXPECT_EQ(session.events, first.events);
        const Score& other = scorer.score(session);
        EXPECT_EQ(other.total, score.total) << "made up with seed " << seed;
        EXPECT_EQ(other.stretches, score.stretches);
      }
  }
}

INSTANTIATE_TEST_SUITE_P(Habits, FairAtAnyPace,
                         testing::Values("expert", "late:3", "shuffled:40", "asked"));

// Length -----------------------------------------------------------------------------------------

class FairToTheLong : public testing::TestWithParam<const char*> {};

// The same phase once, twice and four times; the short ones are played more often, so that as many
// phases are averaged.
TEST_P(FairToTheLong, TheSameHabitScoresTheSameWithinAPoint) {
  constexpr int procedures = 30;
  std::array<double, 3> mean{};
  for (std::uint64_t seed = 1; seed <= procedures; ++seed) {
    for (std::size_t doubled = 0; doubled < mean.size(); ++doubled) {
      Sample sample(seed, {.phases = 1 << doubled, .blocks = 3, .distinct = 1});
      mean[doubled] += sample.mean_total(GetParam(), 8U >> doubled) / procedures;
    }
  }
  EXPECT_LT(mean[0], 98) << "the habit shows";
  EXPECT_NEAR(mean[1], mean[0], 1);
  EXPECT_NEAR(mean[2], mean[0], 1);
}

INSTANTIATE_TEST_SUITE_P(Habits, FairToTheLong, testing::Values("late:3", "forgetful:20"));

}  // namespace
}  // namespace beforehand::scoring
