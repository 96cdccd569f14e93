// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <array>
#include <iterator>
#include <string>
#include <string_view>
#include <vector>

#include "stage/widgets.hpp"

namespace beforehand::stage {

/// A column of large buttons for one person, each with a key of that person's own row: so many, or
/// fewer where the column is low, since what a button says is never cut.
inline constexpr std::size_t buttons_a_column = 6;

/// By column, the keys from top to bottom.
inline constexpr std::u32string_view column_keys[] = {U"123456", U"qwerty", U"asdfgh"};

/// How many buttons each column has.
using ButtonCounts = std::array<std::size_t, std::size(column_keys)>;
inline constexpr ButtonCounts all_buttons{buttons_a_column, buttons_a_column, buttons_a_column};

struct BigButton {
  std::string label;
  std::string under;  ///< what is said below it where there is room; may be empty
  bool on = false;    ///< going on
  bool enabled = true;
  bool marked = false;  ///< a gamepad's mark stands on it
};

/// A panel with its heading; button i is pressed as `first_id` + i. `keys`: show them. Gives how
/// many of the buttons found room.
std::size_t big_buttons(Pen&, const Box&, std::string_view title, bool focused, std::size_t column,
                        const std::vector<BigButton>&, bool keys, int first_id);

/// The button a key belongs to, as column * buttons_a_column + place; -1 when it is none's.
int button_of(char32_t key, std::size_t columns);

}  // namespace beforehand::stage
