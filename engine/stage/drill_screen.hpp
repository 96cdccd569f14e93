// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <chrono>

#include "stage/drill_panels.hpp"
#include "stage/input.hpp"
#include "stage/key_map.hpp"
#include "stage/lesson.hpp"
#include "stage/pen.hpp"
#include "stage/sitting.hpp"

namespace beforehand::stage {

/// The drill as it is played: what keys and presses do to the sitting, and how it is shown.
class DrillScreen {
 public:
  enum class Outcome { stay, sound, debrief };  ///< sound: to be switched on or off
  /// How long a drill that has ended is still shown.
  static constexpr std::chrono::milliseconds last_word{2000};

  /// The sitting must outlive the screen.
  explicit DrillScreen(Sitting& sitting, const KeyMap& keys = {})
      : sitting_(sitting), keys_(keys) {}

  /// Teaches the controls during this drill. Before the first handle().
  void teach();
  const Teacher* teacher() const { return teacher_ ? &*teacher_ : nullptr; }

  Outcome handle(const Input&);
  /// Lets real time pass, unless a question or the help stands before the drill.
  Outcome pass(std::chrono::microseconds real);
  void draw(Pen&, const Box&);

  /// Whether a newer version of the scenario has been saved meanwhile: this drill keeps its own.
  void tell_newer(bool newer) { newer_ = newer; }

  bool asking() const { return asking_; }
  bool helping() const { return help_ != Help::none; }
  const Typing& typing() const { return typing_; }
  const Hits& hits() const { return hits_; }

 private:
  enum class Help { none, keys, signs };

  Outcome do_what(const Input&);
  void choose(ActionIx);
  Outcome on_key(const Input&);
  Outcome do_deed(Deed);
  Outcome on_press(Point at);
  void mark(int by);
  Outcome leave();
  bool stopped() const { return (asking_ || helping()) && sitting_.may_pause(); }
  bool taught() const { return teacher_ && teacher_->asks().has_value(); }
  bool goes_on_from_lesson();
  void look_at_lesson();
  void draw_wide(Pen&, const Box&);
  void draw_narrow(Pen&, const Box&);
  void draw_compact(Pen&, const Box&);
  void draw_shown(Pen&, const Box&);
  void draw_guide(Pen&, const Box&);
  void draw_lesson(Pen&, const Box&);
  void draw_pad_lost(Pen&, const Box&);
  void draw_pointer(Pen&);
  std::string lesson_badge(const Pen&, double room) const;
  void draw_bar(Pen&, const Box&);
  void draw_question(Pen&, const Box&);
  void turn_help(bool on);
  void draw_help(Pen&, const Box&);
  void draw_signs(Pen&, const Box&);

  Sitting& sitting_;
  KeyMap keys_;
  Typing typing_;
  RoomPanel room_;
  CardsShown cards_;
  std::optional<Teacher> teacher_;
  SeenByTeacher seen_;
  std::size_t shown_ = 0;  // in a narrow window: room, field or chart
  std::size_t page_ = 0;   // in a compact one: guide, hands, room, field or chart
  bool compact_ = false;
  bool pad_lost_ = false, newer_ = false;
  bool hovers_ = false;  // the mouse rests on a card
  bool asking_ = false;
  Help help_ = Help::none;
  std::chrono::microseconds since_over_{0};
  Hits hits_;
};

}  // namespace beforehand::stage
