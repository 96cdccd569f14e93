// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <cstddef>
#include <string_view>

#include "base/problem.hpp"

// Where things stand in a YAML text that is known to be valid, in bytes.

namespace beforehand::procedure {

/// The position of a mark, and of the beginning of its line.
std::size_t offset_of(std::string_view yaml, Mark mark);
std::size_t line_start(std::string_view yaml, std::size_t at);
/// The beginning of the next line, the end of the text behind the last.
std::size_t next_line(std::string_view yaml, std::size_t at);
/// How far the line that `at` lies in is indented.
std::size_t indent_of(std::string_view yaml, std::size_t at);

/// True where a list or map in brackets begins.
bool opens_brackets(std::string_view yaml, std::size_t at);

/// The end of the text or of the collection in brackets that begins at `at`. `in_flow`: it stands
/// inside brackets itself. `indent`: that of what it belongs to; the lines of a folded text are
/// indented deeper.
std::size_t end_of(std::string_view yaml, std::size_t at, bool in_flow, std::size_t indent);

/// The end of a quoted text, its quotes included.
std::size_t end_of_quotes(std::string_view yaml, std::size_t at);
std::size_t end_of_line(std::string_view yaml, std::size_t at);

}  // namespace beforehand::procedure
