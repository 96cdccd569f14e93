// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <algorithm>
#include <array>
#include <vector>

#include "picture/canvas.hpp"
#include "picture/field_view.hpp"
#include "picture/palette.hpp"

// What the close-up's pictures share, and one function a subject.

namespace beforehand::picture {

/// A painter whose points lie on a square from -1 to 1 in the middle of the box.
class FieldPainter {
 public:
  FieldPainter(Canvas& canvas, const FieldView& field, const Theme& theme, const Box& box)
      : canvas_(canvas),
        f_(field),
        theme_(theme),
        p_(theme.palette),
        box_(box),
        unit_(std::min(box.width, box.height) / 2) {}

 protected:
  // Materials, seen in daylight. Texts never stand on them.
  static constexpr Colour gum = Colour::hex(0xE3A6A0);
  static constexpr Colour gum_edge = Colour::hex(0xC97F7A);
  static constexpr Colour dam = Colour::hex(0x3F7F8C);
  static constexpr Colour enamel = Colour::hex(0xF7F1E1);
  static constexpr Colour frosted = Colour::hex(0xFFFFFF);
  static constexpr Colour dentine = Colour::hex(0xE8CF98);
  static constexpr Colour composite = Colour::hex(0xF3E6C8);
  static constexpr Colour water = Colour::hex(0x3D9BD6);
  static constexpr Colour deep_water = Colour::hex(0x0D4B78);
  static constexpr Colour blood = Colour::hex(0xB3261E);
  static constexpr Colour dark_blood = Colour::hex(0x5E0F0A);
  static constexpr Colour dye = Colour::hex(0xB0267E);
  static constexpr Colour adhesive = Colour::hex(0xF0B429);
  static constexpr Colour metal = Colour::hex(0xB9C2C6);
  static constexpr Colour blue_light = Colour::hex(0x4E7BFF);
  static constexpr Colour cloth = Colour::hex(0xCFE3E6);
  static constexpr Colour white = Colour::hex(0xFFFFFF);

  Point at(double x, double y) const {
    const Point c = box_.centre();
    return {c.x + x * unit_, c.y + y * unit_};
  }
  double px(double share) const { return share * unit_; }
  /// How far the box reaches to the side, on the painter's square.
  double side() const { return box_.width / 2 / unit_; }
  Stroke edge(double width = 1.5) const { return {p_.ink, theme_.px(width)}; }
  /// A closed outline through curves: start, then triples of two controls and an end.
  std::vector<Point> outline(Point start, std::initializer_list<std::array<Point, 3>> curves) const;
  void frame();
  void drop(double x, double y, double r) { drop_at(at(x, y), px(r)); }
  void drop_at(Point middle, double radius);
  /// A lens with what is at work in it, pointing at where.
  void lens(const ToolSeen& tool, Point centre, double radius, Point where);
  /// Lenses in the upper right and left corners for everything at work.
  void tools(Point where);

  Canvas& canvas_;
  const FieldView& f_;
  const Theme& theme_;
  const Palette& p_;
  Box box_;
  double unit_;
};

void draw_tooth_field(Canvas&, const FieldView&, const Theme&, const Box&);
void draw_patient_field(Canvas&, const FieldView&, const Theme&, const Box&);
void draw_surfaces_field(Canvas&, const FieldView&, const Theme&, const Box&);

}  // namespace beforehand::picture
