// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>

#include "drill/session.hpp"
#include "stage/pace.hpp"

namespace beforehand::stage {

/// What the start screen settles before a drill.
struct Choice {
  std::size_t item = 0;  ///< position on the shelf
  drill::Level level = drill::Level::guided;
  Pace pace = usual;
  std::size_t part = 0;         ///< 0: the whole procedure, otherwise its phase part - 1
  std::string card, materials;  ///< files laid over the scenario, or empty
  std::string name;
  bool known = false;  ///< the name is that of somebody in the records
  std::string seed;    ///< digits, or empty for a new one each time

  /// The pace that counts: an assessed drill runs as in the clinic.
  Pace played_pace() const { return level == drill::Level::assessed ? usual : pace; }
};

}  // namespace beforehand::stage
