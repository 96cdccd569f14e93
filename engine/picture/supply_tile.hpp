// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <bitset>
#include <string>

#include "picture/canvas.hpp"
#include "picture/palette.hpp"
#include "procedure/procedure.hpp"

namespace beforehand::picture {

/// A supply as it is seen.
struct SupplyView {
  SupplyIx supply;
  std::string name;
  std::string icon;
  procedure::SupplyState state = procedure::SupplyState::set_out;
  std::bitset<procedure::hazard_count> hazards;
  bool sealed = false;       ///< still to be opened, mixed or loaded before it is of use
  Ms left = never;           ///< working time left; never: it does not set
  double left_share = 1;     ///< of the whole working time
  bool open_window = false;  ///< guided: something useful can be started with it now
  bool chosen = false;       ///< under the pointer or the keyboard's focus
};

/// The supply on a square tile. The tile's ground, outline and corner sign tell the state, the ring
/// around it the working time that is left.
void draw_supply(Canvas& canvas, const SupplyView& supply, const Box& tile, const Theme& theme);

/// The icon for a supply: the one named, else one whose name the supply's own contains, else the
/// name itself, which the canvas draws as letters.
std::string icon_for(std::string_view icon, std::string_view id, std::string_view name);

}  // namespace beforehand::picture
