// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "picture/geometry.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <numeric>

namespace beforehand::picture {
namespace {

constexpr double tolerance = 0.25;

/// How many chords keep within the tolerance of an arc.
int chords(double radius, double degrees) {
  if (radius <= tolerance) return 3;
  const double step = 2 * std::acos(1 - tolerance / radius) * 180 / std::numbers::pi;
  return std::clamp(static_cast<int>(std::ceil(degrees / step)), 1, 360);
}

double cross(Point o, Point a, Point b) {
  return (a.x - o.x) * (b.y - o.y) - (a.y - o.y) * (b.x - o.x);
}

double doubled_area(std::span<const Point> p) {
  double area = 0;
  for (std::size_t i = 0; i < p.size(); ++i) {
    const Point& a = p[i];
    const Point& b = p[(i + 1) % p.size()];
    area += a.x * b.y - b.x * a.y;
  }
  return area;
}

bool inside(Point p, Point a, Point b, Point c) {
  return cross(a, b, p) >= 0 && cross(b, c, p) >= 0 && cross(c, a, p) >= 0;
}

/// Whether the corner at ring[i] can be cut off. The ring runs so that its area is positive.
bool is_ear(std::span<const Point> p, std::span<const std::size_t> ring, std::size_t i) {
  const std::size_t n = ring.size();
  const Point a = p[ring[(i + n - 1) % n]];
  const Point b = p[ring[i]];
  const Point c = p[ring[(i + 1) % n]];
  if (cross(a, b, c) <= 0) return false;
  return std::none_of(ring.begin(), ring.end(), [&](std::size_t k) {
    const Point q = p[k];
    return q != a && q != b && q != c && inside(q, a, b, c);
  });
}

}  // namespace

Box Box::inset(double by) const {
  const double dx = std::min(by, width / 2);
  const double dy = std::min(by, height / 2);
  return {x + dx, y + dy, width - 2 * dx, height - 2 * dy};
}

Box Box::common(const Box& other) const {
  const double left = std::max(x, other.x);
  const double top = std::max(y, other.y);
  return {left, top, std::max(0.0, std::min(right(), other.right()) - left),
          std::max(0.0, std::min(bottom(), other.bottom()) - top)};
}

bool Box::overlaps(const Box& other) const {
  const Box both = common(other);
  return both.width > 0 && both.height > 0;
}

Point polar(Point centre, double radius, double degrees) {
  const double radians = degrees * std::numbers::pi / 180;
  return {centre.x + radius * std::sin(radians), centre.y - radius * std::cos(radians)};
}

std::vector<Point> ring_outline(Point centre, double inner, double outer, double from, double to) {
  std::vector<Point> points;
  const int n = chords(outer, to - from);
  for (int i = 0; i <= n; ++i) points.push_back(polar(centre, outer, from + (to - from) * i / n));
  if (inner <= 0) {
    points.push_back(centre);
    return points;
  }
  for (int i = n; i >= 0; --i) points.push_back(polar(centre, inner, from + (to - from) * i / n));
  return points;
}

std::vector<Point> circle_outline(Point centre, double radius) {
  const int n = std::max(8, chords(radius, 360));
  std::vector<Point> points;
  for (int i = 0; i < n; ++i) points.push_back(polar(centre, radius, 360.0 * i / n));
  return points;
}

std::vector<Point> curve(Point start, Point control1, Point control2, Point end) {
  constexpr int n = 12;
  std::vector<Point> points;
  for (int i = 1; i <= n; ++i) {
    const double t = static_cast<double>(i) / n;
    const double u = 1 - t;
    points.push_back(start * (u * u * u) + control1 * (3 * u * u * t) + control2 * (3 * u * t * t) +
                     end * (t * t * t));
  }
  return points;
}

std::vector<std::array<std::size_t, 3>> triangulate(std::span<const Point> polygon) {
  std::vector<std::array<std::size_t, 3>> triangles;
  std::vector<std::size_t> ring(polygon.size());
  std::iota(ring.begin(), ring.end(), std::size_t{0});
  if (doubled_area(polygon) < 0) std::reverse(ring.begin(), ring.end());
  while (ring.size() > 3) {
    std::size_t i = 0;
    while (i < ring.size() && !is_ear(polygon, ring, i)) ++i;
    if (i == ring.size()) i = 0;  // only flat corners are left: cutting one off changes nothing
    const std::size_t n = ring.size();
    triangles.push_back({ring[(i + n - 1) % n], ring[i], ring[(i + 1) % n]});
    ring.erase(ring.begin() + static_cast<std::ptrdiff_t>(i));
  }
  if (ring.size() == 3) triangles.push_back({ring[0], ring[1], ring[2]});
  return triangles;
}

}  // namespace beforehand::picture
