// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "procedure/reader.hpp"

// From the names of files to a procedure: the one way in, for the window and every command.

namespace beforehand::procedure {

/// What a procedure is read from; card and materials may be empty.
struct Files {
  std::string scenario, card, materials;
};

/// The files an input names: "SCENARIO", "CARD" (its scenario lies in the folder above it, or
/// beside it), or "SCENARIO+CARD", the card by its file or, from the folder "cards" beside the
/// scenario, by its id alone. Throws std::runtime_error when there is no such file.
Files files_of(const std::string& input);

/// The cards of a scenario: every file of the folder "cards" beside it, in order of their names.
std::vector<std::string> cards_of(const std::string& scenario_file);

struct Loaded {
  Reading reading;
  std::vector<Source> sources;  ///< scenario, card, materials: as the marks of the problems count
};

/// Reads the files and all that is wrong with any of them. Throws std::runtime_error naming a file
/// that cannot be read, and the system's reason.
Loaded load(const Files&);

}  // namespace beforehand::procedure
