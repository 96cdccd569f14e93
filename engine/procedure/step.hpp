// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "procedure/parts.hpp"

// A piece of work by one person, what must come before it and what it must have.

namespace beforehand::procedure {

/// Three-point estimate; least <= usual <= most. Drawn from a triangular distribution (see
/// drill/durations.hpp).
struct Estimate {
  Ms least{0}, usual{0}, most{0};
};

/// Precedence with lags: this step starts at least / at most so long after `step`'s anchor.
struct Link {
  StepIx step;
  Anchor from = Anchor::end;
  Ms at_least{0};
  Ms at_most = never;
  bool unsafe = false;   ///< going before it is an unsafe act
  bool implied = false;  ///< derived, not written
  std::string if_late;   ///< the name of the error when at_most is overrun: "over-etched"
  std::string why;
  Mark mark;
};

/// What a step must have from somebody else before it can start.
struct Need {
  enum class Kind : std::uint8_t {
    supply,  ///< `supply` ready in the transfer zone, or still in the own hand and ready
    cover,   ///< the cover of step `from` going on
    done,    ///< step `from` done, or only started: see start_suffices()
  };
  Kind kind = Kind::supply;
  SupplyIx supply;
  StepIx from;  ///< who serves it: the pass, the cover, the other's step; none when kept in the own
                ///< hand
  StepIx prepared_by;  ///< the step whose opening, mixing or loading is used up here, if any
  Mark mark;
};

struct Step {
  std::string id, title, cue, why, caution;
  PhaseIx phase;
  std::vector<PersonIx> by;  ///< who may do it, the preferred one first; never empty
  Verb verb = Verb::work;
  SupplyIx supply;  ///< what the verb is done to; none for work
  Estimate takes;   ///< a cover has none of its own
  TimedBy timed_by;
  Ms reach{0};  ///< derived: added to `takes` for the reach to the supply's place
  std::vector<Link> after;
  std::vector<Need> needs;
  std::vector<SupplyIx> keeps;  ///< supplies that stay in the hand when the step ends
  std::vector<StepIx> covers;  ///< not empty: this is a cover, going on while each of these goes on
  std::vector<StepIx> covered_by;  ///< derived: the covers this step needs
  StepIx serves;                   ///< the step it makes something ready for, if it is one step's
  int hands = 1;
  bool attention = true;  ///< false: takes a hand only (a cover, holding the light)
  std::vector<DeviceIx> devices;
  std::vector<SignalIx> when,
      unless;  ///< applies when all of `when` and none of `unless` have happened
  Severity severity = Severity::minor;
  bool lapse = false;       ///< nothing can be needed meanwhile: the window may run it fast
  FieldSet leaves, clears;  ///< what its end does to the field; clears first
  std::string says;         ///< what the clinician says as it starts
  Mark mark;

  bool is_cover() const { return !covers.empty(); }
};

}  // namespace beforehand::procedure
