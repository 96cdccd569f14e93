// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include <gtest/gtest.h>

#include <cmath>

#include "drawing.hpp"
#include "picture/field_view.hpp"
#include "picture/room_view.hpp"

namespace beforehand::picture {
namespace {

using procedure::Field;
using procedure::Motion;
using procedure::PlaceKind;
using procedure::Role;
using procedure::SupplyState;

SupplyView supply(std::size_t index, const char* icon, SupplyState state = SupplyState::set_out) {
  SupplyView view;
  view.supply = SupplyIx{index};
  view.name = icon;
  view.icon = icon;
  view.state = state;
  return view;
}

PlaceView place(const char* name, double hour, Motion motion, PlaceKind kind, std::size_t slots) {
  static const char* const names[] = {"mirror", "explorer", "wedge",
                                      "bottle", "gauze",    "something else"};
  PlaceView view{name, hour, zone_at(hour, Handedness::right), motion, kind, {}};
  for (std::size_t i = 0; i < slots; ++i) view.slots.push_back(supply(i, names[i % 6]));
  return view;
}

/// An invented operatory with as much in it as a long procedure needs.
RoomView invented(Handedness hand) {
  RoomView room;
  room.hand = hand;
  room.places = {place("Tray", 3, Motion::ii, PlaceKind::tray, 10),
                 place("Counter", 1.5, Motion::iii, PlaceKind::counter, 8),
                 place("Suction and air", 4, Motion::i, PlaceKind::holder, 3),
                 place("Cabinet", 2.5, Motion::v, PlaceKind::store, 6),
                 place("On the patient", 6, Motion::i, PlaceKind::patient, 3),
                 place("Soiled tray", 4.6, Motion::iii, PlaceKind::soiled, 4),
                 place("Waste", 5, Motion::iv, PlaceKind::waste, 0),
                 place("Sharps", 2, Motion::iv, PlaceKind::sharps, 0),
                 place("Handpieces", 8, Motion::ii, PlaceKind::holder, 2)};
  room.people = {{"Clinician", Role::clinician, 11, {}, false, false},
                 {"Assistant", Role::assistant, 3, {}, true, true}};
  return room;
}

struct RoomSetting {
  double width, height, scale;
  Handedness hand;
};

class Room : public testing::TestWithParam<RoomSetting> {
 protected:
  Room() : room_(invented(GetParam().hand)) {
    theme_.scale = GetParam().scale;
    layout_ = lay_out(canvas_, room_, theme_, box_);
    draw_room(canvas_, room_, theme_, layout_);
  }

  RoomView room_;
  Theme theme_;
  Box box_{0, 0, GetParam().width, GetParam().height};
  NotingCanvas canvas_{GetParam().width, GetParam().height, "room"};
  RoomLayout layout_;
};

TEST_P(Room, NoPlaceLiesOnAnotherOrOutside) {
  for (std::size_t i = 0; i < layout_.plates.size(); ++i) {
    const Box& box = layout_.plates[i].box;
    EXPECT_PRED2(is_within, box, box_) << room_.places[i].name;
    for (std::size_t k = i + 1; k < layout_.plates.size(); ++k) {
      EXPECT_FALSE(box.overlaps(layout_.plates[k].box))
          << room_.places[i].name << " and " << room_.places[k].name;
    }
  }
}

TEST_P(Room, NoPlaceHidesAPersonOrThePatientsMouth) {
  for (const RoomLayout::Plate& plate : layout_.plates) {
    EXPECT_FALSE(plate.box.contains(layout_.mouth));
    for (const RoomLayout::Figure& figure : layout_.figures) {
      EXPECT_FALSE(plate.box.contains(figure.head));
      EXPECT_FALSE(plate.box.overlaps(figure.label));
    }
  }
}

TEST_P(Room, AllTextIsInsideAndNoneLiesOnAnother) {
  for (std::size_t i = 0; i < canvas_.texts.size(); ++i) {
    const DrawnText& t = canvas_.texts[i];
    EXPECT_PRED2(is_within, t.box, box_) << t.text;
    for (std::size_t k = i + 1; k < canvas_.texts.size(); ++k) {
      EXPECT_FALSE(t.box.overlaps(canvas_.texts[k].box))
          << t.text << " and " << canvas_.texts[k].text;
    }
  }
}

TEST_P(Room, FindsTheSupplyUnderThePointer) {
  const auto found = supply_at(room_, layout_, layout_.plates[0].tiles[7].centre());
  ASSERT_TRUE(found);
  EXPECT_EQ(*found, SupplyIx{7});
  EXPECT_FALSE(supply_at(room_, layout_, layout_.mouth));
}

INSTANTIATE_TEST_SUITE_P(Sizes, Room,
                         testing::Values(RoomSetting{800, 460, 1, Handedness::right},
                                         RoomSetting{800, 460, 1, Handedness::left},
                                         RoomSetting{1240, 760, 1, Handedness::right},
                                         RoomSetting{1240, 760, 2, Handedness::right},
                                         RoomSetting{1600, 900, 2, Handedness::left}));

TEST(RoomLayout, DoesNotDependOnWhatLiesOrHappensThere) {
  RoomView room = invented(Handedness::right);
  const SvgCanvas canvas(800, 460, "t");
  const RoomLayout before = lay_out(canvas, room, {}, {0, 0, 800, 460});
  room.places[0].slots[3].reset();
  room.places[1].slots[0]->state = SupplyState::soiled;
  room.people[1].hands[0] = {HandView::Goal::transfer, 0, 0.5, supply(3, "bottle")};
  const RoomLayout after = lay_out(canvas, room, {}, {0, 0, 800, 460});
  for (std::size_t i = 0; i < before.plates.size(); ++i) {
    EXPECT_EQ(before.plates[i].tiles, after.plates[i].tiles);
  }
}

TEST(RoomLayout, PlacesKeepToTheirZoneWhereThereIsRoom) {
  for (const Handedness hand : {Handedness::right, Handedness::left}) {
    const RoomView room = invented(hand);
    const SvgCanvas canvas(1240, 760, "t");
    const RoomLayout layout = lay_out(canvas, room, {}, {0, 0, 1240, 760});
    for (std::size_t i = 0; i < room.places.size(); ++i) {
      const Point d = layout.plates[i].box.centre() - layout.mouth;
      const double hour = std::atan2(d.x, -d.y) * 6 / 3.14159265358979;
      EXPECT_EQ(zone_at(hour, hand), room.places[i].zone) << room.places[i].name;
    }
  }
}

TEST(Hands, MoveFromRestToTheirGoal) {
  RoomView room = invented(Handedness::right);
  const SvgCanvas canvas(800, 460, "t");
  const RoomLayout layout = lay_out(canvas, room, {}, {0, 0, 800, 460});
  room.people[1].hands[0] = {HandView::Goal::place, 0, 0, {}};
  const Point rest = hand_point(room, layout, 1, 0);
  room.people[1].hands[0].reach = 1;
  const Point goal = hand_point(room, layout, 1, 0);
  EXPECT_EQ(goal, layout.plates[0].box.centre());
  room.people[1].hands[0].reach = 0.5;
  const Point half = hand_point(room, layout, 1, 0);
  EXPECT_NEAR(half.x, (rest.x + goal.x) / 2, 1e-9);
  EXPECT_NEAR(half.y, (rest.y + goal.y) / 2, 1e-9);
}

std::string drawn(const SupplyView& view) {
  SvgCanvas canvas(50, 50, "t");
  draw_supply(canvas, view, {0, 0, 50, 50}, {});
  return canvas.str();
}

TEST(SupplyTile, ShowsEveryStateDifferentlyAndNamesIt) {
  std::vector<std::string> seen;
  for (const SupplyState state :
       {SupplyState::stored, SupplyState::set_out, SupplyState::prepared, SupplyState::set,
        SupplyState::in_use, SupplyState::soiled, SupplyState::cleaned}) {
    seen.push_back(drawn(supply(0, "bottle", state)));
    EXPECT_NE(seen.back().find(procedure::word(state)), std::string::npos);
    for (std::size_t i = 0; i + 1 < seen.size(); ++i) EXPECT_NE(seen[i], seen.back());
  }
}

TEST(SupplyTile, ShowsWorkingTimeRunningOut) {
  SupplyView view = supply(0, "capsule", SupplyState::prepared);
  view.left = Ms{60'000};
  view.left_share = 0.5;
  const std::string half = drawn(view);
  view.left_share = 0.1;
  EXPECT_NE(drawn(view), half);
  view.left = never;
  EXPECT_EQ(parse(drawn(view)).select_nodes("//path").size(), 0u);
}

TEST(IconFor, PrefersTheNamedOneThenTheIdThenLetters) {
  EXPECT_EQ(icon_for("mirror", "x", "X"), "mirror");
  EXPECT_EQ(icon_for("", "second-microbrush", "X"), "microbrush");
  EXPECT_EQ(icon_for("no-such", "odd", "Odd thing"), "Odd thing");
}

std::string drawn(const FieldView& field) {
  SvgCanvas canvas(300, 200, "t");
  draw_field(canvas, field, {}, {0, 0, 300, 200});
  return canvas.str();
}

TEST(FieldView, EveryFlagCanBeSeen) {
  for (std::size_t i = 0; i < procedure::field_count; ++i) {
    FieldView field;
    field.seen.set(static_cast<std::size_t>(Field::opened));
    field.seen.set(static_cast<std::size_t>(Field::filled));
    field.filled_share = 0.5;
    const std::string without = [&] {
      FieldView f = field;
      f.seen.reset(i);
      return drawn(f);
    }();
    field.seen.set(i);
    if (static_cast<Field>(i) == Field::filled) field.filled_share = 1;
    EXPECT_NE(drawn(field), without) << procedure::word(static_cast<Field>(i));
  }
}

TEST(FieldView, WhatIsDoneAtTheToothCanBeSeen) {
  const std::string still = drawn(FieldView{});
  for (bool FieldView::*action :
       {&FieldView::suction, &FieldView::rinsing, &FieldView::drying, &FieldView::light}) {
    FieldView field;
    field.*action = true;
    EXPECT_NE(drawn(field), still);
  }
}

TEST(FieldView, WordsStandUnderThePictureAndInItsDescription) {
  FieldView field;
  field.words = {"wet", "bleeding"};
  field.tooth = "46";
  NotingCanvas canvas(300, 200, "t");
  draw_field(canvas, field, {}, {0, 0, 300, 200});
  EXPECT_STREQ(parse(canvas.str()).select_node("//g/desc").node().child_value(),
               "wet \u00b7 bleeding");
  for (const DrawnText& t : canvas.texts) EXPECT_PRED2(is_within, t.box, (Box{0, 0, 300, 200}));
}

}  // namespace
}  // namespace beforehand::picture
