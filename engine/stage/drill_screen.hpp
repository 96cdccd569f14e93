// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <chrono>

#include "stage/drill_panels.hpp"
#include "stage/input.hpp"
#include "stage/pen.hpp"
#include "stage/sitting.hpp"

namespace beforehand::stage {

/// The drill as it is played: what keys and presses do to the sitting, and how it is shown.
class DrillScreen {
 public:
  enum class Outcome { stay, debrief };

  /// The sitting must outlive the screen.
  explicit DrillScreen(Sitting& sitting) : sitting_(sitting) {}

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
  Outcome on_press(Point at);
  Outcome leave();
  bool stopped() const { return (asking_ || helping_) && sitting_.may_pause(); }
  void draw_bar(Pen&, const Box&);
  void draw_question(Pen&, const Box&);
  void draw_help(Pen&, const Box&);

  Sitting& sitting_;
  Typing typing_;
  RoomPanel room_;
  bool asking_ = false, helping_ = false;
  Hits hits_;
};

}  // namespace beforehand::stage
