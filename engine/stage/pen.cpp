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

void Hits::inside(const Box& view, Hits& into) const {
  for (const auto& hit : hits_)
    if (const Box seen = hit.box.common(view); seen.width > 0 && seen.height > 0)
      into.add(seen, hit.id);
}

std::optional<Box> Hits::box_of(int id) const {
  for (auto hit = hits_.rbegin(); hit != hits_.rend(); ++hit)
    if (hit->id == id) return hit->box;
  return std::nullopt;
}

void Scroll::move(double by) { offset = std::clamp(offset + by, 0.0, longest()); }

void Scroll::follow(Key key) {
  constexpr double line = 50, page = 0.9;
  if (key == Key::up) move(-line);
  if (key == Key::down) move(line);
  if (key == Key::page_up) move(-view * page);
  if (key == Key::page_down || key == Key::space) move(view * page);
  if (key == Key::home) move(-offset);
  if (key == Key::end) move(longest());
}

}  // namespace beforehand::stage
