// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "picture/zones.hpp"

#include <gtest/gtest.h>

#include <map>

namespace beforehand::picture {
namespace {

using procedure::Zone;

// Zones of activity for a right-handed operator: Finkbeiner, "Four-handed dentistry revisited", J
// Contemp Dent Pract 2000;1(4). The hours are written here from memory of it (static 12-2,
// assistant 2-4, transfer 4-7, operator 7-12).
TEST(Zones, OfARightHandedOperator) {
  std::map<Zone, std::pair<double, double>> hours;
  for (const ZoneArc& arc : zone_arcs(Handedness::right)) hours[arc.zone] = {arc.from, arc.to};
  EXPECT_EQ(hours[Zone::operator_zone], (std::pair{7.0, 12.0}));
  EXPECT_EQ(hours[Zone::assistant_zone], (std::pair{2.0, 4.0}));
  EXPECT_EQ(hours[Zone::transfer_zone], (std::pair{4.0, 7.0}));
  EXPECT_EQ(hours[Zone::static_zone], (std::pair{0.0, 2.0}));
}

// Derived by mirroring h -> 12 - h: operator 12-5, assistant 8-10, transfer 5-8, static 10-12.
TEST(Zones, OfALeftHandedOperatorAreTheMirrorImage) {
  std::map<Zone, std::pair<double, double>> hours;
  for (const ZoneArc& arc : zone_arcs(Handedness::left)) hours[arc.zone] = {arc.from, arc.to};
  EXPECT_EQ(hours[Zone::operator_zone], (std::pair{0.0, 5.0}));
  EXPECT_EQ(hours[Zone::assistant_zone], (std::pair{8.0, 10.0}));
  EXPECT_EQ(hours[Zone::transfer_zone], (std::pair{5.0, 8.0}));
  EXPECT_EQ(hours[Zone::static_zone], (std::pair{10.0, 12.0}));
}

TEST(Zones, FillTheClockWithoutGapOrOverlap) {
  for (const Handedness hand : {Handedness::right, Handedness::left}) {
    double at = 0;
    for (const ZoneArc& arc : zone_arcs(hand)) {
      EXPECT_EQ(arc.from, at);
      at = arc.to;
    }
    EXPECT_EQ(at, 12);
  }
}

TEST(Zones, EveryHourAndItsMirrorLieInTheSameZone) {
  for (double hour = 0.25; hour < 12; hour += 0.5) {
    EXPECT_EQ(zone_at(hour, Handedness::right),
              zone_at(hour_for(hour, Handedness::left), Handedness::left));
  }
  EXPECT_EQ(zone_at(-1, Handedness::right), Zone::operator_zone);  // 11 o'clock
  EXPECT_EQ(zone_at(15, Handedness::right), Zone::assistant_zone);
}

}  // namespace
}  // namespace beforehand::picture
