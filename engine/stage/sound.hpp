// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <memory>
#include <string>

#include "stage/sitting.hpp"

namespace beforehand::stage {

/// Whether there is anything to hear with: a sound card, or a sound server that answers for one.
bool sound_card();

/// Lets a drill be heard: what goes on in it, timers, and what the clinician says where it was
/// recorded. Does nothing without a sound card. Everything heard is also on the screen.
class Sound {
 public:
  /// `speech` is the folder of recordings, a folder a language in it; it may be missing.
  explicit Sound(std::string speech);
  ~Sound();
  Sound(const Sound&) = delete;
  Sound& operator=(const Sound&) = delete;

  /// Makes heard what there is to hear now; nothing without a drill, when paused or when `on` is
  /// false.
  void follow(const Sitting*, bool on, const std::string& language);
  /// Speaks the plan that is announced on the screen, once each time there is another; an empty one
  /// ends it. After follow(), which knows whether sound is on.
  void announce(const std::string& plan, const std::string& language);

 private:
  void say(const std::string& text, const std::string& language);

  struct Player;
  std::string speech_;
  std::unique_ptr<Player> player_;  // none without a sound card
};

}  // namespace beforehand::stage
