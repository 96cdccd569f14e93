// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// A textbook's project for the programme evaluation and review technique: seven activities with
// optimistic, likely and pessimistic times in weeks, critical path 1-3-5-7, expected 24 weeks,
// variance 5.0, within 28 weeks with a probability of 0.963. Our source gives the times and the
// critical path, not what the other activities follow; here they follow nothing.
#include <gtest/gtest.h>

#include <cmath>

#include "timing/explain.hpp"
#include "timing/pert.hpp"
#include "timing/windows.hpp"

namespace beforehand::timing {
namespace {

using procedure::Estimate;
using procedure::Step;

constexpr Ms week{3'600'000};

Procedure project() {
  const int times[7][3] = {{5, 8, 17}, {7, 10, 13}, {3, 5, 7}, {1, 3, 5},
                           {4, 6, 8},  {3, 3, 3},   {3, 4, 5}};
  const int follows[7] = {0, 0, 1, 0, 3, 0, 5};
  Procedure p;
  for (int i = 0; i < 7; ++i) {
    // An activity each: nobody does two, so that only the network counts.
    p.people.emplace_back();
    Step step;
    step.id = step.title = std::to_string(i + 1);
    step.by = {PersonIx{static_cast<std::size_t>(i)}};
    step.takes = {times[i][0] * week, times[i][1] * week, times[i][2] * week};
    if (follows[i] > 0) {
      step.after.emplace_back();
      step.after.back().step = StepIx{static_cast<std::size_t>(follows[i] - 1)};
    }
    p.steps.push_back(step);
  }
  return p;
}

TEST(Pert, ExpectedTimesGiveTheCriticalPath) {
  auto p = project();
  for (auto& s : p.steps) s.takes.usual = spread_of(s.takes).mean;
  EXPECT_EQ(earliest_finish(p, {}), 24 * week);
  const auto found = plan(p);
  EXPECT_EQ(found.chair_time, 24 * week);
  std::vector<std::string> chain;
  for (const auto& link : explain(p, {}, found).chain) chain.push_back(p.step(link.step).id);
  EXPECT_EQ(chain, (std::vector<std::string>{"1", "3", "5", "7"}));
}

TEST(Pert, VarianceAndProbabilityOfTheCriticalPath) {
  const auto p = project();
  Spread sum;
  for (const auto i : {0u, 2u, 4u, 6u}) sum = sum + spread_of(p.steps[i].takes);
  const double weeks = to_seconds(week);
  EXPECT_EQ(sum.mean, 24 * week);
  EXPECT_NEAR(sum.variance_s2 / (weeks * weeks), 5.0, 1e-9);
  EXPECT_NEAR(chance_within(sum, 28 * week), 0.9632, 0.00005);
}

}  // namespace
}  // namespace beforehand::timing
