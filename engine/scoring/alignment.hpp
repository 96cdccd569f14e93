// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <cstdint>
#include <vector>

// Optimal alignment of a sequence of actions to a partial order in which each step stands once.
//
// Of two performed actions, i before j, at most one can stand in a run that the partial order
// allows when j's step must precede, or is, i's step. "Cannot stand together" is itself a partial
// order on the actions, so the most actions that can be kept are a largest antichain (Dilworth,
// Ann. Math. 51, 1950, 161), found by bipartite matching (Fulkerson 1956; Hopcroft and Karp 1973).
// With a weight on each action the heaviest antichain is the dual of a minimum flow.

namespace beforehand::scoring {

/// A strict partial order on `size` items: bit j of row i is set when i is below j. Transitive.
class Poset {
 public:
  explicit Poset(std::size_t size = 0) { reset(size); }
  void reset(std::size_t size);
  std::size_t size() const { return size_; }
  std::size_t words() const { return words_; }
  void set_below(std::size_t i, std::size_t j) {
    rows_[i * words_ + j / 64] |= std::uint64_t{1} << (j % 64);
  }
  bool below(std::size_t i, std::size_t j) const {
    return (rows_[i * words_ + j / 64] >> (j % 64)) & 1u;
  }
  const std::uint64_t* row(std::size_t i) const { return &rows_[i * words_]; }

 private:
  std::size_t size_ = 0, words_ = 0;
  std::vector<std::uint64_t> rows_;
};

/// Finds antichains; keeps its memory from call to call.
class AntichainFinder {
 public:
  /// A largest set of items none of which is below another: kept[i] is true for its members.
  /// Returns its size.
  int largest(const Poset&, std::vector<bool>& kept);

  /// The same with the greatest sum of weights. Weights are positive. Returns that sum.
  int heaviest(const Poset&, const std::vector<int>& weights, std::vector<bool>& kept);

 private:
  void prepare(const Poset&, const std::vector<int>& weights);
  int greedy(const Poset&);
  bool find_levels(const Poset&);
  int push(const Poset&, std::size_t left, int amount);
  int flow_to(std::size_t left, std::size_t right) const { return flow_[left * n_ + right]; }
  void add_flow(std::size_t left, std::size_t right, int amount);

  std::size_t n_ = 0, words_ = 0;
  std::vector<int> flow_;                ///< by left item, then right item
  std::vector<std::uint64_t> carriers_;  ///< by right item: left items that send it something
  std::vector<int> left_free_, right_free_;
  std::vector<int> left_level_, right_level_;
  std::vector<std::uint64_t> unseen_;
  std::vector<std::size_t> queue_;
  std::vector<std::size_t> next_right_, next_left_;  ///< where a search through an item goes on
  std::vector<int> ones_;
};

}  // namespace beforehand::scoring
