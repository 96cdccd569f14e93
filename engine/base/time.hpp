// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <chrono>
#include <cstdint>
#include <string>

namespace beforehand {

/// Drill time and durations: whole milliseconds. A moment is counted from the start of the drill.
using Ms = std::chrono::duration<std::int64_t, std::milli>;

/// Later than any moment a drill can reach; "it will not happen".
inline constexpr Ms never{std::int64_t{1} << 60};

/// Milliseconds as seconds, for output only; the engine itself never computes in floating point
/// time.
constexpr double to_seconds(Ms t) { return static_cast<double>(t.count()) / 1000.0; }

/// "0:07", "12:34": minutes and whole seconds, rounded down; negative times carry a minus sign.
std::string clock_text(Ms t);

/// "7 s", "2.5 s", "1 min 30 s": a duration as people write it in scenarios and debriefs.
std::string duration_text(Ms t);

}  // namespace beforehand
