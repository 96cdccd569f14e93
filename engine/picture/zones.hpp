// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <array>

#include "procedure/procedure.hpp"

namespace beforehand::picture {

enum class Handedness { right, left };

/// A zone of activity around the patient's mouth, as hours on a clock face seen from above with the
/// top of the head at 12, running clockwise. `to` may lie past 12 (a zone across noon ends at 12 +
/// something).
struct ZoneArc {
  procedure::Zone zone;
  double from = 0, to = 0;
  double hours() const { return to - from; }
  double middle() const { return (from + to) / 2; }
};

/// The zones for an operator of this hand, clockwise and without gap or overlap. Right-handed:
/// static 12-2, assistant 2-4, transfer 4-7, operator 7-12 (Finkbeiner, J Contemp Dent Pract
/// 2000;1(4)). Left-handed: the mirror image, hour h to 12 - h.
std::array<ZoneArc, 4> zone_arcs(Handedness hand);

/// Where an hour written for a right-handed operator lies for this hand.
double hour_for(double right_handed_hour, Handedness hand);

/// The zone an hour lies in; a border belongs to the zone that begins there.
procedure::Zone zone_at(double hour, Handedness hand);

/// Degrees clockwise from 12.
constexpr double degrees(double hour) { return hour * 30; }

}  // namespace beforehand::picture
