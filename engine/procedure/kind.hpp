// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

namespace beforehand::procedure {

/// What a YAML file of ours is: told by the key that gives its format.
enum class Kind : std::uint8_t { scenario, card, materials, texts };

/// What a file says of itself; empty where it gives nothing that can be read. `card` is that of a
/// card's texts.
struct Head {
  Kind kind = Kind::scenario;
  std::string id, title, card;
};

/// A text with none of the keys is taken for a scenario.
Head head_of(std::string_view yaml_text);
inline Kind kind_of(std::string_view yaml_text) { return head_of(yaml_text).kind; }

}  // namespace beforehand::procedure
