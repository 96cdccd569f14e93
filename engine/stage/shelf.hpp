// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "procedure/procedure.hpp"

namespace beforehand::stage {

/// A scenario file as the start screen offers it. One that cannot be played has problems instead of
/// a procedure.
struct ShelfItem {
  std::string file;
  std::optional<procedure::Procedure> procedure;
  std::vector<Problem> problems;
};

/// Every */scenario.yaml in a folder, the shortest procedure first, unplayable ones last. An
/// unreadable or missing folder gives an empty shelf.
std::vector<ShelfItem> read_shelf(const std::filesystem::path& folder);

/// How long a person sits in front of it at the usual pace: the chair time without the stretches
/// that are run fast. Rounded up to whole minutes.
int minutes_to_play(const procedure::Procedure&);

}  // namespace beforehand::stage
