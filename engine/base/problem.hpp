// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <string>
#include <string_view>
#include <tuple>
#include <vector>

#include "base/said.hpp"

namespace beforehand {

/// A place in a text file; line and column count from 1. Line 0: the file as a whole.
struct Mark {
  int line = 0;
  int column = 0;
  int file = 0;  ///< which of the files that are read together; the first is 0
  friend bool operator==(const Mark&, const Mark&) = default;
  friend auto operator<=>(const Mark& a, const Mark& b) {
    return std::tie(a.file, a.line, a.column) <=> std::tie(b.file, b.line, b.column);
  }
};

/// Something wrong, or doubtful, at a place of an input file.
struct Problem {
  enum class Kind { error, warning };
  Kind kind = Kind::error;
  Mark mark;
  Said message;  ///< what is wrong and, where it can be told, the remedy; one line
};

/// True when any problem is an error.
bool has_errors(const std::vector<Problem>& problems);

/// Orders by place, so that what is printed reads down the file; equal places keep their order.
void sort_by_place(std::vector<Problem>& problems);

/// `path:line:col: error: message`, then the line of `text` and a caret under the column, for every
/// problem.
std::string print(const std::vector<Problem>& problems, std::string_view path,
                  std::string_view text);

/// A file that was read, for what is printed of its problems.
struct Source {
  std::string path, text;
};

/// The same for problems of several files, each at its Mark::file among `sources`; in the language
/// of the phrases.
std::string print(const std::vector<Problem>& problems, const std::vector<Source>& sources,
                  const Phrases& phrases = {});

}  // namespace beforehand
