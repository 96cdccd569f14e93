// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// Fairness: the scale tried on bots whose habits are known, on every shipped scenario.
#include <gtest/gtest.h>

#include <algorithm>

#include "../drill/play.hpp"
#include "scoring/debrief.hpp"
#include "scoring/scorer.hpp"

namespace beforehand::scoring {
namespace {

struct Shipped {
  const char* id;
  bool one_at_a_time = false;  ///< nothing else is wanted while what sets is made ready
};

class Ladder : public testing::TestWithParam<Shipped> {
 protected:
  static constexpr std::uint64_t seeds = 200;

  bool sets() const {
    return std::any_of(procedure_.supplies.begin(), procedure_.supplies.end(),
                       [](const auto& s) { return s.working_time != never; });
  }

  double mean_total(const std::string& habit) {
    double sum = 0;
    for (std::uint64_t seed = 1; seed <= seeds; ++seed)
      sum += scorer_.score(test::play(procedure_, habit, seed), {}).total;
    return sum / seeds;
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

  Procedure procedure_ =
      test::scenario(std::string("scenarios/") + GetParam().id + "/scenario.yaml");
  PersonIx trainee_ = procedure_.who(procedure::Role::assistant);
  Scorer scorer_{procedure_, trainee_};
};

TEST_P(Ladder, TheExpertIsReadyWithEverySeed) {
  for (std::uint64_t seed = 1; seed <= seeds; ++seed) {
    const Score& s = scorer_.score(test::play(procedure_, "expert", seed), {});
    EXPECT_GE(s.total, 97) << "seed " << seed;
    EXPECT_GE(s.idle, 0.95) << "seed " << seed;
    EXPECT_EQ(s.verdict, Verdict::ready) << "seed " << seed;
  }
}

TEST_P(Ladder, WhoIsAbsentGetsNextToNothing) { EXPECT_LT(mean_total("absent"), 40); }

TEST_P(Ladder, LaterIsNeverBetter) { expect_never_rising("late:", 10, 1); }

TEST_P(Ladder, ForgettingMoreIsNeverBetter) { expect_never_rising("forgetful:", 100, 20); }

TEST_P(Ladder, MoreOutOfOrderIsNeverBetter) { expect_never_rising("shuffled:", 100, 20); }

TEST_P(Ladder, MakingEverythingReadyAtOnceIsPunishedWhereItSets) {
  if (!sets()) GTEST_SKIP() << "nothing sets here";
  const Score& s = scorer_.score(test::play(procedure_, "eager", 1), {});
  EXPECT_LT(s.total, 97);
  const auto of_setting = [](const Error& e) {
    return e.kind == ErrorKind::too_early || e.kind == ErrorKind::expired;
  };
  EXPECT_TRUE(std::any_of(s.errors.begin(), s.errors.end(), of_setting));
  if (!GetParam().one_at_a_time) return;  // something else is late while all is mixed
  for (const Error& e : s.errors) EXPECT_TRUE(of_setting(e)) << e.what;
}

TEST_P(Ladder, EveryPersonsTimeAddsUpWhateverTheHabit) {
  for (const std::string habit : {"expert", "late:3", "forgetful:30", "shuffled:70", "absent"}) {
    const Score& s = scorer_.score(test::play(procedure_, habit, 3), {});
    for (const auto& person : s.time) EXPECT_EQ(person.total(), s.chair_time) << habit;
  }
}

TEST_P(Ladder, LostPointsOfTheDebriefNeverExceedWhatWasLost) {
  for (const std::string habit : {"late:5", "forgetful:40", "shuffled:50", "eager", "absent"}) {
    const Score& s = scorer_.score(test::play(procedure_, habit, 5), {});
    const Debrief d = debrief(procedure_, s);
    double points = 0;
    for (const auto& advice : d.change) points += advice.points;
    EXPECT_LE(points, 100 - s.total + 1e-6) << habit;
    EXPECT_GE(points, 0.6 * (100 - s.total)) << habit << ": three things must explain the most";
    EXPECT_FALSE(d.well.empty());
  }
}

INSTANTIATE_TEST_SUITE_P(Shipped, Ladder,
                         testing::Values(Shipped{"fissure-sealant", true},
                                         Shipped{"class-ii-composite", true}, Shipped{"rubber-dam"},
                                         Shipped{"simple-extraction"}, Shipped{"crown-preparation"},
                                         Shipped{"core-build-up"}, Shipped{"chair-emergency"},
                                         Shipped{"room-turnover"}),
                         [](const auto& parameter) {
                           std::string name = parameter.param.id;
                           std::replace(name.begin(), name.end(), '-', '_');
                           return name;
                         });

}  // namespace
}  // namespace beforehand::scoring
