// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <string>

#include "procedure/characters.hpp"
#include "procedure/procedure.hpp"

namespace beforehand::procedure {

/// What a procedure is called with the preference card laid over it: "Title (card's title)".
inline std::string full_title(const Procedure& p) {
  return p.card.empty() ? p.title : p.title + " (" + p.card_title + ")";
}

/// The same where a title must not be longer than a title may be: else the card's alone.
inline std::string full_title(const Procedure& p, std::size_t longest) {
  const auto title = full_title(p);
  return length_in_characters(title) <= longest ? title : p.card_title;
}

}  // namespace beforehand::procedure
