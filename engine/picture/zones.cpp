// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "picture/zones.hpp"

#include <algorithm>
#include <cmath>

namespace beforehand::picture {

using procedure::Zone;

std::array<ZoneArc, 4> zone_arcs(Handedness hand) {
  std::array<ZoneArc, 4> arcs{ZoneArc{Zone::static_zone, 0, 2}, ZoneArc{Zone::assistant_zone, 2, 4},
                              ZoneArc{Zone::transfer_zone, 4, 7},
                              ZoneArc{Zone::operator_zone, 7, 12}};
  if (hand == Handedness::right) return arcs;
  for (ZoneArc& arc : arcs) arc = {arc.zone, 12 - arc.to, 12 - arc.from};
  std::reverse(arcs.begin(), arcs.end());
  return arcs;
}

double hour_for(double right_handed_hour, Handedness hand) {
  return hand == Handedness::right ? right_handed_hour : 12 - right_handed_hour;
}

Zone zone_at(double hour, Handedness hand) {
  double h = std::fmod(hour, 12);
  if (h < 0) h += 12;
  for (const ZoneArc& arc : zone_arcs(hand)) {
    if (h >= arc.from && h < arc.to) return arc.zone;
  }
  return Zone::static_zone;
}

}  // namespace beforehand::picture
