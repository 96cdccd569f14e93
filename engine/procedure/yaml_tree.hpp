// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <deque>
#include <string>
#include <string_view>
#include <vector>

#include "procedure/report.hpp"

namespace beforehand::procedure {

/// Longest text that is read: 1 MiB.
inline constexpr std::size_t longest_text = std::size_t{1} << 20;

/// A value of a YAML text and where it stands.
struct Node {
  enum class Kind : std::uint8_t { empty, text, list, map };
  Kind kind = Kind::empty;
  Mark mark;
  std::string text;                ///< of a text
  std::vector<const Node*> items;  ///< of a list; of a map: key, value, key, value and so on
};

/// The value of a key of a map, none when it has none; and where the key stands among the items,
/// their number when it does not.
const Node* value_of(const Node& map, std::string_view key);
std::size_t place_of(const Node& map, std::string_view key);

struct Tree {
  std::deque<Node> nodes;      ///< never moved: the items of a node point here
  const Node* root = nullptr;  ///< none when the text could not be read
};

/// Parses a text of one YAML document and reports what is wrong with it as YAML, keys that stand
/// twice in a map included. Aliases point to what they name and are never expanded; size, depth,
/// number of values and of aliases are bounded, so that a hostile text costs no more than a large
/// one. Its marks lie in `file`.
Tree parse_yaml(std::string_view text, Report& report, int file = 0);

}  // namespace beforehand::procedure
