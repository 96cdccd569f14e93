// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// Antichains against the Boost Graph Library: the largest by its maximum cardinality matching, the
// heaviest by its push-relabel maximum flow (the dual of the minimum flow). Random partial orders,
// invented.
#include <gtest/gtest.h>

#include <algorithm>
#include <boost/graph/adjacency_list.hpp>
#include <boost/graph/max_cardinality_matching.hpp>
#include <boost/graph/push_relabel_max_flow.hpp>
#include <numeric>
#include <random>

#include "scoring/alignment.hpp"

namespace beforehand::scoring {
namespace {

Poset random_poset(std::size_t n, unsigned one_in, std::mt19937_64& random) {
  std::vector<std::vector<bool>> below(n, std::vector<bool>(n, false));
  for (std::size_t i = n; i-- > 0;)
    for (std::size_t j = i + 1; j < n; ++j) {
      if (random() % one_in != 0) continue;
      below[i][j] = true;
      for (std::size_t k = j + 1; k < n; ++k)
        if (below[j][k]) below[i][k] = true;
    }
  Poset poset(n);
  for (std::size_t i = 0; i < n; ++i)
    for (std::size_t j = 0; j < n; ++j)
      if (below[i][j]) poset.set_below(i, j);
  return poset;
}

int matching_by_boost(const Poset& poset) {
  using Graph = boost::adjacency_list<boost::vecS, boost::vecS, boost::undirectedS>;
  const std::size_t n = poset.size();
  Graph graph(2 * n);
  for (std::size_t i = 0; i < n; ++i)
    for (std::size_t j = 0; j < n; ++j)
      if (poset.below(i, j)) boost::add_edge(i, n + j, graph);
  std::vector<boost::graph_traits<Graph>::vertex_descriptor> mate(2 * n);
  boost::edmonds_maximum_cardinality_matching(graph, mate.data());
  return static_cast<int>(boost::matching_size(graph, mate.data()));
}

class Flow {
 public:
  explicit Flow(std::size_t vertices) : graph_(vertices) {}

  void edge(std::size_t from, std::size_t to, long capacity) {
    const auto forth = boost::add_edge(from, to, graph_).first;
    const auto back = boost::add_edge(to, from, graph_).first;
    boost::get(boost::edge_capacity, graph_)[forth] = capacity;
    boost::get(boost::edge_capacity, graph_)[back] = 0;
    boost::get(boost::edge_reverse, graph_)[forth] = back;
    boost::get(boost::edge_reverse, graph_)[back] = forth;
  }
  long most(std::size_t source, std::size_t sink) {
    return boost::push_relabel_max_flow(graph_, source, sink);
  }

 private:
  using Traits = boost::adjacency_list_traits<boost::vecS, boost::vecS, boost::directedS>;
  using Graph = boost::adjacency_list<
      boost::vecS, boost::vecS, boost::directedS, boost::no_property,
      boost::property<
          boost::edge_capacity_t, long,
          boost::property<boost::edge_residual_capacity_t, long,
                          boost::property<boost::edge_reverse_t, Traits::edge_descriptor>>>>;
  Graph graph_;
};

/// The least flow through all items, each taking at least its weight: every item on its own way is
/// one such flow, and a greatest flow against it tells how much of it can be spared.
int least_flow_by_boost(const Poset& poset, const std::vector<int>& weights) {
  const std::size_t n = poset.size(), source = 2 * n, sink = 2 * n + 1;
  Flow spared(2 * n + 2);
  for (std::size_t i = 0; i < n; ++i) {
    spared.edge(source, i, weights[i]);
    spared.edge(n + i, sink, weights[i]);
    for (std::size_t j = 0; j < n; ++j)
      if (poset.below(i, j)) spared.edge(i, n + j, 1'000'000);
  }
  const int all = std::accumulate(weights.begin(), weights.end(), 0);
  return all - static_cast<int>(spared.most(source, sink));
}

void expect_antichain(const Poset& poset, const std::vector<bool>& kept) {
  for (std::size_t i = 0; i < poset.size(); ++i)
    for (std::size_t j = 0; j < poset.size(); ++j)
      EXPECT_FALSE(kept[i] && kept[j] && poset.below(i, j)) << i << " is below " << j;
}

TEST(OrderReference, AntichainsAreThoseOfTheBoostGraphLibrary) {
  std::mt19937_64 random(41);
  AntichainFinder finder;
  std::vector<bool> kept;
  for (int round = 0; round < 150; ++round) {
    const std::size_t n = 1 + random() % 90;
    const Poset poset = random_poset(n, 2 + static_cast<unsigned>(random() % 40), random);
    const int largest = finder.largest(poset, kept);
    EXPECT_EQ(largest, static_cast<int>(n) - matching_by_boost(poset));
    EXPECT_EQ(std::count(kept.begin(), kept.end(), true), largest);
    expect_antichain(poset, kept);

    std::vector<int> weights(n);
    for (int& w : weights) w = 1 << (random() % 3);
    const int heaviest = finder.heaviest(poset, weights, kept);
    EXPECT_EQ(heaviest, least_flow_by_boost(poset, weights));
    int sum = 0;
    for (std::size_t i = 0; i < n; ++i) sum += kept[i] ? weights[i] : 0;
    EXPECT_EQ(sum, heaviest);
    expect_antichain(poset, kept);
  }
}

TEST(OrderReference, TheHeaviestAntichainIsThatOfAllSubsets) {
  std::mt19937_64 random(7);
  AntichainFinder finder;
  std::vector<bool> kept;
  for (int round = 0; round < 200; ++round) {
    const std::size_t n = 1 + random() % 10;
    const Poset poset = random_poset(n, 3, random);
    std::vector<int> weights(n);
    for (int& w : weights) w = 1 + static_cast<int>(random() % 5);
    int best = 0;
    for (unsigned subset = 0; subset < (1u << n); ++subset) {
      int sum = 0;
      bool antichain = true;
      for (std::size_t i = 0; i < n; ++i) {
        if (((subset >> i) & 1u) == 0) continue;
        sum += weights[i];
        for (std::size_t j = 0; j < n; ++j)
          if (((subset >> j) & 1u) != 0 && poset.below(i, j)) antichain = false;
      }
      if (antichain) best = std::max(best, sum);
    }
    EXPECT_EQ(finder.heaviest(poset, weights, kept), best);
  }
}

}  // namespace
}  // namespace beforehand::scoring
