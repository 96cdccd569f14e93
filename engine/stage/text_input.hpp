// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// Typing into a UTF-8 text.
#pragma once

#include <cstddef>
#include <string>

namespace beforehand::stage {

/// Appends a code point; what is no printable character is left out.
void append(std::string& text, char32_t c);

/// Takes the last character away, if there is one.
void erase_last(std::string& text);

std::size_t letters_in(const std::string& text);

}  // namespace beforehand::stage
