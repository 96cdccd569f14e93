// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <array>
#include <optional>
#include <vector>

#include "drill/command.hpp"
#include "drill/event.hpp"
#include "procedure/procedure.hpp"

// The state of the room at one moment: plain values, copied freely, changed only by the run loop
// (run.hpp).

namespace beforehand::drill {

using procedure::Procedure;

enum class StepState : std::uint8_t { waiting, doing, paused, done, skipped };

struct StepProgress {
  StepState state = StepState::waiting;
  PersonIx by;
  Ms started = never;  ///< for an assistant's step: when the action that counts for it started
  Ms ended = never;
  Ms awaited = never;  ///< since when the clinician stands still for it; never: not now
  Ms waited{0};        ///< how long the clinician stood still for it before
};

struct SupplyNow {
  procedure::SupplyState state = procedure::SupplyState::stored;
  PlaceIx place;         ///< where it lies; none while in a hand or in use on the patient
  PersonIx holder;       ///< in whose hand
  bool offered = false;  ///< held in the transfer zone, ready to be taken
  Ms prepared_at = never;
  Ms sets_at = never;  ///< when its working time ends; never: it does not set
};

/// One thing a person is doing.
struct Doing {
  ActionIx action;  ///< none: the own step `step`, or helping oneself
  StepIx step;      ///< what it counts for, or the own step; none: an extra action
  SupplyIx supply;
  bool cover = false;
  bool attention = true;
  bool helping = false;  ///< helping oneself to need `need` of `step`
  std::uint8_t need = 0;
  int hands = 1;
  Ms started{0};
  Ms ends = never;  ///< a cover: never
  Ms left{0};       ///< of a paused step: what is still to do
};

struct PersonNow {
  std::vector<Doing> doing;  ///< at most one with attention; covers and the light beside it
  std::optional<Command> lined_up;
  std::vector<SupplyIx>
      holds;  ///< supplies in the hands between actions (offered, or used and not taken back)
  bool gloves_soiled = false;

  const Doing* attention() const {
    for (const auto& d : doing) {
      if (d.attention) return &d;
    }
    return nullptr;
  }
};

enum class SignalState : std::uint8_t { open, happened, passed };

struct World {
  Ms now{0};
  std::vector<StepProgress> steps;
  std::vector<SupplyNow> supplies;
  std::vector<PersonNow> people;
  std::vector<SignalState> signals;
  std::vector<std::uint8_t> device_used;
  std::vector<std::uint8_t> need_asked;  ///< by need, see need_index()
  std::vector<std::uint8_t> need_helped;
  std::vector<std::uint32_t>
      first_need;  ///< by step: position of its first need in the two lists above
  procedure::FieldSet field;
  int filled = 0;  ///< increments in the tooth so far
  bool over = false;

  std::size_t need_index(StepIx s, std::size_t need) const { return first_need[s.at()] + need; }
  const StepProgress& step(StepIx i) const { return steps[i.at()]; }
  const SupplyNow& supply(SupplyIx i) const { return supplies[i.at()]; }
  const PersonNow& person(PersonIx i) const { return people[i.at()]; }
  bool finished(StepIx i) const {
    return steps[i.at()].state == StepState::done || steps[i.at()].state == StepState::skipped;
  }
};

/// Hands of `who` that are free: neither holding nor at work.
int free_hands(const Procedure&, const World&, PersonIx who);

/// Whether a need of a step holds now. `by` is who would do the step.
bool is_met(const Procedure&, const World&, StepIx step, const procedure::Need&, PersonIx by);

/// The first step of this kind of action not yet done, skipped, or under way; none when all are.
/// This is what the action would count for.
StepIx counts_for(const Procedure&, const World&, ActionIx action);

/// Why `who` cannot do `action` now, or Reason::none. `busy` alone means it can be lined up.
Reason may_i(const Procedure&, const World&, PersonIx who, ActionIx action);

/// Whether the step's own conditions hold, needs apart: predecessors that its own person does,
/// minimum lags, signals. `from` is set to the earliest moment when only a lag is missing, else to
/// never.
bool conditions_hold(const Procedure&, const World&, StepIx step, Ms& from);

}  // namespace beforehand::drill
