// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace beforehand {

/// A place in a text file; both count from 1. Line 0: the file as a whole.
struct Mark {
  int line = 0;
  int column = 0;
  friend auto operator<=>(const Mark&, const Mark&) = default;
};

/// Something wrong, or doubtful, at a place of an input file.
struct Problem {
  enum class Kind { error, warning };
  Kind kind = Kind::error;
  Mark mark;
  std::string message;  ///< what is wrong and, where it can be told, the remedy; one line
};

/// True when any problem is an error.
bool has_errors(const std::vector<Problem>& problems);

/// Orders by place, so that what is printed reads down the file; equal places keep their order.
void sort_by_place(std::vector<Problem>& problems);

/// `path:line:col: error: message`, then the line of `text` and a caret under the column, for every
/// problem.
std::string print(const std::vector<Problem>& problems, std::string_view path,
                  std::string_view text);

}  // namespace beforehand
