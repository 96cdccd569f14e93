// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// The alignment against its definition, spelled out: the least number of insertions and deletions
// that turns what was done into a run the partial order allows, over all such runs (its linear
// extensions). Random partial orders of up to 8 steps (invented data).
#include <gtest/gtest.h>

#include <algorithm>
#include <numeric>
#include <random>

#include "random_orders.hpp"

namespace beforehand::scoring {
namespace {

/// The heaviest common subsequence of what was done and one allowed run.
int common(const std::vector<int>& done, const std::vector<int>& run, const auto& weight_of) {
  std::vector<int> best(run.size() + 1, 0);
  for (const int s : done) {
    int diagonal = 0;
    for (std::size_t j = 0; j < run.size(); ++j) {
      const int above = best[j + 1];
      best[j + 1] = std::max({above, best[j], s == run[j] ? diagonal + weight_of(s) : 0});
      diagonal = above;
    }
  }
  return best.back();
}

int best_over_all_runs(const Case& c, const auto& weight_of) {
  std::vector<int> run(c.procedure.steps.size());
  std::iota(run.begin(), run.end(), 0);
  int best = 0;
  do {
    std::uint64_t seen = 0;
    const bool allowed = std::all_of(run.begin(), run.end(), [&](int s) {
      const auto before = c.procedure.before[static_cast<std::size_t>(s)][0];
      seen |= std::uint64_t{1} << s;
      return (before & ~seen) == 0;
    });
    if (allowed) best = std::max(best, common(c.done, run, weight_of));
  } while (std::next_permutation(run.begin(), run.end()));
  return best;
}

TEST(OrderReference, AlignmentIsTheBestOverAllLinearExtensions) {
  std::mt19937_64 random(20260101);
  Aligner aligner;
  int imperfect = 0;
  for (int i = 0; i < 400; ++i) {
    const std::size_t n = i < 360 ? 1 + random() % 6 : 7 + random() % 2;
    const Case c = random_case(n, random);
    const Frame frame(c.procedure, PersonIx{0});
    const Alignment& found = aligner.align(frame, Session{}, c.trace);
    const int actions = static_cast<int>(c.done.size()), steps = static_cast<int>(n);
    const int kept = best_over_all_runs(c, [](int) { return 1; });
    EXPECT_EQ(found.order.kept, kept) << "case " << i;
    EXPECT_EQ(found.order.cost, actions + steps - 2 * kept);
    EXPECT_DOUBLE_EQ(found.order.fitness,
                     1 - static_cast<double>(found.order.cost) / (actions + steps));
    const auto weight_of = [&](int s) {
      return weight(c.procedure.steps[static_cast<std::size_t>(s)].severity);
    };
    EXPECT_EQ(found.weighed_kept, best_over_all_runs(c, weight_of)) << "case " << i;
    imperfect += kept < std::min(actions, steps) ? 1 : 0;
  }
  EXPECT_GT(imperfect, 100) << "the cases must put it to the test";
}

}  // namespace
}  // namespace beforehand::scoring
