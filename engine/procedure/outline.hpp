// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/problem.hpp"

// From a plain list of steps to a scenario that can be checked and played, to be refined from
// there. A line a step, in the order in which a practised pair would work:
//
//   Title: Lining a cavity
//   Clinician: rinses the cavity, 10 s
//   Assistant: holds the suction
//   Assistant: mixes the lining paste, 8-12 s, good for 90 s
//   Assistant: passes the lining paste
//   Clinician: lines the cavity, 15 s
//
// What is passed, and a suction that is held, is for the clinician's next line. A line that begins
// with # is a remark.

namespace beforehand::procedure {

struct Outlined {
  std::string scenario;           ///< as YAML; empty when there was an error
  std::vector<Problem> problems;  ///< of the list, every one, at its place
  std::vector<Mark> steps;        ///< where each step of the scenario stands in the list
};

/// The scenario of a list, under this id; `title` where the list has none. Never throws for bad
/// text.
Outlined scenario_from_outline(std::string_view list, const std::string& id,
                               const std::string& title);

/// What is wrong with the scenario, told of the list it was made from, the only text its author has
/// seen: places and line numbers are those of the list. In English.
std::vector<Problem> told_of_list(const std::vector<Problem>& of_scenario, const Outlined&);

}  // namespace beforehand::procedure
