// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "base/strings.hpp"
#include "drill/world.hpp"

namespace beforehand::stage {

/// What goes on and is heard for as long as it does.
enum class Noise { suction, handpiece, water, air, lamp };
inline constexpr std::size_t noise_count = 5;

/// What is heard once.
enum class Ring {
  timer,  ///< a material's working time is nearly over
  set     ///< it is over
};
inline constexpr std::size_t ring_count = 2;

/// Which noises there are at the world's moment.
std::vector<bool> heard_in(const procedure::Procedure&, const drill::World&);

/// How fast the clinician's handpiece turns: 0 when it does not, 1 at full speed, less in the last
/// seconds of a step, when the foot comes off: what comes next is wanted soon.
double handpiece_speed(const procedure::Procedure&, const drill::World&);

/// How many materials are in the last quarter of their working time, and how many have set: more
/// than before means a ring.
struct Timers {
  int nearly_over = 0, set = 0;
};
Timers timers_in(const procedure::Procedure&, const drill::World&);

inline constexpr unsigned sound_rate = 22'050;  ///< samples a second, one channel

/// The noise as a loop without a seam, and a ring from its beginning to its end; made here and
/// nowhere recorded.
std::vector<std::int16_t> samples_of(Noise);
std::vector<std::int16_t> samples_of(Ring);

/// Everything the clinician may say in a procedure, each text once.
std::vector<std::string> spoken_lines(const procedure::Procedure&, const Strings&);

/// The name of the recording of a text, without folder and ending: a fingerprint of the text.
std::string speech_name(std::string_view text);

}  // namespace beforehand::stage
