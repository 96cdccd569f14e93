// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <string>
#include <vector>

#include "base/strings.hpp"
#include "drill/session.hpp"
#include "procedure/procedure.hpp"

namespace beforehand::stage {

/// Something said or shown in the room, in words.
struct Caption {
  enum class Kind {
    said,   ///< the clinician says what is being done
    asked,  ///< the clinician has to ask
    cue,    ///< what can be seen
    told    ///< to the trainee: something went wrong, or cannot be done
  } kind = Kind::said;
  std::string text;
  Ms at{0};
};

/// What an event sounds or looks like to the trainee; nothing for most.
std::vector<Caption> captions_of(const procedure::Procedure&, const drill::Event&, PersonIx trainee,
                                 const Strings&);

/// That the clinician goes on alone, having asked.
std::string helping_line(const procedure::Procedure&, const drill::Event& helping, const Strings&);

/// Why an action cannot be done, in a sentence.
std::string sentence_of(const procedure::Procedure&, drill::Reason, ActionIx, const Strings&);

/// The clinician's words when a need has to be asked for.
std::string request_for(const procedure::Procedure&, const procedure::Need&, const Strings&);

/// The same of what was asked for, which may be kept from a step (drill::kept_from()).
std::string request_of(const procedure::Procedure&, const drill::Event& asked, const Strings&);

}  // namespace beforehand::stage
