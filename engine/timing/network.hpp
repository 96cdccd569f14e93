// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "base/time.hpp"

namespace beforehand::timing {

/// A simple temporal network (Dechter, Meiri, Pearl 1991, Temporal constraint networks, Artificial
/// Intelligence 49:61): points in time, and bounds on the time between two of them. Point 0 is the
/// origin; no point lies before it.
class TemporalNetwork {
 public:
  using Point = std::uint16_t;

  /// `at_least` <= time of `to` - time of `from` <= `at_most`; -never or never: no bound.
  struct Constraint {
    Point from = 0, to = 0;
    Ms at_least = -never, at_most = never;
  };
  struct Interval {
    Ms least = -never, most = never;
    friend bool operator==(const Interval&, const Interval&) = default;
  };

  explicit TemporalNetwork(std::size_t points = 1);

  Point add_point();
  /// Adds a constraint without propagating it; gives its number, counted from 0.
  std::size_t add(Constraint);

  /// Nothing when times exist that keep all constraints; else constraints that contradict each
  /// other, in the order of the circle they form.
  std::optional<std::vector<std::size_t>> conflict() const;

  /// The minimal network: for each pair of points the tightest interval that follows, entry
  /// [from * points + to]. The network must be consistent. Floyd-Warshall, O(points^3).
  std::vector<Interval> minimal() const;

  /// Times of each point from the origin, kept up to date by tighten(). Before the first use and
  /// after add(), propagate() computes them anew; false: inconsistent.
  bool propagate();
  /// Adds a constraint and propagates only what changes by it. False: it contradicts the others,
  /// and the network is of no further use.
  bool tighten(Constraint);
  Interval times(Point p) const { return {Ms{-to_origin_[p]}, Ms{from_origin_[p]}}; }

  std::size_t points() const { return out_.size(); }
  const std::vector<Constraint>& constraints() const { return constraints_; }

 private:
  // time of `to` - time of `from` <= weight
  struct Edge {
    std::int64_t weight;
    std::size_t constraint;
    Point from, to;
  };

  void add_edge(Edge);
  bool settle(std::vector<std::int64_t>& distance, bool backward, Point start);

  std::vector<Constraint> constraints_;
  std::vector<Edge> edges_;
  std::vector<std::vector<std::uint32_t>> out_, in_;  // edges of each point
  std::vector<std::int64_t> from_origin_, to_origin_;
  std::vector<Point> queue_;
  std::vector<std::uint8_t> queued_;
};

}  // namespace beforehand::timing
