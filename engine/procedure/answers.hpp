// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <string>
#include <vector>

// From a few answers to a plain list of steps (outline.hpp): enough for a scenario that can be
// played at once and holds one of each thing that makes a drill: something passed, water with the
// suction beside it, something that sets once mixed, light.

namespace beforehand::procedure {

/// One of the questions, and what is answered when nothing else is said.
struct Question {
  std::string key;   ///< the answer's name, as an option: "material"
  std::string text;  ///< for people
  std::string answer;
};

/// The questions in their order; `title` answers the first. Later ones can fall away with an answer
/// to an earlier one: see asked().
std::vector<Question> questions(const std::string& title);

/// Whether the question still matters: nobody is asked how long a material is mixed when there is
/// none.
bool asked(const std::vector<Question>&, const std::string& key);

/// The list that the answers come to; what is odd about an answer the list's reader tells.
std::string outline_from(const std::vector<Question>&);

}  // namespace beforehand::procedure
