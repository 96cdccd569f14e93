// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "picture/supply_tile.hpp"
#include "picture/zones.hpp"

// The operatory from above: the trade's clock diagram with everything where it is.

namespace beforehand::picture {

struct PlaceView {
  std::string name;
  double hour = 3;  ///< for a right-handed operator
  procedure::Zone zone = procedure::Zone::assistant_zone;
  procedure::Motion motion = procedure::Motion::ii;
  procedure::PlaceKind kind = procedure::PlaceKind::tray;
  /// A slot for everything that can ever lie here, in order of use, so that nothing moves up when
  /// something is taken. No slots: a bin, drawn as what it is.
  std::vector<std::optional<SupplyView>> slots;
};

/// Where a hand can be: at rest before its owner, at the patient's mouth, where things change
/// hands, or at a place, there at a slot.
struct Spot {
  enum class Kind { rest, mouth, transfer, place } kind = Kind::rest;
  std::size_t place = 0, slot = 0;  ///< positions in RoomView::places and its slots
  bool operator==(const Spot&) const = default;
};

struct HandView {
  Spot from, to;
  double reach = 1;  ///< 0 at `from`, 1 at `to`
  std::optional<SupplyView> holds;
};

struct PersonView {
  std::string name;
  procedure::Role role = procedure::Role::assistant;
  double hour = 3;                ///< of the seat, for a right-handed operator
  std::array<HandView, 2> hands;  ///< the own left, the own right
  bool gloves_soiled = false;
  bool trainee = false;
};

struct RoomWords {
  std::string operator_zone = "Operator zone", assistant_zone = "Assistant zone",
              transfer_zone = "Transfer zone", static_zone = "Static zone", patient = "Patient",
              reach = "Reach";
};

struct RoomView {
  std::string title = "The room from above";
  Handedness hand = Handedness::right;
  std::vector<PlaceView> places;
  std::vector<PersonView> people;
  bool reach_rings = true;
  bool patient = true;  ///< somebody lies in the chair
  RoomWords words;
};

/// Where everything of the room lies in a box. It depends on names, slots and seats only, not on
/// what lies or happens there, so it can be kept for a whole drill.
struct RoomLayout {
  struct Plate {
    Box box;  ///< ground of a place
    Box label;
    std::vector<std::string> name;  ///< its lines, in the label from the top
    Box reach;                      ///< for the motion class
    std::vector<Box> tiles;         ///< by slot
  };
  struct Figure {
    Point head;
    double facing = 0;               ///< degrees, towards the mouth
    std::array<Point, 2> shoulders;  ///< left, right
    Box label;
  };
  struct ZoneLabel {
    procedure::Zone zone;
    Box box;
    std::vector<std::string> lines;
  };
  Point mouth;
  double radius = 0;            ///< of the clock face
  double tile = 0;              ///< side of a slot
  double held = 0;              ///< side of the tile of what a hand holds
  std::vector<Plate> plates;    ///< by place
  std::vector<Figure> figures;  ///< by person
  std::vector<ZoneLabel> zones;
};

/// The scale at which a room still finds its place in a box of this size: `wanted`, or less in
/// steps of a quarter, and never less than 1.
double room_scale(double wanted, double width, double height);

RoomLayout lay_out(const Canvas& canvas, const RoomView& room, const Theme& theme, const Box& box);

/// Where the hands and the things are at one moment.
struct RoomPose {
  struct Thing {
    SupplyView view;
    Point centre;
    double side = 0;  ///< of its tile
    bool in_hand = false;
  };
  double radius = 0;                        ///< of the clock face
  std::vector<std::array<Point, 2>> hands;  ///< by person; the own left, the own right
  std::vector<Thing> things;                ///< those in hands last
};

/// The layout must have been made for this room.
RoomPose pose_of(const RoomView& room, const RoomLayout& layout);

/// The layout and the pose must have been made for this room.
void draw_room(Canvas& canvas, const RoomView& room, const Theme& theme, const RoomLayout& layout,
               const RoomPose& pose);
inline void draw_room(Canvas& canvas, const RoomView& room, const Theme& theme,
                      const RoomLayout& layout) {
  draw_room(canvas, room, theme, layout, pose_of(room, layout));
}

/// The supply held or lying under a point.
std::optional<SupplyIx> supply_at(const RoomPose& pose, Point point);

/// The radius, as a share of the clock face's, at which what takes this motion to reach belongs.
double reach_radius(procedure::Motion motion);

/// The motion class as it is written: "III".
std::string_view numeral(procedure::Motion motion);

const std::string& zone_word(const RoomWords& words, procedure::Zone zone);

}  // namespace beforehand::picture
