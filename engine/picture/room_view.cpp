// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "picture/room_view.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "picture/text.hpp"

namespace beforehand::picture {
namespace {

using procedure::PlaceKind;
using procedure::Role;
using procedure::Zone;

class RoomPainter {
 public:
  RoomPainter(Canvas& canvas, const RoomView& room, const Theme& theme, const RoomLayout& layout)
      : canvas_(canvas), room_(room), theme_(theme), p_(theme.palette), at_(layout) {}

  void draw() {
    const Group group(canvas_, {room_.title, {}, "group"});
    draw_face();
    draw_patient();
    for (std::size_t i = 0; i < room_.people.size(); ++i) draw_body(i);
    for (std::size_t i = 0; i < room_.people.size(); ++i) draw_arms(i);
    for (std::size_t i = 0; i < room_.places.size(); ++i) draw_plate(i);
    for (std::size_t i = 0; i < room_.people.size(); ++i) draw_hands(i);
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
    for (const RoomLayout::ZoneLabel& label : at_.zones) draw_zone_label(label);
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
    for (const double share : {0.46, 0.66, 0.86}) {
      canvas_.arc(at_.mouth, r(share), 0, 360, {p_.edge, theme_.px(1), theme_.px(3), theme_.px(5)});
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

  void draw_zone_label(const RoomLayout::ZoneLabel& label) {
    const double line = label.box.height / static_cast<double>(label.lines.size());
    for (std::size_t i = 0; i < label.lines.size(); ++i) {
      const double y = label.box.y + line * (static_cast<double>(i) + 0.5);
      canvas_.text({label.box.centre().x, y}, label.lines[i],
                   {label_size(), p_.ink_soft, Weight::regular, Align::centre, Level::middle});
    }
  }

  /// Chair and patient under a drape, feet at 6 o'clock: a covering and a cap, nobody's likeness.
  void draw_patient() {
    const Group group(canvas_, {room_.words.patient, {}, "img"});
    const Stroke edge{p_.edge_strong, theme_.px(1.5)};
    const double foot = 0.925;
    canvas_.rectangle({at_.mouth.x - r(0.2), at_.mouth.y - r(0.24), r(0.4), r(foot + 0.2)},
                      {blend(p_.standby.with_alpha(160), p_.card), edge}, r(0.1));
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
    const RoomLayout::Figure& figure = at_.figures[index];
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

  double arm_width() const { return std::max(theme_.px(6), r(0.06)); }

  void draw_arms(std::size_t index) {
    for (std::size_t side = 0; side < 2; ++side) draw_arm(index, side);
  }

  void draw_arm(std::size_t index, std::size_t side) {
    const RoomLayout::Figure& figure = at_.figures[index];
    const Point shoulder = figure.shoulders[side];
    const Point hand = hand_point(room_, at_, index, side);
    const Point elbow =
        (shoulder + hand) * 0.5 + polar({}, r(0.09), figure.facing + (side == 0 ? -90 : 90));
    std::vector<Point> arm{shoulder};
    const auto bent = curve(shoulder, elbow, elbow, hand);
    arm.insert(arm.end(), bent.begin(), bent.end());
    canvas_.polyline(arm, {p_.ink, arm_width() + theme_.px(3)});
    canvas_.polyline(arm, {cloth_of(room_.people[index].role), arm_width()});
  }

  /// Hands lie over everything: what they hold is what counts.
  void draw_hands(std::size_t index) {
    const PersonView& person = room_.people[index];
    const Colour glove = person.gloves_soiled ? blend(p_.caution.with_alpha(70), p_.card) : p_.card;
    for (std::size_t side = 0; side < 2; ++side) {
      const Point hand = hand_point(room_, at_, index, side);
      const auto& held = person.hands[side].holds;
      canvas_.circle(hand, held ? at_.held * 0.66 : arm_width() * 0.72,
                     {glove, {p_.ink, theme_.px(1.75)}});
      if (held) draw_supply(canvas_, *held, around(hand, at_.held / 2), theme_);
    }
  }

  static Box around(Point centre, double half) {
    return {centre.x - half, centre.y - half, 2 * half, 2 * half};
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
    const PlaceView& place = room_.places[index];
    const RoomLayout::Plate& plate = at_.plates[index];
    const Group group(canvas_, {place.name, {}, "list"});
    canvas_.rectangle(plate.box, ground_of(place.kind), theme_.px(8));
    const std::string name = shorten(canvas_, place.name, plate.label.width, label_size());
    canvas_.text(plate.label.centre(), name,
                 {label_size(), p_.ink_soft, Weight::regular, Align::centre, Level::middle});
    if (place.slots.empty()) {
      const Box under{plate.box.x, plate.label.bottom(), plate.box.width,
                      plate.box.bottom() - plate.label.bottom()};
      canvas_.icon(icon_of(place.kind), under.inset(theme_.px(4)),
                   {p_.card, {p_.ink_soft, theme_.px(1.25)}});
    }
    for (std::size_t i = 0; i < plate.tiles.size(); ++i) {
      if (place.slots[i])
        draw_supply(canvas_, *place.slots[i], plate.tiles[i], theme_);
      else
        draw_empty(plate.tiles[i]);
    }
  }

  void draw_empty(const Box& tile) {
    canvas_.rectangle(tile.inset(tile.width * 0.3), {p_.page, {}}, theme_.px(3));
  }

  Canvas& canvas_;
  const RoomView& room_;
  const Theme& theme_;
  const Palette& p_;
  const RoomLayout& at_;
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

void draw_room(Canvas& canvas, const RoomView& room, const Theme& theme, const RoomLayout& layout) {
  RoomPainter(canvas, room, theme, layout).draw();
}

}  // namespace beforehand::picture
