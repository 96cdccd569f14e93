// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <array>
#include <cstdint>
#include <vector>

#include "drill/session.hpp"
#include "procedure/procedure.hpp"
#include "scoring/score.hpp"

// A session's events laid out by step, need and person, in one pass: what every measure reads.

namespace beforehand::scoring {

/// What became of one step.
struct StepTrace {
  Ms started = never;  ///< for an action: when the one that took effect began
  Ms acted =
      never;  ///< the trainee's: when the action that took effect ended (a cover: last began)
  Ms missed = never;  ///< a cover that was let go and taken up again: since when it was wanted then
  Ms ended = never;
  PersonIx by;           ///< who did it; none: not done, or nobody had to
  Ms arose = never;      ///< since when the clinician stood still for it, first time
  Ms busy_at_arose{0};   ///< the clinician's own work up to then
  Ms stood_still{0};     ///< how long the clinician stood still for it, up to its start
  Ms paused_at = never;  ///< since when a cover that stopped holds it up, now
  Ms paused{0};          ///< how long a cover that stopped held it up
  bool skipped = false;
  bool by_trainee = false;  ///< the trainee did it, or began it with effect

  /// When it would have started had the clinician not stood still for it; never: not wanted.
  Ms wanted() const { return started != never ? started - stood_still : arose; }
};

/// What became of one need.
struct NeedTrace {
  Ms since = never;  ///< from when it was ready, known at the step's start
  Ms asked = never;
  Ms helping = never;
  Ms helped = never;
  PersonIx by;
};

/// One thing the trainee did, in order of its start.
struct Action {
  enum class Outcome : std::uint8_t { going, effect, nothing, broken };
  ActionIx action;
  StepIx step;  ///< what it counts for; none: for nothing
  SupplyIx supply;
  Ms from{0}, to = never;
  Outcome outcome = Outcome::going;
  bool cover = false;
  bool too_soon = false;   ///< begun before a step of somebody else's that must come before it
  bool withdrawn = false;  ///< an offer taken out of the transfer zone again
  bool spent = false;      ///< for nothing: what it made ready had set before its use
  bool again = false;      ///< does the step of a spent one
};

/// A refusal the trainee got.
struct Refusal {
  Ms at{0};
  ActionIx action;
  drill::Reason reason = drill::Reason::none;
};

/// A stretch in which the trainee did nothing, with the hands that were free.
struct IdleSlot {
  Ms from{0}, to{0};
  int free_hands = 2;
};

/// What does not change from session to session.
struct Frame {
  Frame(const Procedure&, PersonIx whom);

  const Procedure& procedure;
  PersonIx whom;
  std::vector<std::uint32_t> first_need;  ///< by step, and one past the last
  std::size_t words = 1;                  ///< 64-bit words of a set of steps
  std::vector<std::uint64_t> followers;   ///< by step: the steps it must precede
  std::vector<ActionIx> kind_of;          ///< by step: its action; none for work

  std::size_t need_index(StepIx s, std::size_t need) const { return first_need[s.at()] + need; }
  const std::uint64_t* followers_of(StepIx s) const { return &followers[s.at() * words]; }
  bool prefers_trainee(StepIx s) const { return procedure.step(s).by.front() == whom; }
};

/// A drill of one phase holds that phase's steps, and earlier preps for what is still to come.
bool in_scope(const Procedure&, const Session&, StepIx);

class Timekeeper;
class TraceReader;

/// Scratch memory for any number of sessions of one procedure.
struct Trace {
  std::vector<StepTrace> steps;
  std::vector<NeedTrace> needs;
  std::vector<Action> actions;
  std::vector<Ms> decided;  ///< by signal; never: still open
  std::vector<bool> shown;  ///< by signal
  std::vector<Refusal> refusals;
  std::vector<std::uint32_t> noted;  ///< positions of the events that may be errors
  std::vector<IdleSlot> idle;
  std::vector<std::vector<Stretch>> stretches;  ///< by person
  Ms both_idle{0};
  Ms end{0};           ///< the chair time
  Ms others_end{0};    ///< when the last step of somebody else ended
  bool whole = false;  ///< went to its end, neither cut off nor broken off

  void read(const Frame&, const Session&);

  /// Whether the drill held this step and its signals let it apply.
  bool applies(const Frame&, const Session&, StepIx) const;
  /// When the step's signals had all been decided, or been foretold for certain by one that had
  /// shown; 0 for a step without signals.
  Ms known_at(const Procedure&, StepIx) const;

 private:
  friend class Timekeeper;
  friend class TraceReader;
  Ms known_at(const Procedure&, SignalIx) const;
  struct Doing {
    ActionIx action;
    StepIx step;
    std::uint32_t position = 0;  ///< in `actions`, for the trainee
    bool attention = true;
    bool own_step = false;
    bool paused = false;
  };
  struct PersonNow {
    std::vector<Doing> doing;
    std::vector<StepIx> awaited;
    std::vector<SupplyIx> offers;  ///< held ready for the other
    Stretch now;                   ///< what the person is at, `to` not yet known
    Ms counted{0};                 ///< up to when `own_work` is counted
    Ms own_work{0};
    int free_hands = 2;
    bool clinician = false;
  };
  std::vector<PersonNow> people_;
};

}  // namespace beforehand::scoring
