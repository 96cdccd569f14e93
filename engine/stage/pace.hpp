// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <chrono>
#include <string>

#include "base/time.hpp"

namespace beforehand::stage {

/// Drill time that passes for one of real time, in per cent: 100 is as in the clinic.
struct Pace {
  int percent = 100;
};
inline constexpr Pace slowest{50}, usual{100}, fastest{300};

/// The next pace up or down the list 50, 75, 100, 125, 150, 200, 250, 300 per cent; stays at its
/// ends.
Pace quicker(Pace);
Pace slower(Pace);

/// "1×", "0.75×".
std::string text_of(Pace);

/// The one place where real time becomes drill time. It only says up to which moment the drill is
/// to be played; what happens there depends on the moment alone, so pace, lapse, slow frames and a
/// clock that jumps change nothing but the waiting.
class PaceClock {
 public:
  /// Of real time between two calls no more than this counts, and none that runs backwards.
  static constexpr std::chrono::milliseconds longest_frame{250};
  /// Drill time a lapse lets pass for one of real time.
  static constexpr int lapse_speed = 30;

  explicit PaceClock(Pace pace) : pace_(pace) {}

  /// Lets real time pass. Until the moment `lapse_until` (not after now: no lapse) time runs at
  /// lapse speed, from there on at the pace. Gives the new now.
  Ms pass(std::chrono::microseconds real, Ms lapse_until = Ms{0});

  Ms now() const { return now_; }
  /// For what is played again: time goes on from here.
  void move_to(Ms moment) {
    now_ = moment;
    rest_ = 0;
  }
  Pace pace() const { return pace_; }
  void set_pace(Pace pace) { pace_ = pace; }
  bool paused() const { return paused_; }
  void set_paused(bool paused) { paused_ = paused; }

 private:
  Pace pace_;
  bool paused_ = false;
  Ms now_{0};
  std::int64_t rest_ = 0;  // drill time not yet a whole millisecond, in hundred-thousandths of one
};

}  // namespace beforehand::stage
