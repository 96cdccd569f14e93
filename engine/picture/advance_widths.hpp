// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include "picture/canvas.hpp"

namespace beforehand::picture {

/// Advance width of a character in DejaVu Sans, in em; 1 em for a character outside the table.
double advance_width(char32_t character, Weight weight);

/// In em: from the baseline up to the top of a line, down to its bottom, and up to the top of a
/// capital.
inline constexpr double ascent = 0.93;
inline constexpr double descent = 0.24;
inline constexpr double capital_height = 0.73;

}  // namespace beforehand::picture
