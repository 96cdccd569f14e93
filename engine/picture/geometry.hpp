// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <array>
#include <span>
#include <vector>

namespace beforehand::picture {

/// Lengths and positions are canvas units: pixels on screen and in SVG. x grows to the right, y
/// downwards.
struct Point {
  double x = 0;
  double y = 0;
  bool operator==(const Point&) const = default;
};

constexpr Point operator+(Point a, Point b) { return {a.x + b.x, a.y + b.y}; }
constexpr Point operator-(Point a, Point b) { return {a.x - b.x, a.y - b.y}; }
constexpr Point operator*(Point a, double k) { return {a.x * k, a.y * k}; }

struct Box {
  double x = 0;
  double y = 0;
  double width = 0;
  double height = 0;

  constexpr double right() const { return x + width; }
  constexpr double bottom() const { return y + height; }
  constexpr Point centre() const { return {x + width / 2, y + height / 2}; }
  constexpr bool contains(Point p) const {
    return p.x >= x && p.x <= right() && p.y >= y && p.y <= bottom();
  }
  /// Smaller by `by` on every side (larger when negative); never of negative size.
  Box inset(double by) const;
  /// The part common to both; width or height 0 when there is none.
  Box common(const Box& other) const;
  bool overlaps(const Box& other) const;
  bool operator==(const Box&) const = default;
};

/// The point at `radius` from `centre` in a direction given clockwise from 12 o'clock, in degrees.
Point polar(Point centre, double radius, double degrees);

/// The outline of a ring segment from `from` clockwise to `to` (degrees from 12 o'clock, to >=
/// from), as a polygon whose chords stray at most 0.25 units from the arcs. inner may be 0: then a
/// wedge.
std::vector<Point> ring_outline(Point centre, double inner, double outer, double from, double to);

/// A circle as a polygon with the same tolerance.
std::vector<Point> circle_outline(Point centre, double radius);

/// A cubic Bézier curve as points, its end included and its start not.
std::vector<Point> curve(Point start, Point control1, Point control2, Point end);

/// Cuts a simple polygon (convex or not, either orientation) into triangles, for canvases that can
/// fill only convex shapes. Gives indexes into `polygon`.
std::vector<std::array<std::size_t, 3>> triangulate(std::span<const Point> polygon);

}  // namespace beforehand::picture
