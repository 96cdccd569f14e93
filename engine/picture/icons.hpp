// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <span>
#include <string_view>
#include <vector>

#include "picture/geometry.hpp"

namespace beforehand::picture {

/// One part of an icon, on a square of side 1.
struct IconShape {
  std::vector<Point> points;
  bool closed = false;  ///< a closed one is filled and outlined, an open one is a line
  bool shaded = false;  ///< filled with the outline's colour instead
};

struct Icon {
  std::string_view name;
  std::vector<IconShape> shapes;
};

/// Every icon there is, by name in ascending order.
std::span<const Icon> icons();

/// nullptr when there is none of that name.
const Icon* find_icon(std::string_view name);

}  // namespace beforehand::picture
