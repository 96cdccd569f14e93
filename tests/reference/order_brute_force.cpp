// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// The alignment against its definition, spelled out: the least number of insertions and deletions
// that turns what was done into a run the partial order allows, over all such runs (its linear
// extensions). Random partial orders of up to 8 steps (invented data), with steps left out, done
// again, done out of turn, and actions that count for nothing.
#include <gtest/gtest.h>

#include <algorithm>
#include <numeric>
#include <random>

#include "scoring/sequence.hpp"

namespace beforehand::scoring {
namespace {

struct Case {
  Procedure procedure;
  Trace trace;
  std::vector<int> done;  ///< steps in the order in which they were done; -1: an extra action
};

Procedure random_order(std::size_t n, std::mt19937_64& random) {
  Procedure p;
  p.people.resize(1);
  p.people[0].role = procedure::Role::assistant;
  p.before.assign(n, {0});
  for (std::size_t s = 0; s < n; ++s) {
    procedure::Step step;
    step.by = {PersonIx{0}};
    step.severity = static_cast<Severity>(random() % 3);
    p.steps.push_back(step);
    p.topological.push_back(StepIx{s});
    for (std::size_t q = 0; q < s; ++q)
      if (random() % 3 == 0) p.before[s][0] |= p.before[q][0] | (std::uint64_t{1} << q);
  }
  return p;
}

Case random_case(std::size_t n, std::mt19937_64& random) {
  Case c{random_order(n, random), {}, {}};
  for (std::size_t s = 0; s < n; ++s)
    if (random() % 6 != 0) c.done.push_back(static_cast<int>(s));
  for (std::size_t k = random() % 4; k > 0; --k)
    c.done.push_back(static_cast<int>(random() % (n + 1)) - 1);
  for (std::size_t k = random() % 6; k > 0 && c.done.size() > 1; --k)
    std::swap(c.done[random() % c.done.size()], c.done[random() % c.done.size()]);
  c.trace.steps.resize(n);
  c.trace.whole = true;
  for (const int s : c.done) {
    Action a;
    a.outcome = Action::Outcome::effect;
    if (s >= 0) a.step = StepIx{static_cast<std::size_t>(s)};
    if (s >= 0) c.trace.steps[static_cast<std::size_t>(s)].by_trainee = true;
    c.trace.actions.push_back(a);
  }
  return c;
}

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
