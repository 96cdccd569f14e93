// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// The parts of the drill screen, each drawn from the sitting alone.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "picture/room_motion.hpp"
#include "picture/room_view.hpp"
#include "stage/action_cards.hpp"
#include "stage/pen.hpp"
#include "stage/sitting.hpp"

namespace beforehand::stage {

/// What a press on the drill screen means; an action's card is card + its index.
enum DrillPress : int {
  press_pause,
  press_slower,
  press_quicker,
  press_leave,
  press_help,
  press_break_off,
  press_skip,
  press_stay,
  press_lesson,
  press_view,  // room, field, chart
  press_card = 100
};

/// What there is to see at one moment, of a drill under way or of one that is played again.
struct Scene {
  const procedure::Procedure& procedure;
  const drill::World& world;
  PersonIx trainee;
  std::span<const Caption> captions;   ///< up to this moment, the latest last
  std::vector<SupplyIx> open_windows;  ///< something useful can be begun with these now
  bool lapsing = false;
};

/// The drill as it stands. Refers to the sitting.
Scene scene_of(const Sitting&);

/// What the clinician does and says.
/// The height in which the clinician's panel can say all it has to say now.
double clinician_height(const Pen&, double width, const Scene&);
void draw_clinician(Pen&, const Box&, const Scene&);

/// The trainee's hands, what is lined up, and breaking off.
void draw_hands(Pen&, const Box&, const Sitting&);

/// What comes next and why where the level shows it, and what was told last.
void draw_coach(Pen&, const Box&, const Sitting&);

/// Whether something was told just now.
bool is_told(const Sitting&);

/// What is seen of the cards: the one marked by keyboard or gamepad, and how far they are scrolled.
struct CardsShown {
  std::optional<std::size_t> marked;  ///< position in Sitting::cards
  bool followed = false;              ///< scrolled to the marked one already
  bool pointed = false;               ///< the mouse was moved since the last key
  Scroll scroll;
};

/// Every action in its place.
void draw_cards(Pen&, const Box&, const Sitting&, const Typing&, CardsShown&);

/// The activity chart around now.
void draw_running_chart(Pen&, const Box&, const Sitting&);

/// The field close up.
void draw_close_up(Pen&, const Box&, const Scene&);

/// The room from above. Where things lie in it is worked out once for a size, because that takes
/// longer than a frame may.
class RoomPanel {
 public:
  void draw(Pen&, const Box&, const Scene&);

 private:
  std::optional<picture::RoomLayout> layout_;
  picture::RoomMotion motion_;
  Box box_;
  double scale_ = 0;
  picture::Handedness hand_ = picture::Handedness::right;
};

}  // namespace beforehand::stage
