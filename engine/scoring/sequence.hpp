// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <vector>

#include "scoring/alignment.hpp"
#include "scoring/score.hpp"
#include "scoring/trace.hpp"

namespace beforehand::scoring {

/// How the trainee's actions align to the steps that were the trainee's.
struct Alignment {
  Order order;
  /// The same sums with every action and step at the weight of its severity; an action that counts
  /// for no step weighs as a minor one.
  int weighed_actions = 0, weighed_steps = 0, weighed_kept = 0;
  std::vector<bool> expected;  ///< by step
  std::vector<bool> kept;      ///< by action of the trace, in the weighed alignment
};

class Aligner {
 public:
  const Alignment& align(const Frame&, const Session&, const Trace&);

 private:
  void expect(const Frame&, const Session&, const Trace&);
  void choose_candidates(const Frame&, const Trace&);
  bool any_conflict(const Frame&, const Trace&);
  void relate(const Frame&, const Trace&);
  void keep_antichain(const Frame&, const Trace&);

  Alignment result_;
  std::vector<std::size_t> candidates_;  ///< positions in the trace's actions
  std::vector<int> weights_;
  std::vector<std::uint64_t> seen_;
  std::vector<bool> kept_;
  Poset poset_;
  AntichainFinder finder_;
};

/// 1 - (cost + faults) / (actions + steps), all weighed, not below 0. `faults` is the weight of the
/// errors that an order of steps cannot show.
double sequence_score(const Alignment&, int faults);

}  // namespace beforehand::scoring
