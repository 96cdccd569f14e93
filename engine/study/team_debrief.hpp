// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <string>
#include <vector>

#include "scoring/score.hpp"

namespace beforehand::study {

/// The clinician stood still for something that was somebody else's.
struct TeamWait {
  PersonIx for_whom;  ///< whose it was: who served it, or who is preferred for it
  StepIx step, from;  ///< what was to start, and what it waited for
  Ms at{0}, wait{0};
  bool asked = false;
};

/// What a rehearsal tells a team. Follows from the session alone: its replay tells the same.
struct TeamDebrief {
  scoring::Score score;         ///< of the assistant
  std::vector<TeamWait> waits;  ///< the longest first
  std::size_t needs = 0, unasked = 0;
  Ms both_idle{0};
  std::vector<std::vector<std::string>> change;  ///< by person, at most two sentences each
};

TeamDebrief team_debrief(const procedure::Procedure&, const drill::Session&);

}  // namespace beforehand::study
