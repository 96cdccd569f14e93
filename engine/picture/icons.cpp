// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "picture/icons.hpp"

#include <algorithm>

namespace beforehand::picture {

const std::vector<Icon>& baked_icons();  // made at build time from assets/icons

std::span<const Icon> icons() { return baked_icons(); }

const Icon* find_icon(std::string_view name) {
  const auto all = icons();
  const auto found =
      std::lower_bound(all.begin(), all.end(), name,
                       [](const Icon& icon, std::string_view n) { return icon.name < n; });
  return found != all.end() && found->name == name ? &*found : nullptr;
}

}  // namespace beforehand::picture
