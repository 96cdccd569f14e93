// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "timing/controllability.hpp"

#include <algorithm>
#include <functional>
#include <limits>
#include <queue>

namespace beforehand::timing {

namespace {

constexpr std::int64_t unreached = std::numeric_limits<std::int64_t>::max();
constexpr std::size_t nothing = static_cast<std::size_t>(-1);

// An edge of the labelled distance graph in normal form: each contingent link becomes a fixed part
// of its least duration and a contingent rest from 0.
struct Edge {
  enum class Case : std::uint8_t { ordinary, lower, upper, derived } kind = Case::ordinary;
  std::size_t from = 0;
  std::int64_t weight = 0;
  std::size_t source = nothing;  // number of the constraint or contingent link it stands for
  bool contingent = false;       // which of the two
};

class Checker {
 public:
  explicit Checker(const UncertainNetwork& n) : in_(n.points + n.contingent.size()) {
    for (std::size_t i = 0; i < n.constraints.size(); ++i) {
      const auto& c = n.constraints[i];
      if (c.at_most != never) add(c.from, c.to, c.at_most.count(), i, false);
      if (c.at_least != -never) add(c.to, c.from, -c.at_least.count(), i, false);
    }
    for (std::size_t i = 0; i < n.contingent.size(); ++i) add_contingent(n, i);
    state_.resize(in_.size(), State::fresh);
  }

  Controllability run() {
    for (std::size_t p = 0; p < in_.size(); ++p) {
      if (!is_negative(p) || propagate_back(p)) continue;
      const auto tidy = [](std::vector<std::size_t> numbers) {
        std::sort(numbers.begin(), numbers.end());
        numbers.erase(std::unique(numbers.begin(), numbers.end()), numbers.end());
        return numbers;
      };
      return {false, tidy(constraints_), tidy(contingent_)};
    }
    return {};
  }

 private:
  enum class State : std::uint8_t { fresh, under_way, finished };

  void add(std::size_t from, std::size_t to, std::int64_t weight, std::size_t source,
           bool contingent, Edge::Case kind = Edge::Case::ordinary) {
    in_[to].push_back({kind, from, weight, source, contingent});
  }

  void add_contingent(const UncertainNetwork& n, std::size_t i) {
    const auto& c = n.contingent[i];
    const std::size_t middle = n.points + i;
    const auto least = c.least.count(), rest = c.most.count() - c.least.count();
    add(c.from, middle, least, i, true);
    add(middle, c.from, -least, i, true);
    add(middle, c.to, rest, i, true);
    add(c.to, middle, 0, i, true);
    add(middle, c.to, 0, i, true, Edge::Case::lower);
    add(c.to, middle, -rest, i, true, Edge::Case::upper);
  }

  bool is_negative(std::size_t p) const {
    return std::any_of(in_[p].begin(), in_[p].end(), [](const Edge& e) { return e.weight < 0; });
  }

  // The edges on the way from `point` to the source of a propagation.
  void blame(std::size_t point, const std::vector<std::pair<std::size_t, Edge>>& via) {
    for (std::size_t steps = 0; via[point].first != nothing && steps < via.size(); ++steps) {
      const Edge& e = via[point].second;
      if (e.source != nothing) (e.contingent ? contingent_ : constraints_).push_back(e.source);
      point = via[point].first;
    }
  }

  // Shortest distances to `source` over paths that begin with edges of no negative weight and end
  // with a negative one, as long as they are negative; where they no longer are, the path becomes
  // an edge. False: the source lies on a circle of negative length.
  bool propagate_back(std::size_t source) {
    if (state_[source] != State::fresh) return state_[source] == State::finished;
    state_[source] = State::under_way;
    std::vector<std::int64_t> distance(in_.size(), unreached);
    std::vector<std::pair<std::size_t, Edge>> via(in_.size(), {nothing, {}});
    std::priority_queue<std::pair<std::int64_t, std::size_t>,
                        std::vector<std::pair<std::int64_t, std::size_t>>, std::greater<>>
        queue;
    const auto reach = [&](const Edge& e, std::size_t to, std::int64_t length) {
      if (length >= distance[e.from]) return;
      distance[e.from] = length;
      via[e.from] = {to, e};
      queue.push({length, e.from});
    };
    std::size_t own_link = nothing;
    for (const auto& e : in_[source]) {
      if (e.kind == Edge::Case::upper) own_link = e.source;
      if (e.weight < 0) reach(e, source, e.weight);
    }
    while (!queue.empty()) {
      const auto [length, point] = queue.top();
      queue.pop();
      if (length > distance[point]) continue;
      if (length >= 0) {
        if (point != source) add(point, source, length, nothing, false, Edge::Case::derived);
        continue;
      }
      if (point == source || (is_negative(point) && !propagate_back(point))) {
        blame(point, via);
        return false;
      }
      for (std::size_t i = 0; i < in_[point].size(); ++i) {
        const Edge e = in_[point][i];
        const bool own = e.kind == Edge::Case::lower && e.source == own_link;
        if (e.weight >= 0 && !own) reach(e, point, length + e.weight);
      }
    }
    state_[source] = State::finished;
    return true;
  }

  std::vector<std::vector<Edge>> in_;  // by the point the edges lead to
  std::vector<State> state_;
  std::vector<std::size_t> constraints_, contingent_;
};

}  // namespace

Controllability dynamic_controllability(const UncertainNetwork& n) { return Checker(n).run(); }

}  // namespace beforehand::timing
