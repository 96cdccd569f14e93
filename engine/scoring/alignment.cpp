// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "scoring/alignment.hpp"

#include <algorithm>
#include <bit>
#include <cassert>
#include <limits>
#include <numeric>

namespace beforehand::scoring {
namespace {

/// The first set bit at or after `from`, or `size`.
template <class Word>
std::size_t next_bit(Word word, std::size_t words, std::size_t from, std::size_t size) {
  std::size_t w = from / 64;
  if (w >= words) return size;
  std::uint64_t bits = word(w) & (~std::uint64_t{0} << (from % 64));
  while (bits == 0) {
    if (++w == words) return size;
    bits = word(w);
  }
  return w * 64 + static_cast<std::size_t>(std::countr_zero(bits));
}

}  // namespace

void Poset::reset(std::size_t size) {
  size_ = size;
  words_ = (size + 63) / 64;
  rows_.assign(size_ * words_, 0);
}

// Each item stands twice, left and right, each time with its weight as the most that may flow
// through it; an edge leads from left i to right j where i is below j. A greatest flow tells how
// much weight the chains of a least cover save; its cut tells the antichain. The flow is found in
// rounds of shortest augmenting paths, which with all weights 1 is the algorithm of Hopcroft and
// Karp.

int AntichainFinder::largest(const Poset& order, std::vector<bool>& kept) {
  ones_.assign(order.size(), 1);
  return heaviest(order, ones_, kept);
}

int AntichainFinder::heaviest(const Poset& order, const std::vector<int>& weights,
                              std::vector<bool>& kept) {
  assert(weights.size() == order.size());
  prepare(order, weights);
  int flow = greedy(order);
  while (find_levels(order)) {
    next_right_.assign(n_, 0);
    next_left_.assign(n_, 0);
    for (std::size_t i = 0; i < n_; ++i)
      while (left_free_[i] > 0) {
        const int pushed = push(order, i, left_free_[i]);
        if (pushed == 0) break;
        left_free_[i] -= pushed;
        flow += pushed;
      }
  }
  // What the last search reached on the left but not on the right lies on no saturated side.
  kept.assign(n_, false);
  for (std::size_t i = 0; i < n_; ++i) kept[i] = left_level_[i] >= 0 && right_level_[i] < 0;
  return std::accumulate(weights.begin(), weights.end(), 0) - flow;
}

void AntichainFinder::prepare(const Poset& order, const std::vector<int>& weights) {
  n_ = order.size();
  words_ = order.words();
  flow_.assign(n_ * n_, 0);
  carriers_.assign(n_ * words_, 0);
  left_free_ = right_free_ = weights;
}

void AntichainFinder::add_flow(std::size_t left, std::size_t right, int amount) {
  int& f = flow_[left * n_ + right];
  f += amount;
  std::uint64_t& carriers = carriers_[right * words_ + left / 64];
  const std::uint64_t bit = std::uint64_t{1} << (left % 64);
  if (f > 0)
    carriers |= bit;
  else
    carriers &= ~bit;
}

int AntichainFinder::greedy(const Poset& order) {
  int flow = 0;
  for (std::size_t i = 0; i < n_; ++i) {
    const auto row = [&](std::size_t w) { return order.row(i)[w]; };
    for (std::size_t j = next_bit(row, words_, 0, n_); j < n_ && left_free_[i] > 0;
         j = next_bit(row, words_, j + 1, n_)) {
      const int amount = std::min(left_free_[i], right_free_[j]);
      if (amount == 0) continue;
      add_flow(i, j, amount);
      left_free_[i] -= amount;
      right_free_[j] -= amount;
      flow += amount;
    }
  }
  return flow;
}

/// Breadth first from all left items with something left to send; true when a right item that can
/// take more is reached.
bool AntichainFinder::find_levels(const Poset& order) {
  left_level_.assign(n_, -1);
  right_level_.assign(n_, -1);
  unseen_.assign(words_, ~std::uint64_t{0});
  queue_.clear();
  for (std::size_t i = 0; i < n_; ++i)
    if (left_free_[i] > 0) {
      left_level_[i] = 0;
      queue_.push_back(i);
    }
  bool reached = false;
  for (std::size_t head = 0; head < queue_.size(); ++head) {
    const std::size_t i = queue_[head];
    const auto fresh = [&](std::size_t w) { return order.row(i)[w] & unseen_[w]; };
    for (std::size_t j = next_bit(fresh, words_, 0, n_); j < n_;
         j = next_bit(fresh, words_, j + 1, n_)) {
      unseen_[j / 64] &= ~(std::uint64_t{1} << (j % 64));
      right_level_[j] = left_level_[i] + 1;
      if (right_free_[j] > 0) reached = true;
      const auto senders = [&](std::size_t w) { return carriers_[j * words_ + w]; };
      for (std::size_t k = next_bit(senders, words_, 0, n_); k < n_;
           k = next_bit(senders, words_, k + 1, n_))
        if (left_level_[k] < 0) {
          left_level_[k] = right_level_[j] + 1;
          queue_.push_back(k);
        }
    }
  }
  return reached;
}

/// Sends up to `amount` from a left item along levels that rise by one; returns how much arrived.
int AntichainFinder::push(const Poset& order, std::size_t left, int amount) {
  const auto row = [&](std::size_t w) { return order.row(left)[w]; };
  for (std::size_t& j = next_right_[left]; (j = next_bit(row, words_, j, n_)) < n_; ++j) {
    if (right_level_[j] != left_level_[left] + 1) continue;
    if (const int direct = std::min(amount, right_free_[j]); direct > 0) {
      right_free_[j] -= direct;
      add_flow(left, j, direct);
      return direct;
    }
    const auto senders = [&](std::size_t w) { return carriers_[j * words_ + w]; };
    for (std::size_t& k = next_left_[j]; (k = next_bit(senders, words_, k, n_)) < n_; ++k) {
      if (left_level_[k] != right_level_[j] + 1) continue;
      const int sent = push(order, k, std::min(amount, flow_to(k, j)));
      if (sent == 0) continue;
      add_flow(k, j, -sent);
      add_flow(left, j, sent);
      return sent;
    }
  }
  return 0;
}

}  // namespace beforehand::scoring
