// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <iterator>
#include <set>

#include "drawing.hpp"
#include "picture/field_view.hpp"
#include "picture/room_motion.hpp"
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
  const RoomPose pose = pose_of(room_, layout_);
  const auto found = supply_at(pose, layout_.plates[0].tiles[7].centre());
  ASSERT_TRUE(found);
  EXPECT_EQ(*found, SupplyIx{7});
  EXPECT_FALSE(supply_at(pose, layout_.mouth));
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
  room.people[1].hands[0] = {{}, {Spot::Kind::transfer, 0, 0}, 0.5, supply(3, "bottle")};
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
      const Box& box = layout.plates[i].box;
      const Point c = box.centre();
      const Point seen[] = {c, {box.x, c.y}, {box.right(), c.y}, {c.x, box.y}, {c.x, box.bottom()}};
      EXPECT_TRUE(std::any_of(std::begin(seen), std::end(seen), [&](Point p) {
        const double hour =
            std::atan2(p.x - layout.mouth.x, layout.mouth.y - p.y) * 6 / 3.14159265358979;
        return zone_at(hour, hand) == room.places[i].zone;
      })) << room.places[i].name;
    }
  }
}

class Hands : public testing::Test {
 protected:
  RoomPose pose() const { return pose_of(room_, layout_); }
  Point hand() const { return pose().hands[1][0]; }
  HandView& view() { return room_.people[1].hands[0]; }

  RoomView room_ = invented(Handedness::right);
  SvgCanvas canvas_{800, 460, "t"};
  RoomLayout layout_ = lay_out(canvas_, room_, {}, {0, 0, 800, 460});
};

TEST_F(Hands, CarryAThingFromItsSlotToTheTransferZone) {
  room_.places[0].slots[4].reset();
  view() = {{Spot::Kind::place, 0, 4}, {Spot::Kind::transfer, 0, 0}, 0, supply(4, "gauze")};
  const Point slot = layout_.plates[0].tiles[4].centre();
  EXPECT_EQ(hand(), slot);
  view().reach = 1;
  const Point transfer = hand();
  view().reach = 0.5;
  EXPECT_NEAR(hand().x, (slot.x + transfer.x) / 2, 1e-9);
  EXPECT_NEAR(hand().y, (slot.y + transfer.y) / 2, 1e-9);
  const auto carried = pose().things.back();
  EXPECT_TRUE(carried.in_hand);
  EXPECT_EQ(carried.centre, hand());
}

TEST_F(Hands, ThatTouchAThingLeaveItSeen) {
  const Box& tile = layout_.plates[0].tiles[4];
  for (const std::size_t side : {0u, 1u}) {
    room_.people[1].hands[side].to = {Spot::Kind::place, 0, 4};
    EXPECT_FALSE(tile.contains(pose().hands[1][side]));
  }
  EXPECT_NE(pose().hands[1][0], pose().hands[1][1]);
}

// Whatever passes a place, its name can be read.
TEST_F(Hands, PassUnderTheNamesOfPlaces) {
  view().to = {Spot::Kind::place, 1, 0};
  SvgCanvas canvas(800, 460, "t");
  draw_room(canvas, room_, {}, layout_);
  const std::string svg = canvas.str();
  const auto last_finger = svg.rfind("<polyline");
  ASSERT_NE(last_finger, std::string::npos);
  for (const RoomLayout::Plate& plate : layout_.plates) {
    const auto name = svg.rfind(">" + plate.name.front() + "<");
    ASSERT_NE(name, std::string::npos) << plate.name.front();
    EXPECT_GT(name, last_finger) << plate.name.front();
  }
}

TEST_F(Hands, NeverJump) {
  RoomMotion motion;
  Point last = motion.follow(pose(), Ms{0}).hands[1][0];
  const Point rest = last;
  view().to = {Spot::Kind::place, 0, 4};
  for (Ms now{0}; now <= RoomMotion::way + Ms{32}; now += Ms{16}) {
    const Point shown = motion.follow(pose(), now).hands[1][0];
    EXPECT_LT(std::hypot(shown.x - last.x, shown.y - last.y), layout_.radius * 0.15);
    last = shown;
  }
  EXPECT_NEAR(last.x, hand().x, 1e-6);
  EXPECT_GT(std::hypot(last.x - rest.x, last.y - rest.y), 20);
}

TEST_F(Hands, AThingGoesFromHandToHandWhereTheyMeet) {
  room_.places[0].slots[4].reset();
  const auto thing = supply(99, "gauze");
  const Spot transfer{Spot::Kind::transfer, 0, 0};
  view() = {transfer, transfer, 1, thing};
  RoomMotion motion;
  const Point given = motion.follow(pose(), Ms{0}).things.back().centre;
  view() = {};
  room_.people[0].hands[1] = {transfer, {Spot::Kind::mouth, 0, 0}, 0, thing};
  const RoomPose taken = motion.follow(pose(), Ms{16});
  EXPECT_NEAR(taken.things.back().centre.x, given.x, 1);
  EXPECT_NEAR(taken.things.back().centre.y, given.y, 1);
  const RoomPose met = motion.follow(pose(), Ms{380});
  EXPECT_NEAR(met.hands[0][1].x, given.x, 1);
}

TEST_F(Hands, AfterALeapInTimeEverythingIsWhereItIs) {
  RoomMotion motion;
  motion.follow(pose(), Ms{0});
  view().to = {Spot::Kind::place, 0, 4};
  EXPECT_EQ(motion.follow(pose(), Ms{5000}).hands[1][0], hand());
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

TEST(SupplyTile, ShowsWhatIsStillSealed) {
  SupplyView view = supply(0, "capsule");
  const std::string open = drawn(view);
  view.sealed = true;
  EXPECT_NE(drawn(view), open);
  EXPECT_NE(drawn(view).find("sealed"), std::string::npos);
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

TEST(FieldView, EverySubjectAndStateLooksDifferent) {
  std::set<std::string> seen;
  std::size_t looks = 0;
  const auto look = [&](auto change) {
    FieldView field;
    change(field);
    seen.insert(drawn(field));
    EXPECT_EQ(seen.size(), ++looks);
  };
  look([](FieldView&) {});
  look([](FieldView& f) { f.tooth_out = true; });
  look([](FieldView& f) { f.tooth_out = f.stitched = true; });
  look([](FieldView& f) { f.corded = true; });
  look([](FieldView& f) { f.tools = {{"forceps", "Forceps"}}; });
  look([](FieldView& f) { f.seen.set(static_cast<std::size_t>(Field::isolated)); });
  look([](FieldView& f) {
    f.seen.set(static_cast<std::size_t>(Field::isolated));
    f.dam = false;
  });
  look([](FieldView& f) {
    f.subject = Subject::crown;
    f.seen.set(static_cast<std::size_t>(Field::opened));
  });
  for (const Posture posture : {Posture::reclined, Posture::flat, Posture::half_upright}) {
    look([&](FieldView& f) {
      f.subject = Subject::patient;
      f.posture = posture;
    });
  }
  look([](FieldView& f) {
    f.subject = Subject::patient;
    f.left = {{"oxygen-mask", "Oxygen"}};
  });
  look([](FieldView& f) {
    f.subject = Subject::patient;
    f.on_clock = Ms{61'000};
  });
  for (std::size_t i = 0; i < surface_count; ++i) {
    look([&](FieldView& f) {
      f.subject = Subject::surfaces;
      f.surface = static_cast<Surface>(i);
    });
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
