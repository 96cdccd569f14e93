// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <string>
#include <string_view>

#include "procedure/load.hpp"

// A preference card written into its scenario, for whoever goes on from both as one file.

namespace beforehand::procedure {

/// The scenario's text with what the card changes, as a scenario of its own: remarks, order and
/// layout stay wherever the card changes nothing. It reads as the two read one over the other, but
/// for its id ("SCENARIO-CARD") and its title ("Title (card's title)", or the card's alone where
/// that is too long). Throws EditError (edit.hpp) when one of them cannot be read, or is written in
/// a way that cannot be changed in place.
std::string with_card(std::string_view scenario, std::string_view card);

/// The text of the files' scenario, the card written into it where there is one. Throws as
/// with_card() does, and std::runtime_error naming a file that cannot be read.
std::string load_as_one(const Files&);

}  // namespace beforehand::procedure
