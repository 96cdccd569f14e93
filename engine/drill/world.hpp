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
  Ms awaited = never;       ///< since when the clinician stands still for it; never: not now
  Ms due{0};                ///< of an awaited step: see due_at()
  Ms waited{0};             ///< how long the clinician stood still for it before
  std::uint32_t begun = 0;  ///< how often it, or an action counting for it, was begun
  bool kept_asked = false;  ///< the clinician has asked for what is kept from it: see kept_from()
  bool kept_open = false;   ///< stands still for it now
};

struct SupplyNow {
  procedure::SupplyState state = procedure::SupplyState::stored;
  PlaceIx place;         ///< where it lies; none while in a hand or in use on the patient
  PersonIx holder;       ///< in whose hand
  bool offered = false;  ///< held in the transfer zone, ready to be taken
  Ms ready_at = never;   ///< since when it is offered, or kept in the hand
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
  bool helping = false;   ///< helping oneself to need `need` of `step`
  std::uint8_t need = 0;  ///< one past the last: to what is kept from it
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
  Ms free_since{0};  ///< when the attention last became free

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
  std::vector<Ms> signal_due;               ///< when it will be decided; never: not yet known
  std::vector<Ms> signal_at;                ///< when it was decided
  std::vector<std::uint8_t> signal_raised;  ///< chosen to happen by a rehearsal leader
  std::vector<std::uint8_t> device_used;
  std::vector<std::uint8_t> need_asked;  ///< by need, see need_index()
  std::vector<std::uint8_t> need_helped;
  std::vector<std::uint8_t> need_open;  ///< 1 while the clinician stands still for it
  std::vector<std::uint32_t>
      first_need;  ///< by step: position of its first need in the two lists above
  StepIx awaited;  ///< the step the clinician stands still for now, if any
  procedure::FieldSet field;
  int filled = 0;           ///< increments in the tooth so far
  std::uint32_t moves = 0;  ///< counts what changes the time to come: own steps and signals
  Ms closing_at = never;    ///< when the drill is closed, the clinician's part being over
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

/// Whether a supply still lies inside another that has not been set out: it can be neither seen nor
/// reached.
bool is_shut_away(const Procedure&, const World&, SupplyIx);

/// Why `who` cannot do `action` now, or Reason::none. `busy` alone means it can be lined up.
Reason may_i(const Procedure&, const World&, PersonIx who, ActionIx action);

/// Whether a step's links and signals let it start now. Links to steps that are a need (done by
/// somebody else) count only when `with_needs`. When nothing but a minimum lag is missing, `from`
/// is the moment it will have passed, else never.
bool conditions_hold(const Procedure&, const World&, StepIx step, bool with_needs, Ms& from);

/// When the last link of a step let it start (its predecessors done, their minimum lags passed);
/// never while one is open.
Ms enabled_at(const Procedure&, const World&, StepIx step);

/// The soonest an awaited step could have started had everybody but the clinician begun each thing
/// as soon as it could be begun. Before it, standing still is nobody's fault.
Ms due_at(const Procedure&, const World&, StepIx step);

/// Whether the step's devices, and the supply it is done with, are free for `who`.
bool tools_free(const Procedure&, const World&, StepIx step, PersonIx who);

/// What somebody keeps from whoever would do a step with it.
struct Kept {
  PersonIx by;  ///< nobody: nothing is kept
  ActionIx action;
  SupplyIx supply;
};

/// Of a step's devices, and the supply it is done with, what somebody other than `who` keeps, and
/// may for ever: a cover that goes on, or a thing that stays in the hand.
Kept kept_from(const Procedure&, const World&, StepIx step, PersonIx who);

/// The person who keeps cover `step` up now, or none.
PersonIx covering(const Procedure&, const World&, StepIx cover_step, Ms* since = nullptr);

/// Whether somebody other than `apart_from` is at work on what serves this need.
bool being_served(const Procedure&, const World&, const procedure::Need&, PersonIx apart_from);

/// Steps still to be done, in an order that works, before need `need` holds: the serving step's
/// own predecessors and itself, as far as somebody other than the clinician prefers them.
void chain_for(const Procedure&, const World&, const procedure::Need&, std::vector<StepIx>& out);

/// A fingerprint of the whole world, for recordings.
std::uint64_t checksum(const World&);

}  // namespace beforehand::drill
