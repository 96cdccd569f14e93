// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/pen.hpp"

#include <algorithm>

namespace beforehand::stage {

std::optional<int> Hits::at(Point p) const {
  for (auto hit = hits_.rbegin(); hit != hits_.rend(); ++hit)
    if (hit->box.contains(p)) return hit->id;
  return std::nullopt;
}

std::optional<Box> Hits::box_of(int id) const {
  for (auto hit = hits_.rbegin(); hit != hits_.rend(); ++hit)
    if (hit->id == id) return hit->box;
  return std::nullopt;
}

void Scroll::move(double by) { offset = std::clamp(offset + by, 0.0, longest()); }

}  // namespace beforehand::stage
