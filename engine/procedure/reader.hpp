// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "procedure/procedure.hpp"

namespace beforehand::procedure {

struct Materials;

/// What reading gives: the procedure when there was no error, and every problem found, ordered by
/// place.
struct Reading {
  std::optional<Procedure> procedure;
  std::vector<Problem> problems;
};

/// Reads and checks a scenario's text. Never throws for bad text: whatever is wrong is a Problem
/// with its place. A text over 1 MiB, nested deeper than 32 or with more than 64 aliases is refused
/// before it is read.
Reading read(std::string_view yaml_text);

/// What is read together: a scenario, a preference card over it (marks in file 1) and the materials
/// whose times it takes.
struct Layers {
  std::string_view scenario;
  std::optional<std::string_view> card;
  const Materials* materials = nullptr;
};

/// The same of a scenario with what is laid over it; the whole is checked as if it had been written
/// so. The fingerprint tells whether anything that is played differs.
Reading read(const Layers&);

/// The text of a file, cut off where read() would refuse it anyway; throws std::runtime_error
/// naming the file and the system's reason.
std::string load_text(const std::string& path);

}  // namespace beforehand::procedure
