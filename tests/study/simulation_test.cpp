// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "study/simulation.hpp"

#include "../drill/play.hpp"

namespace beforehand::study {
namespace {

Simulation played(const std::string& assistant, std::size_t runs, unsigned threads) {
  Runs r;
  r.count = runs;
  r.threads = threads;
  return simulate(test::tiny(), *drill::habit_from(assistant), r);
}

TEST(Simulation, TheNumberOfThreadsChangesNothing) {
  const auto one = played("forgetful:30", 330, 1);
  for (const unsigned threads : {2u, 5u}) {
    const auto many = played("forgetful:30", 330, threads);
    EXPECT_EQ(one.outcomes, many.outcomes);
    ASSERT_EQ(one.waiting.size(), many.waiting.size());
    for (std::size_t i = 0; i < one.waiting.size(); ++i)
      EXPECT_EQ(one.waiting[i].wait, many.waiting[i].wait);
  }
}

TEST(Simulation, IsWhatTheDrillsAloneGive) {
  const auto p = test::tiny();
  const auto s = played("late:4", 60, 2);
  ASSERT_EQ(s.outcomes.size(), 60u);
  for (const std::uint64_t seed : {1u, 7u, 60u}) {
    const auto score =
        scoring::score(p, test::play(p, "late:4", seed), p.who(procedure::Role::assistant));
    const auto& outcome = s.outcomes[seed - 1];
    EXPECT_EQ(outcome[Measure::chair_time], to_seconds(score.chair_time));
    EXPECT_EQ(outcome[Measure::clinician_wait], to_seconds(score.clinician_wait));
    EXPECT_EQ(outcome[Measure::requests], score.requests);
    EXPECT_EQ(outcome[Measure::total], score.total);
  }
}

TEST(Simulation, CountsWhoIsWaitedFor) {
  const auto s = played("absent", 100, 2);
  std::size_t asked = 0;
  for (const auto& w : s.waiting) {
    EXPECT_LE(w.waited, w.arose);
    EXPECT_LE(w.asked, w.waited);
    asked += w.asked;
  }
  double requests = 0;
  for (const double v : s.sample(Measure::requests)) requests += v;
  EXPECT_EQ(requests, static_cast<double>(asked));
  EXPECT_GT(asked, 0u);
}

TEST(Simulation, StoppedEarlyItIsThatOfTheFirstRuns) {
  Runs r;
  r.count = 100'000;
  r.watch.stopped = [asked = 0]() mutable { return ++asked > 2; };
  const auto part = simulate(test::tiny(), {}, r);
  ASSERT_LT(part.outcomes.size(), r.count);
  EXPECT_EQ(part.wanted, r.count);
  EXPECT_EQ(part.outcomes, played("expert", part.outcomes.size(), 1).outcomes);
}

}  // namespace
}  // namespace beforehand::study
