// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "procedure/procedure.hpp"

// Other ways of working that a scenario leaves open, each as a change of its file.

namespace beforehand::study {

/// One place of the file: the path of procedure/edit.hpp, and what stands there then; no value: the
/// entry goes.
struct Edit {
  std::string path, value;
  friend bool operator==(const Edit&, const Edit&) = default;
};

struct Change {
  enum class Kind : std::uint8_t {
    other_role,     ///< somebody else may do it, or does it first
    beforehand,     ///< done before the patient sits: the step goes, its supply starts ready
    nearer_supply,  ///< lies within easier reach
    nearer_place,   ///< a place is brought within easier reach
    earlier_cue,    ///< begins as another's step begins, not when it has ended
  };
  Kind kind = Kind::other_role;
  std::string words;    ///< what to do, one sentence
  std::string caution;  ///< what to make sure of first, one sentence
  std::vector<Edit> edits;
};
/// "other-role", "beforehand", ...
std::string_view word(Change::Kind);

/// Every change worth looking at, in the file's order. What only the clinician does stays the
/// clinician's; nothing that sets is prepared before the patient sits; a link that is unsafe to
/// break, a minimum lag and whatever is done at the patient stay as they are. Whether the changed
/// scenario is sound, reading it says.
std::vector<Change> possible_changes(const procedure::Procedure&);

/// The scenario's text with the change, remarks and order kept. Throws procedure::EditError where
/// the text is written in a way that does not allow it.
std::string applied(std::string yaml, const Change&);

}  // namespace beforehand::study
