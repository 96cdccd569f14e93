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

struct HandView {
  enum class Goal { rest, mouth, transfer, place } goal = Goal::rest;
  std::size_t place = 0;  ///< position in RoomView::places, for Goal::place
  double reach = 1;       ///< 0 at rest, 1 at the goal
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
  RoomWords words;
};

/// Where everything of the room lies in a box. It depends on names, slots and seats only, not on
/// what lies or happens there, so it can be kept for a whole drill.
struct RoomLayout {
  struct Plate {
    Box box;  ///< ground of a place
    Box label;
    std::vector<Box> tiles;  ///< by slot
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

/// Where a hand is now: side 0 the own left, 1 the own right.
Point hand_point(const RoomView& room, const RoomLayout& layout, std::size_t person,
                 std::size_t side);

/// The layout must have been made for this room.
void draw_room(Canvas& canvas, const RoomView& room, const Theme& theme, const RoomLayout& layout);

/// The supply held or lying under a point.
std::optional<SupplyIx> supply_at(const RoomView& room, const RoomLayout& layout, Point point);

const std::string& zone_word(const RoomWords& words, procedure::Zone zone);

}  // namespace beforehand::picture
