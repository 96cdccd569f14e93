// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "scoring/score.hpp"

namespace beforehand::study {

/// Somebody stood still until somebody else was done.
struct TeamWait {
  PersonIx who;       ///< who waited
  PersonIx for_whom;  ///< who served it at last, else who is preferred for it
  StepIx step, from;  ///< what was to start, and what it waited for
  Ms at{0}, wait{0};
  bool asked = false;
  std::string why;  ///< a sentence, where the session tells
};

/// A thing or a hand that the clinician needed of somebody else.
struct HandOver {
  PersonIx by;
  StepIx step, from;
  Ms at{0};
  bool unasked = false;
};

/// A stretch in which nobody was at work nor covered.
struct NobodyBusy {
  Ms from{0}, to{0};
};

/// What a rehearsal tells a team. Follows from the session alone: its replay tells the same.
struct TeamDebrief {
  scoring::Score score;                 ///< of the assistant
  std::vector<TeamWait> waits;          ///< the longest first
  std::vector<HandOver> hand_overs;     ///< by time
  std::vector<NobodyBusy> nobody_busy;  ///< a second or longer, by time
  std::size_t unasked = 0;              ///< of the hand-overs
  Ms both_idle{0};
  std::vector<std::vector<std::string>> change;  ///< by person, at most two sentences each
};

/// Whether the session is a team's rehearsal and not a drill.
bool is_rehearsal(const drill::Session&);
/// The word for one in the place of the bot's name, drill::Setup::assistant.
inline constexpr std::string_view rehearsing = "team";

TeamDebrief team_debrief(const procedure::Procedure&, const drill::Session&);

}  // namespace beforehand::study
