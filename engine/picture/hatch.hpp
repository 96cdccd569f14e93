// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include "picture/canvas.hpp"

namespace beforehand::picture {

enum class Slope { rising, falling };

/// Fills a box with parallel lines at 45 degrees, `spacing` units apart along x, cut at its edges.
/// Lines hang on the canvas, not on the box, so that neighbouring boxes match and a scrolled one
/// does not crawl.
void hatch(Canvas& canvas, const Box& box, double spacing, Slope slope, const Stroke& stroke,
           double phase = 0);

}  // namespace beforehand::picture
