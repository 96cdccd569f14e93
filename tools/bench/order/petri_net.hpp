// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <cstdint>
#include <queue>
#include <unordered_map>
#include <vector>

#include "a_star.hpp"

// The published general way to align a trace to a model (van der Aalst, Adriansyah and van Dongen,
// Replaying history on process models, 2012; Adriansyah, Aligning observed and modeled behavior,
// 2014; both from memory), plainly: A* over the synchronous product of the model's Petri net and
// the trace's, with markings as states. The bound is the simplest admissible one that looks at the
// net: actions still to come whose label no transition of the model has. No marking equation.

namespace beforehand::bench {

/// Counts of tokens by place.
using Marking = std::vector<std::uint8_t>;

struct Transition {
  std::vector<std::uint32_t> takes, puts;  ///< places
  int cost = 0;
};

/// The synchronous product of a partial order's net and of a trace's.
struct Product {
  std::vector<Transition> transitions;
  Marking first, last;
  std::uint32_t trace = 0;   ///< the trace's first place; they follow one another
  std::vector<int> unknown;  ///< by place of the trace: actions from there on without a label
};

/// A place for each link of the order that no others imply, one before and one after each step
/// without such, and one before and after each action. A step is a move of the model (cost 1), an
/// action a move of the trace (cost 1), both together a move of both (cost 0).
inline Product product_of(const Before& before, const Done& done) {
  Product net;
  std::vector<Transition> model(before.size());
  const auto place = [&](bool first, bool last) {
    net.first.push_back(first ? 1 : 0);
    net.last.push_back(last ? 1 : 0);
    return static_cast<std::uint32_t>(net.first.size() - 1);
  };
  const auto implied = [&](std::size_t i, std::size_t j) {
    for (std::size_t k = 0; k < before.size(); ++k)
      if (before[i][k] && before[k][j]) return true;
    return false;
  };
  for (std::size_t i = 0; i < before.size(); ++i)
    for (std::size_t j = 0; j < before.size(); ++j)
      if (before[i][j] && !implied(i, j)) {
        const auto link = place(false, false);
        model[j].puts.push_back(link);
        model[i].takes.push_back(link);
      }
  for (auto& t : model) {
    if (t.takes.empty()) t.takes.push_back(place(true, false));
    if (t.puts.empty()) t.puts.push_back(place(false, true));
    t.cost = 1;
  }
  net.transitions = model;
  net.trace = place(true, done.empty());
  net.unknown.assign(done.size() + 1, 0);
  for (std::size_t i = done.size(); i-- > 0;)
    net.unknown[i] = net.unknown[i + 1] + (done[i] < 0 ? 1 : 0);
  for (std::size_t i = 0; i < done.size(); ++i) {
    const auto to = place(false, i + 1 == done.size());
    net.transitions.push_back({{to - 1}, {to}, 1});
    if (done[i] < 0) continue;
    Transition both = model[static_cast<std::size_t>(done[i])];
    both.takes.push_back(to - 1);
    both.puts.push_back(to);
    both.cost = 0;
    net.transitions.push_back(both);
  }
  return net;
}

/// The least cost from the first marking of a product to its last.
class MarkingSearch {
 public:
  explicit MarkingSearch(const Product& net) : net_(net), enters_(net.first.size()) {
    for (std::size_t t = 0; t < net.transitions.size(); ++t)
      enters_[net.transitions[t].takes.front()].push_back(t);
  }

  AStar::Result find(std::size_t most_states) {
    reach(net_.first, 0);
    AStar::Result result;
    while (!open_.empty() && result.states < most_states) {
      const Entry best = open_.top();
      open_.pop();
      if (best.cost != best.at->second) continue;  // reached more cheaply since
      ++result.states;
      if (best.at->first == net_.last) {
        result.cost = best.cost;
        return result;
      }
      expand(best.at->first, best.cost);
    }
    return result;
  }

 private:
  struct Hash {
    std::size_t operator()(const Marking& m) const {
      std::uint64_t h = 0xCBF29CE484222325u;
      for (const auto tokens : m) h = (h ^ tokens) * 0x100000001B3u;
      return h;
    }
  };
  using Known = std::unordered_map<Marking, int, Hash>;
  struct Entry {
    int estimate, cost;
    const Known::value_type* at;
    bool operator<(const Entry& other) const {  // of equal estimates the one that got farther
      return estimate != other.estimate ? estimate > other.estimate : cost < other.cost;
    }
  };

  int still_to_pay(const Marking& m) const {
    for (std::size_t i = 0; i < net_.unknown.size(); ++i)
      if (m[net_.trace + i] != 0) return net_.unknown[i];
    return 0;
  }

  void reach(Marking m, int cost) {
    const int estimate = cost + still_to_pay(m);
    const auto [known, fresh] = known_.try_emplace(std::move(m), cost);
    if (!fresh && known->second <= cost) return;
    known->second = cost;
    open_.push({estimate, cost, &*known});
  }

  void expand(const Marking& m, int cost) {
    for (std::size_t place = 0; place < m.size(); ++place) {
      if (m[place] == 0) continue;
      for (const std::size_t t : enters_[place]) fire(m, net_.transitions[t], cost);
    }
  }

  void fire(const Marking& m, const Transition& t, int cost) {
    for (const auto place : t.takes)
      if (m[place] == 0) return;
    Marking next = m;
    for (const auto place : t.takes) --next[place];
    for (const auto place : t.puts) ++next[place];
    reach(std::move(next), cost + t.cost);
  }

  const Product& net_;
  std::vector<std::vector<std::size_t>> enters_;  ///< by place: transitions that take from it first
  Known known_;
  std::priority_queue<Entry> open_;
};

}  // namespace beforehand::bench
