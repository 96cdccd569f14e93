// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <string>

#include "base/strings.hpp"
#include "procedure/characters.hpp"
#include "procedure/procedure.hpp"
#include "procedure/words.hpp"

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

/// "Pass: Etching gel": the verb on the supply.
inline std::string title_of(const Procedure& p, ActionIx action, const Strings& t) {
  const auto& kind = p.action(action);
  return t("verb." + std::string(word(kind.verb)),
           {kind.supply ? p.supply(kind.supply).name : std::string()});
}

}  // namespace beforehand::procedure
