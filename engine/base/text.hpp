// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace beforehand {

/// The candidate nearest to `word` by edits (insert, delete, change, swap of neighbours), or
/// nothing when even the nearest needs more edits than a third of the word's length, at least one.
std::optional<std::string> nearest(std::string_view word,
                                   const std::vector<std::string>& candidates);

/// "a, b and c".
std::string list_text(const std::vector<std::string>& items);

}  // namespace beforehand
