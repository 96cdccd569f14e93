// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "base/problem.hpp"

namespace beforehand::procedure {

/// A character that no scenario may hold, and what to say of it.
struct OddCharacter {
  Mark mark;
  Said what;
};

/// The first byte that is not UTF-8 (RFC 3629), or the first control character other than tab and
/// line ends.
std::optional<OddCharacter> find_odd_character(std::string_view text);

/// Number of characters of a UTF-8 text.
std::size_t length_in_characters(std::string_view text);

/// True when the text holds a control character, line ends and tabs included.
bool has_control_character(std::string_view text);

/// A piece of the file's text as a message may show it: short, on one line, without control
/// characters.
std::string shown(std::string_view text);

}  // namespace beforehand::procedure
