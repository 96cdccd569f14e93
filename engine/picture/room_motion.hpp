// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <array>
#include <map>
#include <vector>

#include "base/time.hpp"
#include "picture/room_view.hpp"

namespace beforehand::picture {

/// Lets what changes its place at once be seen on its way there: for the eye only, the drill knows
/// nothing of it. Give it every pose that is shown, and show what it gives back.
class RoomMotion {
 public:
  /// How long a hand or a thing is seen on its way.
  static constexpr Ms way{350};

  /// `now` is the drill's time. After a leap in time, or one backwards, everything is where it is.
  RoomPose follow(RoomPose pose, Ms now);

  /// The next pose is shown as it is.
  void forget() { hands_.clear(); }

 private:
  /// A point that never jumps: the way it still has to go is given up smoothly.
  class Follower {
   public:
    Follower(Point at, Ms now) : target_(at), since_(now - way) {}
    Point follow(Point target, double radius, Ms now, Ms last);

   private:
    Point target_, offset_;
    Ms since_;
  };

  std::vector<std::array<Follower, 2>> hands_;
  std::map<std::size_t, Follower> things_;
  Ms last_{0};
};

}  // namespace beforehand::picture
