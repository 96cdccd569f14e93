// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "procedure/reader.hpp"

// Everything a procedure was read from as one text, for whoever keeps it: the scenario, and behind
// it the card and the materials. A scenario alone is its own text.

namespace beforehand::procedure {

std::string bundle(std::string_view scenario, std::string_view card, std::string_view materials);
/// Of what was loaded (load.hpp): scenario, card and materials come first among the sources.
std::string bundle(const std::vector<Source>& sources);

/// Reads such a text again.
Reading read_bundle(std::string_view text);

}  // namespace beforehand::procedure
