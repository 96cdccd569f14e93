// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include <algorithm>
#include <array>
#include <cmath>

#include "picture/field_scenes.hpp"

namespace beforehand::picture {
namespace {

using procedure::Field;
/// One molar from above.
class ToothPainter : FieldPainter {
 public:
  using FieldPainter::FieldPainter;

  void draw() {
    const Clip clip(canvas_, box_);
    draw_ground();
    if (f_.tooth_out)
      draw_socket();
    else
      draw_tooth();
    if (sees(Field::matrixed)) draw_matrix();
    if (sees(Field::bleeding)) draw_blood();
    if (sees(Field::wet) || f_.rinsing) draw_wet();
    if (f_.light) draw_light();
    if (f_.suction) draw_suction();
    if (f_.rinsing || f_.drying) draw_jet();
    if (sees(Field::shielded)) draw_shield();
    tools(at(0, 0));
    frame();
  }

 private:
  bool sees(Field flag) const { return f_.seen.test(static_cast<std::size_t>(flag)); }
  bool has_dam() const { return sees(Field::isolated) && f_.dam; }

  /// A dam lies in folds around the tooth; without one there is gum, cotton rolls keeping it dry.
  void draw_ground() {
    canvas_.rectangle(box_, {has_dam() ? dam : gum, {}}, theme_.px(8));
    if (has_dam())
      draw_folds();
    else
      draw_gum();
    draw_neighbour(-1.42);
    draw_neighbour(1.42);
    if (has_dam()) draw_clamp();
    if (sees(Field::isolated) && !f_.dam) draw_rolls();
  }

  void draw_folds() {
    const Stroke fold{blend(white.with_alpha(60), dam), theme_.px(2)};
    for (const double r : {0.86, 1.05, 1.3}) {
      canvas_.arc(at(0, 0), px(r), 20, 160, fold);
      canvas_.arc(at(0, 0), px(r), 200, 340, fold);
    }
    canvas_.circle(at(0, 0), px(0.74), {blend(p_.ink.with_alpha(50), dam), {}});
  }

  /// The ridge the teeth stand in, a collar round each.
  void draw_gum() {
    const double wide = side() * unit_;
    const Point c = at(0, 0);
    canvas_.rectangle({c.x - wide, c.y - px(0.84), 2 * wide, px(1.68)},
                      {blend(white.with_alpha(46), gum), {}});
    const Stroke crease{gum_edge, theme_.px(1.5)};
    for (const double y : {-0.84, 0.84}) canvas_.line(at(-side(), y), at(side(), y), crease);
    for (const double x : {-1.42, 0.0, 1.42}) canvas_.circle(at(x, 0), px(0.76), {gum_edge, {}});
  }

  void draw_rolls() {
    for (const double y : {-0.98, 0.74}) {
      const Point corner = at(-1.2, y);
      canvas_.rectangle({corner.x, corner.y, px(2.4), px(0.26)}, {white, edge(1.5)}, px(0.13));
      for (double x = -1.0; x < 1.1; x += 0.2)
        canvas_.line(at(x, y + 0.04), at(x - 0.08, y + 0.22), {p_.edge, theme_.px(1)});
    }
  }

  void draw_neighbour(double x) {
    const auto shape =
        outline({x - 0.55, 0}, {{Point{x - 0.6, -0.6}, Point{x + 0.6, -0.6}, Point{x + 0.55, 0}},
                                {Point{x + 0.6, 0.6}, Point{x - 0.6, 0.6}, Point{x - 0.55, 0}}});
    canvas_.polygon(shape, {blend(p_.ink.with_alpha(22), enamel), edge(1.25)});
    const Stroke groove{blend(p_.ink.with_alpha(90), enamel), theme_.px(1.5)};
    canvas_.line(at(x - 0.3, 0.02), at(x + 0.3, -0.02), groove);
    canvas_.line(at(x, -0.24), at(x - 0.02, 0.26), groove);
  }

  void draw_clamp() {
    const Stroke bow{p_.ink, px(0.1)};
    const Stroke inner{metal, px(0.07)};
    for (const Stroke& s : {bow, inner}) {
      canvas_.arc(at(0, 0), px(0.92), -32, 32, s);
      for (const double side : {-1.0, 1.0}) {
        canvas_.line(at(side * 0.49, -0.78), at(side * 0.62, -0.5), s);
      }
    }
  }

  Colour enamel_now() const { return sees(Field::etched) ? frosted : enamel; }

  void draw_tooth() {
    if (f_.subject == Subject::crown && sees(Field::opened)) return draw_cut_down();
    canvas_.polygon(crown(), {enamel_now(), edge(2)});
    if (!sees(Field::etched)) draw_cusps();
    if (sees(Field::etched)) draw_frost();
    draw_fissures();
    if (sees(Field::opened))
      draw_preparation();
    else
      draw_surface();
    if (f_.corded) draw_cord(1.04);
  }

  /// Four cusps, lighter towards their tips.
  void draw_cusps() {
    for (const auto& [x, y] : {std::array{-0.33, -0.33}, std::array{0.32, -0.34},
                               std::array{-0.33, 0.34}, std::array{0.34, 0.35}}) {
      canvas_.circle(at(x, y), px(0.19), {blend(white.with_alpha(120), enamel), {}});
      canvas_.circle(at(x * 1.02, y * 1.02), px(0.1), {white, {}});
    }
  }

  std::vector<Point> crown(double by) const {
    auto shape = crown();
    const Point c = at(0, 0);
    for (Point& p : shape) p = c + (p - c) * by;
    return shape;
  }

  /// A crown's preparation: the shoulder all round, dentine above it, a rough margin until it is
  /// smoothed.
  void draw_cut_down() {
    canvas_.polygon(crown(), {blend(p_.ink.with_alpha(20), enamel), edge(1.5)});
    const bool smooth = sees(Field::contoured);
    canvas_.polygon(
        crown(0.9),
        {dentine, {p_.ink, theme_.px(smooth ? 2.5 : 2), smooth ? 0 : theme_.px(5), theme_.px(3)}});
    canvas_.polygon(crown(0.66), {blend(white.with_alpha(80), dentine), edge(1.5)});
    const Stroke groove{blend(p_.ink.with_alpha(90), dentine), theme_.px(1.5)};
    canvas_.line(at(-0.24, 0.02), at(0.24, -0.02), groove);
    canvas_.line(at(0, -0.2), at(0.02, 0.22), groove);
    if (smooth) draw_gloss(0.1, 0.1, 0.3);
    draw_bonding(crown(0.66));
    if (f_.corded) draw_cord(1.06);
  }

  /// A twisted thread between tooth and gum.
  void draw_cord(double by) {
    auto ring = crown(by);
    ring.push_back(ring.front());
    canvas_.polyline(ring, {p_.ink, px(0.075)});
    canvas_.polyline(ring, {Colour::hex(0x8FA8FF), px(0.05), px(0.08), px(0.05)});
  }

  /// Where the tooth was: bone's rim, two roots' holes, and what has been put there.
  void draw_socket() {
    canvas_.polygon(crown(0.96), {gum_edge, {dark_blood, theme_.px(2)}});
    canvas_.polygon(crown(0.78), {Colour::hex(0x8E2A24), {dark_blood, theme_.px(1.5)}});
    for (const double x : {-0.22, 0.22})
      canvas_.circle(at(x, 0), px(0.17), {dark_blood, {Colour::hex(0x3A0906), theme_.px(1)}});
    if (!f_.stitched) return;
    for (const double x : {-0.24, 0.0, 0.24}) {
      canvas_.line(at(x - 0.06, -0.6), at(x + 0.06, 0.6), {p_.ink, theme_.px(2.5)});
      canvas_.circle(at(x + 0.06, 0.6), px(0.04), {p_.ink, {}});
    }
  }

  /// A lower molar's crown: four corners, a waist on each side.
  std::vector<Point> crown() const {
    return outline({-0.62, -0.28},
                   {{Point{-0.66, -0.62}, Point{-0.3, -0.66}, Point{0, -0.58}},
                    {Point{0.3, -0.66}, Point{0.66, -0.62}, Point{0.63, -0.26}},
                    {Point{0.58, -0.05}, Point{0.58, 0.08}, Point{0.63, 0.27}},
                    {Point{0.66, 0.62}, Point{0.3, 0.66}, Point{0, 0.6}},
                    {Point{-0.3, 0.66}, Point{-0.66, 0.62}, Point{-0.63, 0.26}},
                    {Point{-0.58, 0.06}, Point{-0.58, -0.06}, Point{-0.62, -0.28}}});
  }

  /// Etched enamel is chalky: dull specks instead of gloss.
  void draw_frost() {
    for (int i = 0; i < 44; ++i) {
      const double angle = i * 137.508;
      const double r = 0.07 * std::sqrt(static_cast<double>(i)) + 0.05;
      const Point c = polar(at(0, 0), px(std::min(r, 0.55)), angle);
      canvas_.circle(c, px(0.014), {Colour::hex(0xAEB9BC), {}});
    }
  }

  void draw_fissures() {
    const Stroke groove{blend(p_.ink.with_alpha(150), enamel), theme_.px(2)};
    const auto path = [&](Point a, Point b, Point c, Point d) {
      std::vector<Point> line{at(a.x, a.y)};
      const auto part = curve(line.front(), at(b.x, b.y), at(c.x, c.y), at(d.x, d.y));
      line.insert(line.end(), part.begin(), part.end());
      canvas_.polyline(line, groove);
    };
    path({-0.4, 0.02}, {-0.2, -0.08}, {0.1, 0.1}, {0.42, -0.02});
    path({-0.08, 0}, {-0.12, -0.15}, {-0.02, -0.3}, {-0.06, -0.44});
    path({0.1, 0.02}, {0.08, 0.2}, {0.16, 0.3}, {0.1, 0.46});
  }

  std::vector<Point> preparation(double by = 1) const {
    const auto q = [by](double x, double y) { return Point{x * by, y * by}; };
    return outline(q(-0.36, -0.06), {{q(-0.36, -0.24), q(-0.1, -0.22), q(0.06, -0.2)},
                                     {q(0.3, -0.26), q(0.5, -0.3), q(0.605, -0.2)},
                                     {q(0.585, -0.06), q(0.585, 0.08), q(0.605, 0.22)},
                                     {q(0.5, 0.3), q(0.3, 0.28), q(0.06, 0.22)},
                                     {q(-0.1, 0.24), q(-0.36, 0.22), q(-0.36, -0.06)}});
  }

  void draw_preparation() {
    canvas_.polygon(preparation(), {dentine, edge(1.75)});
    const auto floor = preparation(0.84);
    canvas_.polygon(floor, {blend(p_.ink.with_alpha(34), dentine), {}});
    if (sees(Field::dyed)) draw_dye();
    draw_bonding(preparation(0.97));
    if (f_.filled_share > 0 || sees(Field::filled)) draw_filling();
  }

  /// Sealants and coatings on a tooth that is not opened lie along the grooves.
  void draw_surface() {
    if (sees(Field::dyed)) draw_dye();
    const auto patch =
        outline({-0.46, 0}, {{Point{-0.46, -0.14}, Point{-0.26, -0.12}, Point{-0.2, -0.2}},
                             {Point{-0.16, -0.46}, Point{-0.04, -0.54}, Point{0.04, -0.44}},
                             {Point{0.12, -0.3}, Point{0.1, -0.16}, Point{0.24, -0.14}},
                             {Point{0.5, -0.16}, Point{0.54, 0.06}, Point{0.4, 0.12}},
                             {Point{0.24, 0.16}, Point{0.28, 0.32}, Point{0.2, 0.46}},
                             {Point{0.12, 0.58}, Point{-0.02, 0.5}, Point{-0.02, 0.34}},
                             {Point{-0.04, 0.18}, Point{-0.46, 0.16}, Point{-0.46, 0}}});
    draw_bonding(patch);
    if (f_.filled_share <= 0 && !sees(Field::filled)) return;
    canvas_.polygon(patch, {blend(composite.with_alpha(215), enamel), edge(1.25)});
    draw_state_of_filling(patch);
    if (sees(Field::contoured)) draw_fissures();
  }

  void draw_dye() {
    for (const auto& [x, y, r] : {std::array{-0.12, 0.04, 0.1}, std::array{0.14, -0.06, 0.07},
                                  std::array{0.3, 0.08, 0.085}, std::array{0.02, -0.04, 0.06}}) {
      canvas_.circle(at(x, y), px(r), {dye.with_alpha(190), {Colour::hex(0x6E0F4C), theme_.px(1)}});
    }
  }

  /// Primer leaves a film with a broken outline, adhesive a thick gloss with a closed one.
  void draw_bonding(const std::vector<Point>& shape) {
    if (sees(Field::primed)) {
      canvas_.polygon(shape, {adhesive.with_alpha(50),
                              {blend(p_.ink.with_alpha(120), adhesive), theme_.px(2), theme_.px(5),
                               theme_.px(4)}});
    }
    if (sees(Field::coated)) {
      canvas_.polygon(shape, {adhesive.with_alpha(120),
                              {blend(p_.ink.with_alpha(90), adhesive), theme_.px(2.5)}});
      draw_gloss(0.0, -0.05, 0.2);
    }
  }

  void draw_gloss(double x, double y, double size) {
    const Stroke shine{white, px(0.03)};
    canvas_.arc(at(x, y), px(size), 285, 335, shine);
    canvas_.arc(at(x, y), px(size), 345, 352, shine);
  }

  /// Increments grow from the far wall towards the open side.
  void draw_filling() {
    const double share = f_.filled_share > 0 ? f_.filled_share : 1;
    const Point left = at(-0.36, 0);
    const double width = px(0.97) * std::clamp(share, 0.0, 1.0);
    const Box part{left.x, at(0, -0.35).y, width, px(0.7)};
    const Clip clip(canvas_, part);
    const auto shape = preparation(0.985);
    canvas_.polygon(shape, {composite, edge(1.5)});
    draw_state_of_filling(shape);
    if (sees(Field::contoured)) draw_fissures();
    if (share < 1) canvas_.line({part.right(), part.y}, {part.right(), part.bottom()}, edge(3));
  }

  /// Soft material is dotted, hard material glossy.
  void draw_state_of_filling(const std::vector<Point>& shape) {
    if (sees(Field::cured)) {
      canvas_.polygon(shape, {nothing, {p_.ink, theme_.px(2.25)}});
      draw_gloss(0.08, 0.06, 0.2);
      draw_gloss(0.42, 0.1, 0.14);
      return;
    }
    for (int i = 0; i < 26; ++i) {
      const Point c = at(-0.3 + 0.05 * (i % 13), (i % 2 ? 0.07 : -0.08) + 0.05 * ((i * 7) % 3 - 1));
      canvas_.circle(c, px(0.014), {blend(p_.ink.with_alpha(130), composite), {}});
    }
  }

  /// A band around the crown with its wedge on the open side.
  void draw_matrix() {
    const Stroke dark{p_.ink, px(0.085)};
    const Stroke light{metal, px(0.05)};
    auto ring = crown();
    ring.push_back(ring.front());
    canvas_.polyline(ring, dark);
    canvas_.polyline(ring, light);
    canvas_.polygon({at(0.6, 0.66), at(0.82, 0.7), at(0.72, 0.16)}, {okabe_ito::orange, edge()});
  }

  void draw_blood() {
    const auto pool = outline({0.2, 0.5}, {{Point{0.3, 0.36}, Point{0.44, 0.5}, Point{0.52, 0.42}},
                                           {Point{0.7, 0.34}, Point{0.86, 0.6}, Point{0.66, 0.78}},
                                           {Point{0.48, 0.92}, Point{0.06, 0.86}, Point{0.06, 0.7}},
                                           {Point{0.06, 0.6}, Point{0.14, 0.6}, Point{0.2, 0.5}}});
    canvas_.polygon(pool, {blood, {dark_blood, theme_.px(2)}});
    canvas_.circle(at(0.02, 0.5), px(0.05), {blood, {dark_blood, theme_.px(1.5)}});
    draw_gloss(0.42, 0.68, 0.16);
  }

  void draw_wet() {
    canvas_.polygon(crown(), {water.with_alpha(44), {}});
    for (const auto& [x, y, r] :
         {std::array{-0.44, -0.34, 0.075}, std::array{0.36, -0.4, 0.06},
          std::array{-0.34, 0.4, 0.06}, std::array{-0.66, 0.3, 0.07}, std::array{0.24, 0.34, 0.055},
          std::array{-0.14, -0.2, 0.05}, std::array{0.74, -0.5, 0.075}}) {
      drop(x, y, r);
    }
  }

  void draw_light() {
    for (const double r : {0.78, 0.58, 0.4})
      canvas_.circle(at(0.05, 0), px(r), {blue_light.with_alpha(46), {}});
    const std::vector<Point> wand{at(0.3, -1.4), at(0.62, -1.3), at(0.28, -0.34), at(-0.02, -0.42)};
    canvas_.polygon(wand, {metal, edge(2)});
    canvas_.polygon({at(0.28, -0.34), at(-0.02, -0.42), at(-0.06, -0.28), at(0.24, -0.2)},
                    {blue_light, edge(2)});
  }

  void draw_suction() {
    canvas_.polygon({at(-1.5, 0.75), at(-1.3, 1.15), at(-0.58, 0.66), at(-0.74, 0.28)},
                    {Colour::hex(0xE4ECEE), edge(2)});
    canvas_.polygon({at(-0.58, 0.66), at(-0.74, 0.28), at(-0.5, 0.36)}, {p_.ink, edge(2)});
    const Stroke pull{deep_water, theme_.px(2)};
    for (const double y : {0.16, 0.36, 0.56}) {
      canvas_.line(at(-0.2, y), at(-0.36, y + 0.05), pull);
      canvas_.line(at(-0.36, y + 0.05), at(-0.31, y), pull);
      canvas_.line(at(-0.36, y + 0.05), at(-0.3, y + 0.08), pull);
    }
  }

  /// Water as drops and a full stream, air as open lines.
  void draw_jet() {
    canvas_.polygon({at(1.5, -1.0), at(1.36, -1.3), at(0.6, -0.72), at(0.66, -0.6)},
                    {metal, edge(2)});
    const Stroke water_line{deep_water, theme_.px(3)};
    const Stroke air_line{p_.ink_soft, theme_.px(2), theme_.px(7), theme_.px(5)};
    for (const double spread : {-0.2, 0.0, 0.2}) {
      canvas_.line(at(0.58, -0.62), at(0.08 + spread, -0.12 + spread * 0.9),
                   f_.rinsing ? water_line : air_line);
    }
    if (f_.rinsing) drop(0.3, -0.14, 0.06);
  }

  /// An amber shield between eyes and light.
  void draw_shield() {
    const Box plate{at(-0.98, -0.96).x, at(-0.98, -0.96).y, px(0.62), px(0.42)};
    canvas_.rectangle(plate, {okabe_ito::orange.with_alpha(225), edge(2)}, px(0.06));
    canvas_.icon("glasses", plate.inset(px(0.05)), {okabe_ito::orange, {p_.ink, theme_.px(1.5)}});
  }
};

}  // namespace

void draw_tooth_field(Canvas& canvas, const FieldView& field, const Theme& theme, const Box& box) {
  ToothPainter(canvas, field, theme, box).draw();
}

}  // namespace beforehand::picture
