// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include "timing/schedule.hpp"

namespace beforehand::timing {

enum class Direction : std::uint8_t { earlier, later };

/// Moves one point of a schedule as far as it can go while all others stay where they are: past
/// others on its resources too, where it fits. Keeps every difference and capacity.
void slide(const ScheduleProblem&, Schedule&, int point, Direction);

}  // namespace beforehand::timing
