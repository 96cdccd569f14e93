// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include <algorithm>
#include <cmath>

#include "picture/room_motion.hpp"
#include "picture/room_view.hpp"

namespace beforehand::picture {
namespace {

// Shares of the clock face's radius.
constexpr double rest_radius = 0.40;
constexpr double mouth_radius = 0.25;

/// Where things change hands: before the patient's chin, in the transfer zone.
constexpr double hand_over_hour = 5.2;
constexpr double hand_over_radius = 0.46;

Point between(Point a, Point b, double share) { return a + (b - a) * share; }

class Poser {
 public:
  Poser(const RoomView& room, const RoomLayout& layout) : room_(room), at_(layout) {}

  RoomPose pose() {
    out_.radius = at_.radius;
    for (std::size_t i = 0; i < room_.places.size(); ++i) lie(i);
    for (std::size_t i = 0; i < room_.people.size(); ++i) hold(i);
    return std::move(out_);
  }

 private:
  void lie(std::size_t place) {
    const auto& tiles = at_.plates[place].tiles;
    for (std::size_t i = 0; i < tiles.size(); ++i) {
      const auto& slot = room_.places[place].slots[i];
      if (slot) out_.things.push_back({*slot, tiles[i].centre(), tiles[i].width, false});
    }
  }

  void hold(std::size_t person) {
    std::array<Point, 2> hands;
    for (std::size_t side = 0; side < 2; ++side) {
      const HandView& hand = room_.people[person].hands[side];
      hands[side] = between(point_of(person, side, hand.from), point_of(person, side, hand.to),
                            std::clamp(hand.reach, 0.0, 1.0));
      if (hand.holds) out_.things.push_back({*hand.holds, hands[side], at_.held, true});
    }
    out_.hands.push_back(hands);
  }

  Point point_of(std::size_t person, std::size_t side, const Spot& spot) const {
    const PersonView& who = room_.people[person];
    const bool carries = who.hands[side].holds.has_value();
    const double seat = degrees(hour_for(who.hour, room_.hand));
    const double spread = side == 0 ? 38 : -38;
    switch (spot.kind) {
      case Spot::Kind::mouth: {
        const double clear = std::min(std::max(at_.radius * mouth_radius, at_.held * 1.55),
                                      at_.radius * (rest_radius - 0.04));
        return polar(at_.mouth, clear, seat + spread);
      }
      case Spot::Kind::transfer: {
        const Point middle = polar(at_.mouth, at_.radius * hand_over_radius,
                                   degrees(hour_for(hand_over_hour, room_.hand)));
        return carries ? middle : beside(middle, at_.held, person, side);
      }
      case Spot::Kind::place:
        if (spot.place < at_.plates.size()) return at_place(spot, person, side, carries);
        break;
      case Spot::Kind::rest:
        break;
    }
    return polar(at_.mouth, at_.radius * rest_radius, seat + spread);
  }

  Point at_place(const Spot& spot, std::size_t person, std::size_t side, bool carries) const {
    const RoomLayout::Plate& plate = at_.plates[spot.place];
    if (spot.slot >= plate.tiles.size()) return plate.box.centre();
    const Box& tile = plate.tiles[spot.slot];
    return carries ? tile.centre() : beside(tile.centre(), tile.width, person, side);
  }

  /// At the edge of a thing, so that it stays seen: the left hand to its left, seen from its owner.
  Point beside(Point middle, double size, std::size_t person, std::size_t side) const {
    const double across = at_.figures[person].facing + (side == 0 ? -125 : 125);
    return polar(middle, size * 0.62, across);
  }

  const RoomView& room_;
  const RoomLayout& at_;
  RoomPose out_;
};

}  // namespace

RoomPose pose_of(const RoomView& room, const RoomLayout& layout) {
  return Poser(room, layout).pose();
}

std::optional<SupplyIx> supply_at(const RoomPose& pose, Point point) {
  for (auto thing = pose.things.rbegin(); thing != pose.things.rend(); ++thing) {
    const Point away = point - thing->centre;
    if (std::max(std::abs(away.x), std::abs(away.y)) <= thing->side / 2) return thing->view.supply;
  }
  return std::nullopt;
}

// ---- motion ------------------------------------------------------------------------------------

namespace {

/// What is nearer than this, in units, needs no way.
constexpr double near_enough = 3;

/// What is no faster than this share of the clock face's radius a second needs no smoothing.
constexpr double walking_speed = 6;

/// Time between two looks after which there is no telling what happened between them.
constexpr Ms blind_gap{400};

double easing(Ms since) {
  const double t = std::clamp(to_seconds(since) / to_seconds(RoomMotion::way), 0.0, 1.0);
  return 1 - t * t * (3 - 2 * t);
}

}  // namespace

Point RoomMotion::Follower::follow(Point target, double radius, Ms now, Ms last) {
  const double speed_limit = near_enough + walking_speed * radius * to_seconds(now - last);
  const Point shown_before = target_ + offset_ * easing(last - since_);
  const Point jump = target - target_;
  if (std::hypot(jump.x, jump.y) > speed_limit) {
    offset_ = shown_before - target;
    since_ = last;
  }
  target_ = target;
  return target_ + offset_ * easing(now - since_);
}

RoomPose RoomMotion::follow(RoomPose pose, Ms now) {
  const bool afresh = now < last_ || now - last_ > blind_gap || hands_.size() != pose.hands.size();
  if (afresh) {
    hands_.clear();
    things_.clear();
    for (const auto& hands : pose.hands)
      hands_.push_back({Follower(hands[0], now), Follower(hands[1], now)});
  }
  for (std::size_t i = 0; i < pose.hands.size(); ++i) {
    for (std::size_t side = 0; side < 2; ++side)
      pose.hands[i][side] = hands_[i][side].follow(pose.hands[i][side], pose.radius, now, last_);
  }
  for (RoomPose::Thing& thing : pose.things) {
    const auto known = things_.try_emplace(thing.view.supply.at(), thing.centre, now).first;
    thing.centre = known->second.follow(thing.centre, pose.radius, now, last_);
  }
  last_ = now;
  return pose;
}

}  // namespace beforehand::picture
