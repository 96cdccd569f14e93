// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <cstdint>
#include <string_view>

namespace beforehand::procedure {

/// What a YAML file of ours is: told by the key that gives its format.
enum class Kind : std::uint8_t { scenario, card, materials, texts };

/// A text with none of the keys is taken for a scenario.
Kind kind_of(std::string_view yaml_text);

}  // namespace beforehand::procedure
