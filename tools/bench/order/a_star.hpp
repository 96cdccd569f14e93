// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <algorithm>
#include <array>
#include <bit>
#include <cassert>
#include <cstdint>
#include <queue>
#include <unordered_map>
#include <vector>

#include "procedure/procedure.hpp"

// Aligning a trace to a partial order by A* (Hart, Nilsson and Raphael 1968), to measure beside and
// to check against. Made for partial orders: a state is a set of steps and a place in the trace,
// and the bound counts both off. The general method, which takes any Petri net, is in
// petri_net.hpp.

namespace beforehand::bench {

/// What was done, in order, as positions in `before`; -1: an action outside the model.
using Done = std::vector<int>;

/// Of each step of the model, which other steps must come before it.
using Before = std::vector<std::vector<bool>>;

/// The partial order of a procedure among some of its steps.
inline Before order_among(const procedure::Procedure& p, const std::vector<StepIx>& steps) {
  Before before(steps.size(), std::vector<bool>(steps.size()));
  for (std::size_t i = 0; i < steps.size(); ++i)
    for (std::size_t j = 0; j < steps.size(); ++j) before[i][j] = p.precedes(steps[j], steps[i]);
  return before;
}

/// A least-cost alignment: 1 for each action that is not in the run and each step of the run that
/// was not done.
class AStar {
 public:
  static constexpr std::size_t most_steps = 128;
  struct Result {
    int cost = -1;  ///< -1: given up
    std::size_t states = 0;
  };

  /// Needs no more than most_steps steps. Gives up after so many states.
  Result align(const Before& before, const Done& done, std::size_t most_states) {
    lay_out(before, done);
    reach({}, 0);
    Result result;
    while (!open_.empty() && result.states < most_states) {
      const Entry best = open_.top();
      open_.pop();
      if (best.cost != cost_.at(best.state)) continue;  // reached more cheaply since
      ++result.states;
      if (best.state.position == done.size() && best.state.run == all_) {
        result.cost = best.cost;
        return result;
      }
      expand(best.state, best.cost, done);
    }
    return result;
  }

 private:
  using Steps = std::array<std::uint64_t, most_steps / 64>;
  struct State {
    Steps run{};  ///< steps of the model's run so far
    std::size_t position = 0;
    bool operator==(const State&) const = default;
  };
  struct Hash {
    std::size_t operator()(const State& s) const {
      std::uint64_t h = s.position + 0x9E3779B97F4A7C15u;
      for (const auto word : s.run) h = (h ^ word) * 0xFF51AFD7ED558CCDu;
      return h ^ (h >> 32);
    }
  };
  struct Entry {
    int estimate, cost;
    State state;
    bool operator<(const Entry& other) const {  // of equal estimates the one that got farther
      return estimate != other.estimate ? estimate > other.estimate : cost > other.cost;
    }
  };

  static void add(Steps& set, std::size_t step) {
    set[step / 64] |= std::uint64_t{1} << (step % 64);
  }
  static bool has(const Steps& set, std::size_t step) {
    return (set[step / 64] >> (step % 64)) & 1;
  }

  void lay_out(const Before& before, const Done& done) {
    assert(before.size() <= most_steps);
    all_ = {};
    before_.assign(before.size(), {});
    for (std::size_t i = 0; i < before.size(); ++i) {
      add(all_, i);
      for (std::size_t j = 0; j < before.size(); ++j)
        if (before[i][j]) add(before_[i], j);
    }
    to_come_.assign(done.size() + 1, {});
    for (std::size_t i = done.size(); i-- > 0;) {
      to_come_[i] = to_come_[i + 1];
      if (done[i] >= 0) add(to_come_[i], static_cast<std::size_t>(done[i]));
    }
    cost_.clear();
    open_ = {};
  }

  /// Steps the rest of the trace does not hold, and actions that no step left can match: never more
  /// than what is still to pay.
  int still_to_pay(const State& s) const {
    int missing = 0, matched = 0;
    for (std::size_t w = 0; w < all_.size(); ++w) {
      const std::uint64_t left = all_[w] & ~s.run[w];
      missing += std::popcount(left & ~to_come_[s.position][w]);
      matched += std::popcount(left & to_come_[s.position][w]);
    }
    return missing + static_cast<int>(to_come_.size() - 1 - s.position) - matched;
  }

  void reach(const State& s, int cost) {
    const auto [known, fresh] = cost_.try_emplace(s, cost);
    if (!fresh && known->second <= cost) return;
    known->second = cost;
    open_.push({cost + still_to_pay(s), cost, s});
  }

  bool enabled(const State& s, std::size_t step) const {
    if (has(s.run, step)) return false;
    for (std::size_t w = 0; w < all_.size(); ++w)
      if ((before_[step][w] & ~s.run[w]) != 0) return false;
    return true;
  }

  void expand(const State& s, int cost, const Done& done) {
    if (s.position < done.size()) {
      State log = s;
      ++log.position;
      reach(log, cost + 1);
      const int step = done[s.position];
      if (step >= 0 && enabled(s, static_cast<std::size_t>(step))) {
        add(log.run, static_cast<std::size_t>(step));
        reach(log, cost);
      }
    }
    for (std::size_t step = 0; step < before_.size(); ++step) {
      if (!enabled(s, step)) continue;
      State model = s;
      add(model.run, step);
      reach(model, cost + 1);
    }
  }

  Steps all_{};
  std::vector<Steps> before_;
  std::vector<Steps> to_come_;  ///< by position in the trace: steps it still holds
  std::unordered_map<State, int, Hash> cost_;
  std::priority_queue<Entry> open_;
};

}  // namespace beforehand::bench
