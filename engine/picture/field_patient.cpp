// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include <algorithm>
#include <cmath>

#include "base/time.hpp"
#include "picture/field_scenes.hpp"

namespace beforehand::picture {
namespace {

/// The patient in the chair from the side: a covering and a cap, nobody's likeness.
class PatientPainter : FieldPainter {
 public:
  using FieldPainter::FieldPainter;

  void draw() {
    const Clip clip(canvas_, box_);
    canvas_.rectangle(box_, {blend(p_.well.with_alpha(200), p_.card), {}}, theme_.px(8));
    canvas_.line(at(-2, 0.86), at(2, 0.86), {p_.edge_strong, theme_.px(2)});
    place_joints();
    draw_chair();
    draw_body();
    draw_head();
    if (has("monitor")) draw_cuff();
    if (f_.on_clock != never) draw_clock();
    if (f_.suction) draw_tip();
    tools(aim());
    frame();
  }

 private:
  // Where the box is wider than high, larger than the square has room for; whole, head to foot.
  double large() const { return std::min(1.3, side() / 1.2); }
  Point at(double x, double y) const {
    return FieldPainter::at(x * large(), 0.86 + (y - 0.86) * large());
  }
  double px(double share) const { return FieldPainter::px(share * large()); }
  /// Degrees from the horizontal: of the back, head end up, and of the legs, feet up.
  struct Angles {
    double back, legs;
  };

  Angles angles() const {
    switch (f_.posture) {
      case Posture::flat:
        return {0, 24};
      case Posture::half_upright:
        return {42, 14};
      case Posture::reclined:
        break;
    }
    return {56, -14};
  }

  static Point turned(double length, double degrees) {
    constexpr double to_radians = 3.14159265358979 / 180;
    return {length * std::cos(degrees * to_radians), -length * std::sin(degrees * to_radians)};
  }

  void place_joints() {
    const auto [back, legs] = angles();
    const double left = -1;
    hip_ = {-0.02, 0.36};
    const Point up = turned(0.78, back);
    neck_ = {hip_.x + left * up.x, hip_.y + up.y};
    const Point on = turned(0.2, back);
    head_ = {neck_.x + left * on.x, neck_.y + on.y};
    const Point thigh = turned(0.5, legs + 6), shin = turned(0.5, legs - 12);
    knee_ = {hip_.x + thigh.x, hip_.y + thigh.y};
    foot_ = {knee_.x + shin.x, knee_.y + shin.y};
  }

  Point local(Point p, double dx = 0, double dy = 0) const { return at(p.x + dx, p.y + dy); }

  void limb(std::initializer_list<Point> joints, double thick, Colour fill) {
    std::vector<Point> line;
    for (const Point& joint : joints) line.push_back(local(joint));
    canvas_.polyline(line, {p_.ink, px(thick) + theme_.px(3)});
    canvas_.polyline(line, {fill, px(thick)});
  }

  void draw_chair() {
    const Colour cover = p_.standby;
    canvas_.polygon({at(-0.2, 0.86), at(-0.1, 0.5), at(0.2, 0.5), at(0.3, 0.86)}, {metal, edge()});
    const Point under{0, 0.16};
    limb({head_ + under, hip_ + under, knee_ + under, foot_ + under}, 0.14, cover);
  }

  void draw_body() {
    limb({neck_, hip_}, 0.3, cloth);
    limb({hip_, knee_, foot_}, 0.2, cloth);
    const Point elbow{(neck_.x + hip_.x) / 2 + 0.1, (neck_.y + hip_.y) / 2 + 0.16};
    limb({{neck_.x * 0.8 + hip_.x * 0.2, neck_.y * 0.8 + hip_.y * 0.2},
          elbow,
          {hip_.x + 0.16, hip_.y - 0.02}},
         0.1, blend(p_.ink.with_alpha(18), cloth));
  }

  void draw_head() {
    canvas_.circle(local(head_), px(0.17), {Colour::hex(0xDDEBED), edge(2)});
    const auto [back, legs] = angles();
    canvas_.ring_segment(local(head_), 0, px(0.17), 180 + back, 360 + back,
                         {Colour::hex(0xB9D3D8), edge()});
    if (has("oxygen-mask")) draw_mask();
  }

  Point face() const {
    const Point up = turned(0.17, angles().back + 70);
    return {head_.x + up.x, head_.y + up.y};
  }

  /// Mask, bag and the way to the cylinder.
  void draw_mask() {
    const Point f = face();
    const std::array<Point, 3> hose{local(f), local(f, -0.1, -0.34), local(f, -0.5, -0.4)};
    canvas_.polyline(hose, {p_.ink, theme_.px(4)});
    canvas_.polyline(hose, {white, theme_.px(2)});
    canvas_.circle(local(f, -0.5, -0.4), px(0.13), {okabe_ito::sky_blue, edge()});
    canvas_.circle(local(f), px(0.11),
                   {blend(okabe_ito::sky_blue.with_alpha(120), white), edge(2)});
  }

  void draw_cuff() {
    const Point arm{(neck_.x + hip_.x) / 2 + 0.1, (neck_.y + hip_.y) / 2 + 0.12};
    canvas_.circle(local(arm), px(0.1), {okabe_ito::reddish_purple, edge()});
    const std::array<Point, 2> lead{local(arm), at(0.72, 0.62)};
    canvas_.polyline(lead, {p_.ink, theme_.px(2)});
    const Point corner = at(0.6, 0.5);
    canvas_.icon("monitor", {corner.x, corner.y, px(0.4), px(0.36)}, {p_.card, edge()});
  }

  /// The suction at the mouth.
  void draw_tip() {
    const Point f = face();
    const std::array<Point, 2> tube{local(f), local(f, 0.34, -0.42)};
    canvas_.polyline(tube, {p_.ink, px(0.1)});
    canvas_.polyline(tube, {Colour::hex(0xE4ECEE), px(0.06)});
  }

  void draw_clock() {
    const double size = theme_.size(TextSize::body);
    const std::string text = clock_text(f_.on_clock);
    const double width = canvas_.measure(text, size, Weight::bold).width + theme_.px(34);
    const Box plate{box_.centre().x - width / 2, box_.y + theme_.px(7), width, size * 1.6};
    canvas_.rectangle(plate, {p_.card, edge()}, theme_.px(6));
    canvas_.icon("timer", {plate.x + theme_.px(5), plate.y + theme_.px(3), size * 1.2, size * 1.2},
                 {p_.card, edge(1.25)});
    canvas_.text({plate.right() - theme_.px(6), plate.centre().y}, text,
                 {size, p_.ink, Weight::bold, Align::right, Level::middle});
  }

  /// Where the lens points: an injection at the outer thigh, a mask at the face, else the chest.
  Point aim() const {
    if (f_.tools.empty()) return at(0, 0);
    const std::string& icon = f_.tools.front().icon;
    if (icon == "ampoule" || icon == "syringe")
      return at((hip_.x + knee_.x) / 2, (hip_.y + knee_.y) / 2);
    if (icon == "oxygen-mask" || icon == "suction-tip") return local(face());
    return at((neck_.x + hip_.x) / 2, (neck_.y + hip_.y) / 2);
  }

  bool has(const char* icon) const {
    return std::any_of(f_.left.begin(), f_.left.end(),
                       [icon](const ToolSeen& seen) { return seen.icon == icon; });
  }

  Point hip_, neck_, head_, knee_, foot_;
};

}  // namespace

void draw_patient_field(Canvas& canvas, const FieldView& field, const Theme& theme,
                        const Box& box) {
  PatientPainter(canvas, field, theme, box).draw();
}

}  // namespace beforehand::picture
