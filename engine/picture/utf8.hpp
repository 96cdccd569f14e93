// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <cstddef>
#include <string_view>

namespace beforehand::picture {

/// Takes the next character off the front of the text. A byte that starts no valid UTF-8 sequence
/// is taken alone and given as U+FFFD. Needs a text that is not empty.
char32_t take_character(std::string_view& text);

/// The first `count` characters.
std::string_view utf8_prefix(std::string_view text, std::size_t count);

}  // namespace beforehand::picture
