// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "study/comparison.hpp"

#include "../drill/play.hpp"

namespace beforehand::study {
namespace {

Comparison compared(const Procedure& b, const std::string& assistant, std::size_t runs,
                    unsigned threads = 2, double within_s = 0) {
  CompareRequest r;
  r.runs.count = runs;
  r.runs.threads = threads;
  r.within_s = within_s;
  return compare(test::tiny(), b, *drill::habit_from(assistant), r);
}

// Lining takes longer by 4 s at every part of its distribution.
Procedure slower() {
  return test::tiny_with("{least: 12 s, usual: 15 s, most: 20 s}",
                         "{least: 16 s, usual: 19 s, most: 24 s}");
}

TEST(Comparison, AProcedureIsNoBetterThanItself) {
  const auto c = compared(test::tiny(), "late:2", 200);
  for (const auto& d : c.differences) {
    EXPECT_EQ(d.b_less_a.mean, 0);
    EXPECT_EQ(d.b_less_a.deviation, 0);
    EXPECT_EQ(d.b_better, 0.5);
  }
  for (const auto& s : c.steps) EXPECT_EQ(s.b_less_a_s, 0);
}

TEST(Comparison, TheSameClinicianMakesTheDifferenceExact) {
  const auto c = compared(slower(), "expert", 200);
  const auto& d = c[Measure::chair_time];
  EXPECT_NEAR(d.b_less_a.mean, 4, 0.002);  // each duration is rounded to a millisecond
  EXPECT_LT(d.b_less_a.deviation, 0.002);
  EXPECT_GT(d.a.deviation, 0.5);  // as both alone vary far more
  EXPECT_EQ(d.b_better, 0);
  ASSERT_FALSE(c.steps.empty());
  EXPECT_EQ(c.steps.front().step, "apply");
}

TEST(Comparison, TheStepsSumUpToTheDifferenceInChairTime) {
  for (const auto* who : {"expert", "asked", "forgetful:50"}) {
    const auto c = compared(slower(), who, 150);
    double a = 0, b = 0, difference = 0;
    for (const auto& s : c.steps) {
      a += s.a_s;
      b += s.b_s;
      difference += s.b_less_a_s;
    }
    EXPECT_NEAR(a, c[Measure::chair_time].a.mean, 1e-9) << who;
    EXPECT_NEAR(b, c[Measure::chair_time].b.mean, 1e-9) << who;
    EXPECT_NEAR(difference, c[Measure::chair_time].b_less_a.mean, 1e-9) << who;
  }
}

TEST(Comparison, TheNumberOfThreadsChangesNothing) {
  const auto one = compared(slower(), "shuffled:40", 260, 1);
  const auto many = compared(slower(), "shuffled:40", 260, 5);
  for (const auto m : measures) {
    EXPECT_EQ(one[m].b_less_a.mean, many[m].b_less_a.mean);
    EXPECT_EQ(one[m].b_less_a.deviation, many[m].b_less_a.deviation);
    EXPECT_EQ(one[m].b_better, many[m].b_better);
  }
  ASSERT_EQ(one.steps.size(), many.steps.size());
  for (std::size_t i = 0; i < one.steps.size(); ++i)
    EXPECT_EQ(one.steps[i].b_less_a_s, many.steps[i].b_less_a_s);
}

TEST(Comparison, PlaysUntilTheDifferenceIsKnown) {
  // How slowly the assistant mixes matters when it was begun late, so it varies.
  const auto mixing = test::tiny_with("{least: 8 s, usual: 10 s, most: 12 s}", "25 s");
  const auto sure = compared(mixing, "forgetful:50", 100'000, 2, 1);
  EXPECT_TRUE(sure.close_enough);
  EXPECT_LE(sure[Measure::chair_time].b_less_a.mean_sure.half_width(), 1);
  EXPECT_EQ(sure.runs % 1000, 0u);
  EXPECT_EQ(sure.wanted, sure.runs);
  const auto never_sure = compared(mixing, "forgetful:50", 1500, 2, 1e-6);
  EXPECT_FALSE(never_sure.close_enough);
  EXPECT_EQ(never_sure.runs, 1500u);
}

TEST(Comparison, StoppedEarlyItSaysSo) {
  CompareRequest r;
  r.runs.count = 50'000;
  r.runs.watch.stopped = [asked = 0]() mutable { return ++asked > 2; };
  const auto c = compare(test::tiny(), slower(), {}, r);
  EXPECT_LT(c.runs, c.wanted);
  EXPECT_EQ(c[Measure::chair_time].a.n, c.runs);
}

}  // namespace
}  // namespace beforehand::study
