// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <array>
#include <string>
#include <vector>

#include "drill/world.hpp"
#include "picture/field_view.hpp"
#include "picture/room_view.hpp"

namespace beforehand::picture {

/// What is not in the procedure or the world, but of the one who looks.
struct RoomChoice {
  Handedness hand = Handedness::right;
  PersonIx trainee;
  std::vector<SupplyIx> open_windows;  ///< guided: something useful can be started with these now
  SupplyIx chosen;                     ///< under the pointer or the keyboard's focus
  bool still = false;  ///< hands are where they are going to be, without the way there
  std::string on_patient = "On the patient";
};

/// The room at the world's moment. Its places and slots depend on the procedure alone: places as in
/// the procedure, and one more for what is on the patient when the procedure has none.
RoomView room_of(const procedure::Procedure& procedure, const drill::World& world,
                 const RoomChoice& choice = {});

/// Words for what can be seen, by procedure::Field, Surface and Posture, and for what is being
/// done.
struct FieldWords {
  std::array<std::string, procedure::field_count> seen{
      "isolated", "wet",    "bleeding", "dyed",  "opened",    "matrix in place", "etched",
      "primed",   "coated", "filled",   "cured", "contoured", "eyes shielded"};
  std::array<std::string, surface_count> surfaces{
      "used barriers on", "bare", "cleaned", "wet, to be left so", "dry", "fresh barriers on"};
  std::array<std::string, 3> postures{"leaning back", "flat, legs raised", "half upright"};
  std::string suction = "suction", rinsing = "water on", drying = "air on", light = "light on";
  std::string tooth_out = "tooth out", stitched = "stitched", corded = "cord in place";
  std::string on_clock = "clock ";  ///< the time follows
};

/// What can be seen where the work is at the world's moment. What it is of follows from what the
/// procedure's steps leave to be seen and from its supplies' icons.
FieldView field_of(const procedure::Procedure& procedure, const drill::World& world,
                   const FieldWords& words = {});

}  // namespace beforehand::picture
