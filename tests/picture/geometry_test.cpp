// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "picture/geometry.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "picture/icons.hpp"

namespace beforehand::picture {
namespace {

double area(std::span<const Point> p) {
  double doubled = 0;
  for (std::size_t i = 0; i < p.size(); ++i) {
    const Point& a = p[i];
    const Point& b = p[(i + 1) % p.size()];
    doubled += a.x * b.y - b.x * a.y;
  }
  return std::abs(doubled) / 2;
}

double area_of_triangles(std::span<const Point> p) {
  double sum = 0;
  for (const auto& t : triangulate(p)) sum += area(std::vector{p[t[0]], p[t[1]], p[t[2]]});
  return sum;
}

TEST(Polar, RunsClockwiseFromTwelve) {
  const Point c{10, 10};
  EXPECT_NEAR(polar(c, 5, 0).y, 5, 1e-9);
  EXPECT_NEAR(polar(c, 5, 90).x, 15, 1e-9);
  EXPECT_NEAR(polar(c, 5, 180).y, 15, 1e-9);
}

TEST(RingOutline, HasTheAreaOfTheRing) {
  const auto ring = ring_outline({0, 0}, 50, 100, 30, 120);
  const double exact = std::numbers::pi * (100 * 100 - 50 * 50) / 4;
  EXPECT_NEAR(area(ring), exact, exact * 0.01);
}

TEST(Triangulate, CoversAnyShapeOnceWhicheverWayItRuns) {
  std::vector<Point> horseshoe{{0, 0}, {10, 0}, {10, 10}, {7, 10},
                               {7, 3}, {3, 3},  {3, 10},  {0, 10}};
  EXPECT_NEAR(area_of_triangles(horseshoe), area(horseshoe), 1e-9);
  std::vector<Point> backwards(horseshoe.rbegin(), horseshoe.rend());
  EXPECT_NEAR(area_of_triangles(backwards), area(horseshoe), 1e-9);
  const auto ring = ring_outline({0, 0}, 20, 40, 0, 270);
  EXPECT_NEAR(area_of_triangles(ring), area(ring), 1e-6);
}

TEST(Box, CommonPartAndOverlap) {
  const Box a{0, 0, 10, 10};
  EXPECT_EQ(a.common({5, 5, 10, 10}), (Box{5, 5, 5, 5}));
  EXPECT_FALSE(a.overlaps({10, 0, 5, 5}));
  EXPECT_EQ(a.inset(20).width, 0);
}

TEST(Icons, AreManyOrderedAndInsideTheirSquare) {
  const auto all = icons();
  EXPECT_GE(all.size(), 25u);
  for (std::size_t i = 0; i < all.size(); ++i) {
    if (i > 0) {
      EXPECT_LT(all[i - 1].name, all[i].name);
    }
    EXPECT_FALSE(all[i].shapes.empty()) << all[i].name;
    for (const IconShape& shape : all[i].shapes) {
      EXPECT_GE(shape.points.size(), shape.closed ? 3u : 2u) << all[i].name;
      for (const Point& p : shape.points) EXPECT_TRUE((Box{0, 0, 1, 1}.contains(p))) << all[i].name;
    }
  }
}

// What the trade lays out for the two procedures that are shipped.
TEST(Icons, KnowTheUsualSupplies) {
  for (const char* name : {"mirror",        "explorer",
                           "syringe",       "cotton-roll",
                           "microbrush",    "etchant-syringe",
                           "suction-tip",   "air-water-syringe",
                           "curing-light",  "handpiece",
                           "matrix-band",   "wedge",
                           "composite-gun", "capsule",
                           "plugger",       "articulating-paper",
                           "floss",         "glasses",
                           "tray",          "dish",
                           "bottle",        "gauze",
                           "dam-frame",     "clamp-holder",
                           "sharps-box",    "bur",
                           "record-sheet",  "hand-rub"}) {
    EXPECT_NE(find_icon(name), nullptr) << name;
  }
  EXPECT_EQ(find_icon("no such thing"), nullptr);
}

TEST(Icons, EveryFilledShapeCanBeCutIntoTriangles) {
  for (const Icon& icon : icons()) {
    for (const IconShape& shape : icon.shapes) {
      if (!shape.closed) continue;
      EXPECT_NEAR(area_of_triangles(shape.points), area(shape.points), 1e-4) << icon.name;
    }
  }
}

}  // namespace
}  // namespace beforehand::picture
