// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <algorithm>
#include <random>
#include <vector>

#include "scoring/sequence.hpp"

// Partial orders and what was done against them, with steps left out, done again, done out of turn,
// and actions that count for nothing. Invented data.

namespace beforehand::scoring {

struct Case {
  Procedure procedure;
  Trace trace;
  std::vector<int> done;  ///< steps in the order in which they were done; -1: an extra action
};

/// All steps are the one assistant's.
inline Procedure steps_of_one(std::size_t n) {
  Procedure p;
  p.people.resize(1);
  p.people[0].role = procedure::Role::assistant;
  p.before.assign(n, {0});
  for (std::size_t s = 0; s < n; ++s) {
    procedure::Step step;
    step.by = {PersonIx{0}};
    p.steps.push_back(step);
    p.topological.push_back(StepIx{s});
  }
  return p;
}

/// `s` and all that follows it come after `first`. Steps are linked in their order.
inline void link(Procedure& p, std::size_t first, std::size_t s) {
  p.before[s][0] |= p.before[first][0] | (std::uint64_t{1} << first);
}

inline Case performed(Procedure p, std::vector<int> done) {
  Case c{std::move(p), {}, std::move(done)};
  c.trace.steps.resize(c.procedure.steps.size());
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

inline Procedure random_order(std::size_t n, std::mt19937_64& random) {
  Procedure p = steps_of_one(n);
  for (std::size_t s = 0; s < n; ++s) {
    p.steps[s].severity = static_cast<Severity>(random() % 3);
    for (std::size_t q = 0; q < s; ++q)
      if (random() % 3 == 0) link(p, q, s);
  }
  return p;
}

inline Case random_case(std::size_t n, std::mt19937_64& random) {
  Procedure p = random_order(n, random);
  std::vector<int> done;
  for (std::size_t s = 0; s < n; ++s)
    if (random() % 6 != 0) done.push_back(static_cast<int>(s));
  for (std::size_t k = random() % 4; k > 0; --k)
    done.push_back(static_cast<int>(random() % (n + 1)) - 1);
  for (std::size_t k = random() % 6; k > 0 && done.size() > 1; --k)
    std::swap(done[random() % done.size()], done[random() % done.size()]);
  return performed(std::move(p), std::move(done));
}

}  // namespace beforehand::scoring
