// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include <algorithm>

#include "picture/field_scenes.hpp"
#include "picture/hatch.hpp"

namespace beforehand::picture {
namespace {

/// Headrest, chair, the unit's tray and the lamp: what every patient's treatment leaves its traces
/// on.
class SurfacesPainter : FieldPainter {
 public:
  using FieldPainter::FieldPainter;

  void draw() {
    const Clip clip(canvas_, box_);
    canvas_.rectangle(box_, {p_.page, {}}, theme_.px(8));
    const Point tray = at(0.62, -0.1), arm = at(0.2, -0.5);
    canvas_.polyline({at(-0.2, 0.2), arm, tray}, {p_.ink, px(0.08) + theme_.px(3)});
    canvas_.polyline({at(-0.2, 0.2), arm, tray}, {metal, px(0.08)});
    draw_surface({-0.95, -0.46, 0.34, 0.6}, 0.16);
    draw_surface({-0.58, -0.42, 0.96, 0.52}, 0.1);
    draw_surface({-0.58, 0.3, 0.96, 0.44}, 0.1);
    draw_surface({0.5, -0.42, 0.62, 0.62}, 0.06);
    draw_surface({0.56, 0.42, 0.5, 0.3}, 0.14);
    if (f_.rinsing) drop_at(at(0.8, 0.1), px(0.08));
    tools(at(-0.1, -0.2));
    frame();
  }

 private:
  // Where the box is wider than high, larger than the square has room for.
  double large() const { return std::min(1.3, side() / 1.2); }
  Point at(double x, double y) const {
    return FieldPainter::at(x * large(), 0.12 + (y - 0.12) * large());
  }
  double px(double share) const { return FieldPainter::px(share * large()); }
  bool is(Surface surface) const { return f_.surface == surface; }

  void draw_surface(const Box& local, double round) {
    const Point corner = at(local.x, local.y);
    const Box box{corner.x, corner.y, px(local.width), px(local.height)};
    const bool film = is(Surface::used) || is(Surface::covered);
    const Colour ground = is(Surface::used)   ? p_.caution_soft
                          : is(Surface::bare) ? blend(p_.ink.with_alpha(30), p_.card)
                                              : p_.card;
    canvas_.rectangle(box, {ground, edge(2)}, px(round));
    const Box in = box.inset(theme_.px(4));
    if (film)
      hatch(canvas_, in, theme_.px(is(Surface::used) ? 9 : 14), Slope::rising,
            {is(Surface::used) ? p_.caution : p_.accent, theme_.px(1.25)});
    if (is(Surface::used) || is(Surface::bare)) draw_spots(local);
    if (is(Surface::cleaned)) draw_streaks(local);
    if (is(Surface::wet)) draw_drops(local);
    if (is(Surface::dry) || is(Surface::covered)) draw_tick(local);
  }

  void draw_spots(const Box& b) {
    for (const auto& [x, y, r] : {std::array{0.3, 0.35, 0.035}, std::array{0.62, 0.6, 0.05},
                                  std::array{0.75, 0.28, 0.03}}) {
      canvas_.circle(at(b.x + b.width * x, b.y + b.height * y), px(r), {p_.caution, {}});
    }
  }

  void draw_streaks(const Box& b) {
    for (const double y : {0.3, 0.5, 0.7}) {
      canvas_.line(at(b.x + b.width * 0.2, b.y + b.height * y),
                   at(b.x + b.width * 0.8, b.y + b.height * (y - 0.12)),
                   {p_.edge_strong, theme_.px(1.5)});
    }
  }

  void draw_drops(const Box& b) {
    for (const auto& [x, y] :
         {std::array{0.25, 0.4}, std::array{0.55, 0.65}, std::array{0.78, 0.35}})
      drop_at(at(b.x + b.width * x, b.y + b.height * y), px(0.05));
  }

  void draw_tick(const Box& b) {
    const Point c{b.x + b.width / 2, b.y + b.height / 2};
    canvas_.circle(at(c.x, c.y), px(0.12), {p_.good, edge()});
    canvas_.polyline(
        {at(c.x - 0.055, c.y), at(c.x - 0.01, c.y + 0.05), at(c.x + 0.06, c.y - 0.045)},
        {p_.card, std::max(theme_.px(2), px(0.03))});
  }
};

}  // namespace

void draw_surfaces_field(Canvas& canvas, const FieldView& field, const Theme& theme,
                         const Box& box) {
  SurfacesPainter(canvas, field, theme, box).draw();
}

}  // namespace beforehand::picture
