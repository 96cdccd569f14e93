// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <stdexcept>
#include <string>
#include <string_view>

// Changing a YAML file as a person would: one value, one step or one item, and every other byte as
// it was, remarks, order and layout included. What comes out is parsed again and compared with what
// went in before it is given back.
//
// A path leads from the top by keys; an entry of a list is named by its id, or counted from 0:
// "pacing/patience", "steps/etch/takes", "steps/rinse/after/0/at-most".

namespace beforehand::procedure {

/// The text is no YAML, has nothing at that path, or is written in a way that cannot be changed in
/// place; what() says which.
struct EditError : std::runtime_error {
  using std::runtime_error::runtime_error;
};

/// The text with the value at `path` replaced by `value`, which is written as YAML ("15 s",
/// "{least: 5 s, usual: 6 s, most: 8 s}", or yaml_text() of a text). A last key that is not there
/// yet is added behind the others of its map. Throws EditError.
std::string with_value(std::string_view yaml, std::string_view path, std::string_view value);

/// The text without the key, or the item, at `path`, remarks on its lines included. Throws
/// EditError, also when nothing would be left in the map or list.
std::string without(std::string_view yaml, std::string_view path);

/// The text with `item` added to the list at `path`, behind the entry `behind` (an id, or a number
/// from 0), in front when that is empty. `item` is written as YAML; an item of several lines, such
/// as a step, is written from the left margin, its lines are indented as its neighbours are. A
/// value without brackets becomes a list of two. Throws EditError.
std::string with_item(std::string_view yaml, std::string_view path, std::string_view behind,
                      std::string_view item);

/// A text as YAML reads it back: in double quotes where it needs them.
std::string yaml_text(std::string_view text);

}  // namespace beforehand::procedure
