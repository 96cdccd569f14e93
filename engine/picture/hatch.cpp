// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "picture/hatch.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace beforehand::picture {

void hatch(Canvas& canvas, const Box& box, double spacing, Slope slope, const Stroke& stroke,
           double phase) {
  assert(spacing > 0);
  if (box.width <= 0 || box.height <= 0) return;
  // Each line is x = c + s * y with s = -1 (rising to the right) or 1.
  const double s = slope == Slope::rising ? -1 : 1;
  const double at_top = box.x - s * box.y;
  const double at_bottom = box.x - s * box.bottom();
  const double lowest = std::min(at_top, at_bottom);
  const double highest = std::max(at_top, at_bottom) + box.width;
  const double start = phase + std::ceil((lowest - phase) / spacing) * spacing;
  for (double c = start; c < highest; c += spacing) {
    const double y_left = (box.x - c) / s;
    const double y_right = (box.right() - c) / s;
    const double top = std::max(box.y, std::min(y_left, y_right));
    const double bottom = std::min(box.bottom(), std::max(y_left, y_right));
    if (bottom > top) canvas.line({c + s * top, top}, {c + s * bottom, bottom}, stroke);
  }
}

}  // namespace beforehand::picture
