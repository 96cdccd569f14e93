// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "picture/room_view.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace beforehand::picture {
namespace {

using procedure::Motion;
using procedure::PlaceKind;
using procedure::Role;
using procedure::Zone;

class RoomPainter {
 public:
  RoomPainter(Canvas& canvas, const RoomView& room, const Theme& theme, const RoomLayout& layout,
              const RoomPose& pose)
      : canvas_(canvas), room_(room), theme_(theme), p_(theme.palette), at_(layout), pose_(pose) {}

  void draw() {
    const Group group(canvas_, {room_.title, {}, "group"});
    draw_face();
    draw_patient();
    for (std::size_t i = 0; i < room_.people.size(); ++i) draw_body(i);
    for (std::size_t i = 0; i < room_.places.size(); ++i) draw_plate(i);
    each_hand([this](std::size_t i, std::size_t side) { draw_arm(i, side); });
    for (std::size_t i = 0; i < room_.places.size(); ++i) draw_bin(i);
    draw_things(false);
    each_hand([this](std::size_t i, std::size_t side) { draw_glove(i, side); });
    draw_place_names();
    draw_things(true);
    each_hand([this](std::size_t i, std::size_t side) { draw_thumb(i, side); });
    for (std::size_t i = 0; i < room_.people.size(); ++i) draw_name(i);
  }

 private:
  double r(double share) const { return at_.radius * share; }
  double label_size() const { return theme_.size(TextSize::label); }

  Colour tint_of(Zone zone) const {
    switch (zone) {
      case Zone::operator_zone:
        return okabe_ito::sky_blue;
      case Zone::assistant_zone:
        return okabe_ito::bluish_green;
      case Zone::transfer_zone:
        return okabe_ito::yellow;
      case Zone::static_zone:
        return okabe_ito::reddish_purple;
    }
    return p_.edge;
  }

  void draw_face() {
    canvas_.circle(at_.mouth, r(1), {p_.card, {}});
    for (const ZoneArc& arc : zone_arcs(room_.hand)) draw_zone(arc);
    if (room_.reach_rings) draw_rings();
    for (int hour = 1; hour <= 12; ++hour) draw_hour(hour);
  }

  void draw_zone(const ZoneArc& arc) {
    const Group group(canvas_, {zone_word(room_.words, arc.zone), {}, "img"});
    const double from = degrees(arc.from);
    const double to = degrees(arc.to);
    const Colour tint = tint_of(arc.zone);
    canvas_.ring_segment(at_.mouth, 0, r(0.93), from, to,
                         {blend(tint.with_alpha(26), p_.card), {}});
    canvas_.ring_segment(at_.mouth, r(0.93), r(1), from, to,
                         {blend(tint.with_alpha(190), p_.card), {p_.ink, theme_.px(1.25)}});
    canvas_.line(polar(at_.mouth, r(0.2), from), polar(at_.mouth, r(0.93), from),
                 {p_.edge_strong, theme_.px(1.25)});
  }

  void draw_rings() {
    for (const Motion motion : {Motion::i, Motion::ii, Motion::iii}) {
      canvas_.arc(at_.mouth, r(reach_radius(motion)), 0, 360,
                  {p_.edge, theme_.px(1), theme_.px(3), theme_.px(5)});
    }
  }

  void draw_hour(int hour) {
    const Point at = polar(at_.mouth, r(1) + theme_.px(13), degrees(hour));
    const Box box{at.x - theme_.px(11), at.y - theme_.px(10), theme_.px(22), theme_.px(20)};
    const bool hidden =
        std::any_of(at_.plates.begin(), at_.plates.end(),
                    [&](const RoomLayout::Plate& plate) { return plate.box.overlaps(box); });
    const bool named =
        std::any_of(at_.figures.begin(), at_.figures.end(),
                    [&](const RoomLayout::Figure& figure) { return figure.label.overlaps(box); });
    if (hidden || named) return;
    canvas_.text(at, std::to_string(hour),
                 {label_size(), p_.ink_soft, Weight::regular, Align::centre, Level::middle});
  }

  Point down(double x, double y) const { return {at_.mouth.x + r(x), at_.mouth.y + r(y)}; }

  /// On a strip of the ground it stands on, so that an arm passes beneath it.
  void draw_line(Point middle, std::string_view text, Colour ground, const TextStyle& style) {
    const double width = canvas_.measure(text, style.size, style.weight).width + theme_.px(4);
    const double height = style.size * 1.2;
    const double left =
        style.align == Align::right ? middle.x - width + theme_.px(2) : middle.x - width / 2;
    canvas_.rectangle({left, middle.y - height / 2, width, height}, {ground, {}}, theme_.px(3));
    canvas_.text(middle, text, style);
  }

  void draw_lines(const Box& box, const std::vector<std::string>& lines, Colour ground) {
    const double line = box.height / static_cast<double>(lines.size());
    for (std::size_t i = 0; i < lines.size(); ++i) {
      const double y = box.y + line * (static_cast<double>(i) + 0.5);
      draw_line({box.centre().x, y}, lines[i], ground,
                {label_size(), p_.ink_soft, Weight::regular, Align::centre, Level::middle});
    }
  }

  /// Names lie above arms and gloves, and under what a hand carries.
  void draw_place_names() {
    for (const RoomLayout::ZoneLabel& label : at_.zones)
      draw_lines(label.box, label.lines, p_.card);
    for (std::size_t i = 0; i < room_.places.size(); ++i) draw_place_name(i);
  }

  static constexpr double foot = 0.925;

  void draw_chair() {
    canvas_.rectangle(
        {at_.mouth.x - r(0.2), at_.mouth.y - r(0.24), r(0.4), r(foot + 0.2)},
        {blend(p_.standby.with_alpha(160), p_.card), {p_.edge_strong, theme_.px(1.5)}}, r(0.1));
  }

  /// Headrest, back, seat and leg rest of a chair that nobody lies in.
  void draw_upholstery() {
    const Paint cushion{Colour::hex(0xCFE3E6), {p_.edge_strong, theme_.px(1.5)}};
    const auto part = [&](double half, double top, double bottom) {
      const Point from = down(-half, top), to = down(half, bottom);
      canvas_.rectangle({from.x, from.y, to.x - from.x, to.y - from.y}, cushion, r(0.05));
    };
    part(0.11, -0.2, -0.05);
    part(0.17, 0, 0.36);
    part(0.17, 0.39, 0.62);
    part(0.15, 0.65, foot - 0.08);
  }

  /// Chair and patient under a drape, feet at 6 o'clock: a covering and a cap, nobody's likeness.
  void draw_patient() {
    draw_chair();
    if (!room_.patient) return draw_upholstery();
    const Group group(canvas_, {room_.words.patient, {}, "img"});
    const Stroke edge{p_.edge_strong, theme_.px(1.5)};
    std::vector<Point> drape{down(-0.13, 0.2)};
    const auto bend = [&](Point a, Point b, Point c) {
      const auto part = curve(drape.back(), a, b, c);
      drape.insert(drape.end(), part.begin(), part.end());
    };
    bend(down(-0.3, 0.24), down(-0.32, 0.3), down(-0.31, 0.42));
    drape.push_back(down(-0.24, foot - 0.03));
    bend(down(-0.1, foot + 0.01), down(0.1, foot + 0.01), down(0.24, foot - 0.03));
    drape.push_back(down(0.31, 0.42));
    bend(down(0.32, 0.3), down(0.3, 0.24), down(0.13, 0.2));
    canvas_.polygon(drape, {Colour::hex(0xCFE3E6), edge});
    draw_head();
  }

  void draw_head() {
    const Stroke edge{p_.edge_strong, theme_.px(1.5)};
    canvas_.circle(down(0, -0.045), r(0.165), {Colour::hex(0xDDEBED), edge});
    canvas_.ring_segment(down(0, -0.045), 0, r(0.165), -80, 80, {Colour::hex(0xB9D3D8), edge});
    canvas_.circle(at_.mouth, r(0.062), {p_.card, {p_.ink, theme_.px(1.75)}});
    canvas_.circle(at_.mouth, r(0.03), {blend(okabe_ito::vermillion.with_alpha(120), p_.card), {}});
  }

  Colour cloth_of(Role role) const {
    if (role == Role::clinician) return okabe_ito::sky_blue;
    return role == Role::assistant ? Colour::hex(0x5CC4A4) : okabe_ito::orange;
  }

  /// Shoulders as an oval across the line to the mouth, the head on it.
  void draw_body(std::size_t index) {
    const PersonView& person = room_.people[index];
    const RoomLayout::Figure figure = figure_now(index);
    const Group group(canvas_, {person.name, {}, "img"});
    const Point ahead = polar({}, 1, figure.facing);
    const Point aside = polar({}, 1, figure.facing + 90);
    std::vector<Point> oval;
    for (const Point& p : circle_outline({}, 100)) {
      oval.push_back(figure.head + aside * (p.x / 100 * r(0.22)) + ahead * (p.y / 100 * r(0.115)));
    }
    canvas_.polygon(oval, {cloth_of(person.role), {p_.ink, theme_.px(1.75)}});
    canvas_.circle(
        figure.head + ahead * r(0.025), r(0.085),
        {blend(p_.ink.with_alpha(40), cloth_of(person.role)), {p_.ink, theme_.px(1.75)}});
    if (person.trainee) {
      canvas_.circle(figure.head + ahead * r(0.025), r(0.085) + theme_.px(4),
                     {nothing, {p_.accent_strong, theme_.px(2.5)}});
    }
  }

  template <class Draw>
  void each_hand(Draw draw) const {
    for (std::size_t i = 0; i < room_.people.size(); ++i) {
      for (const std::size_t side : {0u, 1u}) draw(i, side);
    }
  }

  double arm_width() const { return std::max(theme_.px(7), r(0.065)); }

  static double length(Point way) { return std::hypot(way.x, way.y); }

  /// How far a person is from the seat now: who sits leans a little towards what is far, who stands
  /// goes there.
  Point lean(std::size_t index) const {
    Point by;
    for (const Point& hand : pose_.hands[index]) {
      const Point way = hand - at_.figures[index].head;
      const double missing = length(way) - r(0.75);
      if (missing > length(by)) by = way * (missing / length(way));
    }
    const bool stands = room_.people[index].role == Role::second_assistant;
    if (!stands && length(by) > r(0.12)) by = by * (r(0.12) / length(by));
    return by;
  }

  RoomLayout::Figure figure_now(std::size_t index) const {
    RoomLayout::Figure figure = at_.figures[index];
    const Point by = lean(index);
    figure.head = figure.head + by;
    for (Point& shoulder : figure.shoulders) shoulder = shoulder + by;
    return figure;
  }

  /// A hand that does nothing goes with its owner.
  bool is_idle(std::size_t index, std::size_t side) const {
    const HandView& hand = room_.people[index].hands[side];
    return !hand.holds && hand.to.kind == Spot::Kind::rest;
  }

  /// An arm bends outwards, the more the nearer the hand.
  struct Arm {
    Point elbow, hand;
    double facing = 0;  ///< of the hand, degrees
  };

  Arm arm_of(std::size_t index, std::size_t side) const {
    const RoomLayout::Figure figure = figure_now(index);
    Arm arm;
    arm.hand = pose_.hands[index][side];
    if (is_idle(index, side)) arm.hand = arm.hand + lean(index);
    const double bend =
        std::max(r(0.03), r(0.2) - 0.25 * length(arm.hand - figure.shoulders[side]));
    arm.elbow = (figure.shoulders[side] + arm.hand) * 0.5 +
                polar({}, bend, figure.facing + (side == 0 ? -90 : 90));
    const Point forearm = arm.hand - arm.elbow;
    arm.facing = std::atan2(forearm.x, -forearm.y) * 180 / std::numbers::pi;
    return arm;
  }

  const RoomPose::Thing* held_in(std::size_t index, std::size_t side) const {
    const auto& held = room_.people[index].hands[side].holds;
    if (!held) return nullptr;
    for (const RoomPose::Thing& thing : pose_.things) {
      if (thing.in_hand && thing.view.supply == held->supply) return &thing;
    }
    return nullptr;
  }

  /// The middle of the palm: behind what is held, so that all of it stays seen.
  Point palm_of(const Arm& arm, const RoomPose::Thing* held) const {
    return held ? polar(arm.hand, -held->side * 0.52, arm.facing) : arm.hand;
  }

  void draw_arm(std::size_t index, std::size_t side) {
    const Arm arm = arm_of(index, side);
    const Point wrist = polar(palm_of(arm, held_in(index, side)), -arm_width() * 0.7, arm.facing);
    const Point shoulder = figure_now(index).shoulders[side];
    std::vector<Point> line{shoulder};
    const auto bent = curve(shoulder, arm.elbow, arm.elbow, wrist);
    line.insert(line.end(), bent.begin(), bent.end());
    canvas_.polyline(line, {p_.ink, arm_width() + theme_.px(3)});
    canvas_.polyline(line, {cloth_of(room_.people[index].role), arm_width()});
  }

  Colour glove_of(std::size_t index) const {
    const Colour clean = Colour::hex(0xF4F8F9);
    return room_.people[index].gloves_soiled ? blend(p_.caution.with_alpha(90), clean) : clean;
  }

  void draw_finger(Point root, double length, double direction, Colour glove) {
    const std::array<Point, 2> finger{root, polar(root, length, direction)};
    canvas_.polyline(finger, {p_.ink, arm_width() * 0.36 + theme_.px(2)});
    canvas_.polyline(finger, {glove, arm_width() * 0.36});
  }

  /// Fingers and palm lie under what is held, the thumb over its edge.
  void draw_glove(std::size_t index, std::size_t side) {
    const Arm arm = arm_of(index, side);
    const RoomPose::Thing* held = held_in(index, side);
    const Point palm = palm_of(arm, held);
    const double u = arm_width();
    const double length = held ? u * 0.5 + held->side * 0.5 : u * 1.05;
    const Colour glove = glove_of(index);
    for (const double aside : {-0.45, -0.15, 0.15, 0.45}) {
      const Point root = polar(palm, u * aside * 1.3, arm.facing + 90);
      draw_finger(root, length * (1.05 - std::abs(aside) * 0.3), arm.facing + aside * 34, glove);
    }
    std::vector<Point> oval;
    const Point ahead = polar({}, 1, arm.facing), aside = polar({}, 1, arm.facing + 90);
    for (const Point& p : circle_outline({}, 100))
      oval.push_back(palm + aside * (p.x / 100 * u * 0.72) + ahead * (p.y / 100 * u * 0.62));
    canvas_.polygon(oval, {glove, {p_.ink, theme_.px(1.25)}});
    if (!held) draw_thumb_at(palm, u, side, arm.facing, glove);
  }

  void draw_thumb(std::size_t index, std::size_t side) {
    const RoomPose::Thing* held = held_in(index, side);
    if (!held) return;
    const Arm arm = arm_of(index, side);
    draw_thumb_at(palm_of(arm, held), arm_width(), side, arm.facing, glove_of(index));
  }

  void draw_thumb_at(Point palm, double u, std::size_t side, double facing, Colour glove) {
    const double inwards = side == 0 ? 1 : -1;
    draw_finger(polar(palm, u * 0.5, facing + 90 * inwards), u * 0.75, facing + 38 * inwards,
                glove);
  }

  void draw_things(bool in_hand) {
    for (const RoomPose::Thing& thing : pose_.things) {
      if (thing.in_hand != in_hand) continue;
      const double half = thing.side / 2;
      draw_supply(canvas_, thing.view,
                  {thing.centre.x - half, thing.centre.y - half, thing.side, thing.side}, theme_);
    }
  }

  void draw_name(std::size_t index) {
    const Box& box = at_.figures[index].label;
    canvas_.rectangle(box, {p_.card.with_alpha(235), {p_.edge, theme_.px(1)}}, box.height / 2);
    canvas_.text(box.centre(), room_.people[index].name,
                 {label_size(), p_.ink, Weight::bold, Align::centre, Level::middle});
  }

  Paint ground_of(PlaceKind kind) const {
    const Stroke edge{p_.edge_strong, theme_.px(1.25)};
    switch (kind) {
      case PlaceKind::soiled:
      case PlaceKind::waste:
        return {p_.caution_soft, edge};
      case PlaceKind::sharps:
        return {okabe_ito::yellow, edge};
      case PlaceKind::store:
        return {p_.page, edge};
      default:
        return {p_.card, edge};
    }
  }

  static std::string_view icon_of(PlaceKind kind) {
    switch (kind) {
      case PlaceKind::waste:
        return "waste-bin";
      case PlaceKind::sharps:
        return "sharps-box";
      default:
        return "tray";
    }
  }

  void draw_plate(std::size_t index) {
    const RoomLayout::Plate& plate = at_.plates[index];
    canvas_.rectangle(plate.box, ground_of(room_.places[index].kind), theme_.px(8));
    for (std::size_t i = 0; i < plate.tiles.size(); ++i) {
      if (!room_.places[index].slots[i]) draw_empty(plate.tiles[i]);
    }
  }

  void draw_place_name(std::size_t index) {
    const PlaceView& place = room_.places[index];
    const RoomLayout::Plate& plate = at_.plates[index];
    const Colour ground = ground_of(place.kind).fill;
    const Group group(canvas_, {place.name, {}, "list"});
    draw_lines(plate.label, plate.name, ground);
    if (plate.reach.width > 0) {
      draw_line({plate.reach.right(), plate.reach.centre().y}, numeral(place.motion), ground,
                {label_size(), p_.ink, Weight::bold, Align::right, Level::middle});
    }
  }

  void draw_bin(std::size_t index) {
    const PlaceView& place = room_.places[index];
    const RoomLayout::Plate& plate = at_.plates[index];
    if (!place.slots.empty()) return;
    const Box under{plate.box.x, plate.label.bottom(), plate.box.width,
                    plate.box.bottom() - plate.label.bottom()};
    canvas_.icon(icon_of(place.kind), under.inset(theme_.px(4)),
                 {p_.card, {p_.ink_soft, theme_.px(1.25)}});
  }

  void draw_empty(const Box& tile) {
    canvas_.rectangle(tile.inset(tile.width * 0.3), {p_.page, {p_.edge, theme_.px(1)}},
                      theme_.px(3));
  }

  Canvas& canvas_;
  const RoomView& room_;
  const Theme& theme_;
  const Palette& p_;
  const RoomLayout& at_;
  const RoomPose& pose_;
};

}  // namespace

const std::string& zone_word(const RoomWords& words, Zone zone) {
  switch (zone) {
    case Zone::operator_zone:
      return words.operator_zone;
    case Zone::assistant_zone:
      return words.assistant_zone;
    case Zone::transfer_zone:
      return words.transfer_zone;
    case Zone::static_zone:
      break;
  }
  return words.static_zone;
}

void draw_room(Canvas& canvas, const RoomView& room, const Theme& theme, const RoomLayout& layout,
               const RoomPose& pose) {
  RoomPainter(canvas, room, theme, layout, pose).draw();
}

}  // namespace beforehand::picture
