// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <chrono>

#include "stage/drill_panels.hpp"
#include "stage/input.hpp"
#include "stage/key_map.hpp"
#include "stage/pen.hpp"
#include "stage/sitting.hpp"

namespace beforehand::stage {

/// The drill as it is played: what keys and presses do to the sitting, and how it is shown.
class DrillScreen {
 public:
  enum class Outcome { stay, sound, debrief };  ///< sound: to be switched on or off

  /// The sitting must outlive the screen.
  explicit DrillScreen(Sitting& sitting, const KeyMap& keys = {})
      : sitting_(sitting), keys_(keys) {}

  Outcome handle(const Input&);
  /// Lets real time pass, unless a question or the help stands before the drill.
  Outcome pass(std::chrono::microseconds real);
  void draw(Pen&, const Box&);

  bool asking() const { return asking_; }
  bool helping() const { return helping_; }
  const Typing& typing() const { return typing_; }
  const Hits& hits() const { return hits_; }

 private:
  Outcome on_key(const Input&);
  Outcome do_deed(Deed);
  Outcome on_press(Point at);
  void mark(int by);
  Outcome leave();
  bool stopped() const { return (asking_ || helping_) && sitting_.may_pause(); }
  void draw_wide(Pen&, const Box&);
  void draw_narrow(Pen&, const Box&);
  void draw_shown(Pen&, const Box&);
  void draw_bar(Pen&, const Box&);
  void draw_question(Pen&, const Box&);
  void draw_help(Pen&, const Box&);

  Sitting& sitting_;
  KeyMap keys_;
  Typing typing_;
  RoomPanel room_;
  CardsShown cards_;
  std::size_t shown_ = 0;  // in a narrow window: room, field or chart
  bool pad_lost_ = false;
  bool asking_ = false, helping_ = false;
  Hits hits_;
};

}  // namespace beforehand::stage
