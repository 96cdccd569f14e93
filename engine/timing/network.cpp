// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "timing/network.hpp"

#include <algorithm>
#include <cassert>

namespace beforehand::timing {

namespace {
constexpr std::int64_t unbounded = never.count();
constexpr std::size_t no_constraint = static_cast<std::size_t>(-1);  // not before the origin
}  // namespace

TemporalNetwork::TemporalNetwork(std::size_t points) {
  assert(points > 0);
  while (this->points() < points) add_point();
}

TemporalNetwork::Point TemporalNetwork::add_point() {
  const auto p = static_cast<Point>(points());
  out_.emplace_back();
  in_.emplace_back();
  if (p != 0) add_edge({0, no_constraint, p, 0});
  return p;
}

std::size_t TemporalNetwork::add(Constraint c) {
  assert(c.from < points() && c.to < points());
  const auto number = constraints_.size();
  constraints_.push_back(c);
  if (c.at_most != never) add_edge({c.at_most.count(), number, c.from, c.to});
  if (c.at_least != -never) add_edge({-c.at_least.count(), number, c.to, c.from});
  return number;
}

void TemporalNetwork::add_edge(Edge e) {
  const auto number = static_cast<std::uint32_t>(edges_.size());
  edges_.push_back(e);
  out_[e.from].push_back(number);
  in_[e.to].push_back(number);
}

// Bellman-Ford from a source that reaches every point at no cost; a distance that still falls after
// as many rounds as there are points lies behind a negative circle.
std::optional<std::vector<std::size_t>> TemporalNetwork::conflict() const {
  std::vector<std::int64_t> distance(points(), 0);
  std::vector<const Edge*> via(points(), nullptr);
  const Edge* fallen = nullptr;
  for (std::size_t round = 0; round <= points(); ++round) {
    fallen = nullptr;
    for (const auto& e : edges_) {
      if (distance[e.from] + e.weight >= distance[e.to]) continue;
      distance[e.to] = distance[e.from] + e.weight;
      via[e.to] = &e;
      fallen = &e;
    }
    if (!fallen) return std::nullopt;
  }
  auto on_circle = fallen->to;
  for (std::size_t i = 0; i < points(); ++i) on_circle = via[on_circle]->from;
  std::vector<std::size_t> circle;
  auto p = on_circle;
  do {
    if (via[p]->constraint != no_constraint) circle.push_back(via[p]->constraint);
    p = via[p]->from;
  } while (p != on_circle);
  std::reverse(circle.begin(), circle.end());
  return circle;
}

std::vector<TemporalNetwork::Interval> TemporalNetwork::minimal() const {
  const auto n = points();
  std::vector<std::int64_t> d(n * n, unbounded);
  for (std::size_t i = 0; i < n; ++i) d[i * n + i] = 0;
  for (const auto& e : edges_) d[e.from * n + e.to] = std::min(d[e.from * n + e.to], e.weight);
  for (std::size_t k = 0; k < n; ++k) {
    for (std::size_t i = 0; i < n; ++i) {
      const auto ik = d[i * n + k];
      if (ik == unbounded) continue;
      for (std::size_t j = 0; j < n; ++j) {
        if (d[k * n + j] != unbounded) d[i * n + j] = std::min(d[i * n + j], ik + d[k * n + j]);
      }
    }
  }
  std::vector<Interval> intervals(n * n);
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t j = 0; j < n; ++j) {
      intervals[i * n + j] = {Ms{-d[j * n + i]}, Ms{d[i * n + j]}};
    }
  }
  return intervals;
}

// Shortest distances from the origin, or to it (backward), after an edge from `start` (to it, if
// backward) has been added to a consistent network. A negative circle would run through that edge,
// so it shows as soon as the distance of `start` falls again; so does a fall of the origin's.
bool TemporalNetwork::settle(std::vector<std::int64_t>& distance, bool backward, Point start) {
  queued_.assign(points(), 0);
  queue_.assign(1, start);
  for (std::size_t head = 0; head < queue_.size(); ++head) {
    const auto p = queue_[head];
    queued_[p] = 0;
    if (distance[p] == unbounded) continue;
    for (const auto number : backward ? in_[p] : out_[p]) {
      const Edge& e = edges_[number];
      const auto next = backward ? e.from : e.to;
      if (distance[p] + e.weight >= distance[next]) continue;
      if (next == 0 || next == start) return false;
      distance[next] = distance[p] + e.weight;
      if (!queued_[next]) queue_.push_back(next);
      queued_[next] = 1;
    }
  }
  return true;
}

bool TemporalNetwork::propagate() {
  from_origin_.assign(points(), unbounded);
  to_origin_.assign(points(), unbounded);
  from_origin_[0] = to_origin_[0] = 0;
  if (conflict()) return false;
  return settle(from_origin_, false, 0) && settle(to_origin_, true, 0);
}

bool TemporalNetwork::tighten(Constraint c) {
  assert(from_origin_.size() == points());
  auto edge = edges_.size();
  add(c);
  for (; edge < edges_.size(); ++edge) {
    const Edge e = edges_[edge];
    if (!settle(from_origin_, false, e.from) || !settle(to_origin_, true, e.to)) return false;
  }
  return true;
}

}  // namespace beforehand::timing
