// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/draw_list_canvas.hpp"

#include <imgui.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

namespace beforehand::stage {
namespace {

using picture::Box;
using picture::Colour;
using picture::Paint;
using picture::Point;
using picture::Stroke;
using picture::TextStyle;
using picture::Weight;

constexpr int large_area = 1500;  // pixels; smaller ones are not worth a command of their own
constexpr double capital_height_over_em =
    0.73;  // DejaVu Sans; other sans faces differ by a few hundredths

ImVec2 vec(Point p) { return {static_cast<float>(p.x), static_cast<float>(p.y)}; }
ImU32 packed(Colour c) { return IM_COL32(c.red, c.green, c.blue, c.alpha); }
float narrow(double d) { return static_cast<float>(d); }

// From degrees clockwise from 12 o'clock to radians clockwise from 3 o'clock.
float radians(double degrees) { return narrow((degrees - 90) * std::numbers::pi / 180); }

// Chords that stray no more than a quarter of a unit.
int segments(double radius, double degrees) {
  const double step = 2 * std::acos(1 - std::min(1.0, 0.25 / std::max(radius, 0.25)));
  return std::max(2, static_cast<int>(std::ceil(degrees * std::numbers::pi / 180 / step)));
}

double cross(Point a, Point b, Point c) {
  return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

// Sharper than about 20 degrees.
bool bends(Point a, Point b, Point c) {
  const Point in = b - a, out = c - b;
  const double along = in.x * out.x + in.y * out.y;
  return along < 0.94 * std::hypot(in.x, in.y) * std::hypot(out.x, out.y);
}

bool is_convex(std::span<const Point> p) {
  bool left = false, right = false;
  for (std::size_t i = 0; i < p.size(); ++i) {
    const double turn = cross(p[i], p[(i + 1) % p.size()], p[(i + 2) % p.size()]);
    left |= turn < 0;
    right |= turn > 0;
  }
  return !(left && right);
}

double signed_area(std::span<const Point> p) {
  double area = 0;
  for (std::size_t i = 0; i < p.size(); ++i) {
    const Point a = p[i], b = p[(i + 1) % p.size()];
    area += a.x * b.y - b.x * a.y;
  }
  return area / 2;
}

// The drawn parts of a dashed line.
std::vector<std::vector<Point>> dashes(std::span<const Point> points, bool closed,
                                       const Stroke& stroke) {
  std::vector<std::vector<Point>> parts;
  bool drawing = true;
  double left = stroke.dash;
  if (points.size() > 1) parts.push_back({points[0]});
  const std::size_t legs = points.size() - (closed ? 0 : 1);
  for (std::size_t i = 0; i < legs && points.size() > 1; ++i) {
    Point at = points[i];
    const Point end = points[(i + 1) % points.size()];
    double rest = std::hypot(end.x - at.x, end.y - at.y);
    while (rest > left) {
      at = at + (end - at) * (left / rest);
      rest -= left;
      if (drawing)
        parts.back().push_back(at);
      else
        parts.push_back({at});
      drawing = !drawing;
      left = std::max(0.5, drawing ? stroke.dash : stroke.gap);
    }
    left -= rest;
    if (drawing) parts.back().push_back(end);
  }
  return parts;
}

}  // namespace

void DrawListCanvas::stroke_path(std::span<const Point> points, const Stroke& stroke, bool closed) {
  if (!stroke.colour.visible() || stroke.width <= 0 || points.size() < 2) return;
  const auto draw = [&](std::span<const Point> part, bool close) {
    for (const Point p : part) list_.PathLineTo(vec(p));
    list_.PathStroke(packed(stroke.colour), close ? ImDrawFlags_Closed : ImDrawFlags_None,
                     narrow(stroke.width));
  };
  if (stroke.dash <= 0) return draw(points, closed);
  for (const auto& part : dashes(points, closed, stroke)) draw(part, false);
}

void DrawListCanvas::fill(std::span<const Point> points, Colour colour) {
  if (!colour.visible() || points.size() < 3) return;
  if (is_convex(points)) {
    std::vector<ImVec2> path(points.size());
    std::transform(points.begin(), points.end(), path.begin(), vec);
    // The library softens the edge outwards only for this way round.
    if (signed_area(points) < 0) std::reverse(path.begin(), path.end());
    list_.AddConvexPolyFilled(path.data(), static_cast<int>(path.size()), packed(colour));
    return;
  }
  // Softened triangles would show their seams: hard ones, and one soft line round the whole.
  const auto flags = list_.Flags;
  list_.Flags &= ~ImDrawListFlags_AntiAliasedFill;
  for (const auto& [a, b, c] : picture::triangulate(points))
    list_.AddTriangleFilled(vec(points[a]), vec(points[b]), vec(points[c]), packed(colour));
  list_.Flags = flags;
  stroke_path(points, {colour, 1, 0, 0}, true);
}

void solid_area(const ImDrawList*, const ImDrawCmd*) {}

// The middle of a large box is cleared; only its ends, where the corners are round, are drawn.
void DrawListCanvas::fill_box(const Box& box, Colour colour, double radius) {
  const auto rect = [&](double x, double right, double round, ImDrawFlags corners) {
    list_.AddRectFilled(vec({x, box.y}), vec({right, box.bottom()}), packed(colour), narrow(round),
                        corners);
  };
  const int left = static_cast<int>(std::ceil(box.x + radius));
  const int right = static_cast<int>(std::floor(box.right() - radius));
  const int top = static_cast<int>(std::lround(box.y)),
            bottom = static_cast<int>(std::lround(box.bottom()));
  if (colour.alpha != 255 || right <= left || (right - left) * (bottom - top) < large_area)
    return rect(box.x, box.right(), radius, 0);
  areas_.push_back({left, top, right - left, bottom - top, colour});
  list_.AddCallback(solid_area, &areas_.back());
  if (left > box.x) rect(box.x, left, radius, ImDrawFlags_RoundCornersLeft);
  if (right < box.right()) rect(right, box.right(), radius, ImDrawFlags_RoundCornersRight);
}

void DrawListCanvas::rectangle(const Box& box, const Paint& paint, double radius) {
  const ImVec2 low = vec({box.x, box.y}), high = vec({box.right(), box.bottom()});
  const float round = narrow(std::min(radius, std::min(box.width, box.height) / 2));
  if (paint.fill.visible()) fill_box(box, paint.fill, double(round));
  const Stroke& line = paint.line;
  if (!line.colour.visible() || line.width <= 0) return;
  if (line.dash > 0) {
    const Point corners[] = {
        {box.x, box.y}, {box.right(), box.y}, {box.right(), box.bottom()}, {box.x, box.bottom()}};
    stroke_path(corners, line, true);
  } else {
    list_.AddRect(low, high, packed(line.colour), round, 0, narrow(line.width));
  }
}

void DrawListCanvas::circle(Point centre, double radius, const Paint& paint) {
  if (radius <= 0) return;
  const int count = std::max(12, segments(radius, 360));
  if (paint.fill.visible())
    list_.AddCircleFilled(vec(centre), narrow(radius), packed(paint.fill), count);
  if (!paint.line.colour.visible() || paint.line.width <= 0) return;
  if (paint.line.dash > 0)
    stroke_path(picture::circle_outline(centre, radius), paint.line, true);
  else
    list_.AddCircle(vec(centre), narrow(radius), packed(paint.line.colour), count,
                    narrow(paint.line.width));
}

void DrawListCanvas::ring_segment(Point centre, double inner, double outer, double from, double to,
                                  const Paint& paint) {
  if (outer <= inner || to <= from) return;
  if (paint.fill.visible() && inner > 0) {
    // A band is a very wide line along its middle.
    const double middle = (inner + outer) / 2;
    list_.PathArcTo(vec(centre), narrow(middle), radians(from), radians(to),
                    segments(outer, to - from));
    list_.PathStroke(packed(paint.fill), ImDrawFlags_None, narrow(outer - inner));
  } else if (paint.fill.visible()) {
    const int pieces = to - from > 180 ? 2 : 1;  // each of them convex
    for (int i = 0; i < pieces; ++i) {
      const double a = from + (to - from) * i / pieces, b = from + (to - from) * (i + 1) / pieces;
      list_.PathLineTo(vec(centre));
      list_.PathArcTo(vec(centre), narrow(outer), radians(a), radians(b), segments(outer, b - a));
      list_.PathFillConvex(packed(paint.fill));
    }
  }
  if (paint.line.colour.visible())
    stroke_path(picture::ring_outline(centre, inner, outer, from, to), paint.line, true);
}

void DrawListCanvas::arc(Point centre, double radius, double from, double to,
                         const Stroke& stroke) {
  if (radius <= 0 || to <= from) return;
  const int count = segments(radius, to - from);
  std::vector<Point> points;
  for (int i = 0; i <= count; ++i)
    points.push_back(picture::polar(centre, radius, from + (to - from) * i / count));
  stroke_path(points, stroke, false);
}

void DrawListCanvas::polygon(std::span<const Point> points, const Paint& paint) {
  fill(points, paint.fill);
  stroke_path(points, paint.line, true);
}

void DrawListCanvas::polyline(std::span<const Point> points, const Stroke& stroke) {
  stroke_path(points, stroke, false);
  if (stroke.dash > 0 || stroke.width < 3 || points.empty() || !stroke.colour.visible()) return;
  const Paint dot{stroke.colour, {}};  // round ends, and round joins where they can be seen
  for (std::size_t i = 0; i < points.size(); ++i)
    if (i == 0 || i + 1 == points.size() || bends(points[i - 1], points[i], points[i + 1]))
      circle(points[i], stroke.width / 2, dot);
}

void DrawListCanvas::text(Point at, std::string_view line, const TextStyle& style) {
  if (line.empty() || !style.colour.visible()) return;
  const auto [font, em_to_line] = fonts_.choose(style.size, style.weight);
  const double size = std::round(style.size * em_to_line);
  const double ascent = double(font->Ascent) * size / double(font->FontSize);
  Point corner = at;
  if (style.align != picture::Align::left) {
    const double width = measure(line, style.size, style.weight).width;
    corner.x -= style.align == picture::Align::centre ? width / 2 : width;
  }
  switch (style.level) {
    case picture::Level::top:
      break;
    case picture::Level::middle:
      corner.y += style.size * capital_height_over_em / 2 - ascent;
      break;
    case picture::Level::baseline:
      corner.y -= ascent;
      break;
    case picture::Level::bottom:
      corner.y -= size;
      break;
  }
  corner = {std::round(corner.x), std::round(corner.y)};
  list_.AddText(font, narrow(size), vec(corner), packed(style.colour), line.data(),
                line.data() + line.size());
}

picture::Extent DrawListCanvas::measure(std::string_view line, double size, Weight weight) const {
  const auto [font, em_to_line] = fonts_.choose(size, weight);
  const double height = std::round(size * em_to_line);
  const ImVec2 extent =
      font->CalcTextSizeA(narrow(height), 1e9f, 0, line.data(), line.data() + line.size());
  return {double(extent.x), height};
}

void DrawListCanvas::push_clip(const Box& box) {
  list_.PushClipRect(vec({box.x, box.y}), vec({box.right(), box.bottom()}), true);
}

void DrawListCanvas::pop_clip() { list_.PopClipRect(); }

}  // namespace beforehand::stage
