// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "picture/canvas.hpp"

#include <algorithm>
#include <vector>

#include "picture/icons.hpp"
#include "picture/utf8.hpp"

namespace beforehand::picture {
namespace {

/// The largest square in the middle of a box.
Box square_in(const Box& box) {
  const double side = std::min(box.width, box.height);
  return {box.centre().x - side / 2, box.centre().y - side / 2, side, side};
}

void draw_shape(Canvas& canvas, const IconShape& shape, const Box& square, const Paint& paint) {
  std::vector<Point> points;
  for (const Point& p : shape.points) {
    points.push_back({square.x + p.x * square.width, square.y + p.y * square.height});
  }
  if (!shape.closed) return canvas.polyline(points, paint.line);
  canvas.polygon(points, shape.shaded ? Paint{paint.line.colour, paint.line} : paint);
}

/// For a supply without an icon: a rounded plate with its first two letters.
void draw_letters(Canvas& canvas, std::string_view name, const Box& square, const Paint& paint) {
  const Box plate = square.inset(square.width * 0.06);
  canvas.rectangle(plate, paint, plate.width * 0.2);
  const TextStyle style{plate.width * 0.5, paint.line.colour, Weight::bold, Align::centre,
                        Level::middle};
  canvas.text(plate.centre(), utf8_prefix(name, 2), style);
}

}  // namespace

void Canvas::icon(std::string_view name, const Box& box, const Paint& paint) {
  const Box square = square_in(box);
  const Icon* found = find_icon(name);
  if (!found) return draw_letters(*this, name, square, paint);
  for (const IconShape& shape : found->shapes) draw_shape(*this, shape, square, paint);
}

void Canvas::line(Point from, Point to, const Stroke& stroke) { polyline({from, to}, stroke); }

void Canvas::polygon(std::initializer_list<Point> points, const Paint& paint) {
  polygon(std::span<const Point>(points.begin(), points.size()), paint);
}

void Canvas::polyline(std::initializer_list<Point> points, const Stroke& stroke) {
  polyline(std::span<const Point>(points.begin(), points.size()), stroke);
}

}  // namespace beforehand::picture
