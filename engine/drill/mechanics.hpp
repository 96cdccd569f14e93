// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <vector>

#include "drill/session.hpp"
#include "drill/world.hpp"

namespace beforehand::drill {

/// "Do it": every change of the world, and the event that tells of it. Inner part of the run loop;
/// who decides, and when time passes, is run.cpp's.
class Mechanics {
 public:
  /// Lays out the world for the set-up of the session.
  Mechanics(const Procedure&, World&, Session&);

  /// Applies a decision at the world's now.
  void apply(const Command&);

  /// Lets happen what is due by now: ends, settings, signals, the closing of the drill.
  void fire();

  /// The next moment at which something happens with nobody deciding; a minimum lag that runs out
  /// counts, since somebody may want to decide then.
  Ms next_moment() const;

  /// Closes the present moment: notes for whom the clinician now stands still.
  void stand_still();

  /// How: as in What::ended.
  void end(int how);

 private:
  // mechanics.cpp: commands and actions
  void act(const Command&);
  void start_action(PersonIx, ActionIx);
  void note_premature(PersonIx, ActionIx, StepIx);
  void note_soiled(PersonIx, StepIx, procedure::Verb, SupplyIx);
  void finish_action(PersonIx, const Doing&);
  void drop_action(PersonIx, const Doing&);
  void handle(PersonIx, StepIx, procedure::Verb, SupplyIx);
  void stop(PersonIx, ActionIx);
  void stop_cover(PersonIx, std::size_t which);
  void break_off(PersonIx);
  void break_off(PersonIx, std::size_t which);

  // own_steps.cpp: the clinician's way of working
  void begin(PersonIx, StepIx);
  Reason may_begin(PersonIx, StepIx) const;
  void take_needed(PersonIx, StepIx);
  void serve_by_cover(PersonIx keeper, StepIx cover_step);
  void let_go_of(PersonIx, int hands_wanted);
  void finish_step(PersonIx, const Doing&);
  void lay_down_used(PersonIx, StepIx, SupplyIx);
  bool taken_back_next(SupplyIx) const;
  void pause_uncovered();
  void resume_covered();
  Event about_need(What, PersonIx, StepIx, std::uint8_t need) const;
  void ask(PersonIx, StepIx, std::uint8_t need);
  void help(PersonIx, StepIx, std::uint8_t need);
  void take_from_others(PersonIx, const procedure::Need&, const std::vector<StepIx>&);
  void take_kept(PersonIx, StepIx);
  void finish_help(PersonIx, const Doing&);
  void note_overrun(StepIx, Ms started);
  void stop_awaiting(StepIx);

  // flow.cpp: what happens by itself
  void set_up_phase();
  bool finish_due(PersonIx);
  bool set_due();
  bool decide_due();
  void mark_done(StepIx, PersonIx);
  void mark_skipped(StepIx);
  void finish(StepIx, StepState);
  void close_covers_of(StepIx);
  void plan_signals(StepIx, procedure::Anchor);
  void skip_what_does_not_apply();
  StepIx awaited_step(PersonIx) const;
  bool clinician_first(StepIx) const;
  void note_missing(PersonIx, StepIx);

  // mechanics.cpp: bookkeeping
  void emit(const Event& e) { session_.events.push_back(e); }
  Event about(What, PersonIx = {}, StepIx = {}) const;
  void attention_free(PersonIx);
  void timers_for(StepIx, procedure::Anchor);
  void release(SupplyIx, PlaceIx, procedure::SupplyState);
  void put_down(PersonIx, SupplyIx);
  void devices(StepIx, bool taken);
  void back_to_waiting(StepIx);
  PlaceIx place_for(SupplyIx, procedure::SupplyState) const;
  Ms length(StepIx);
  bool clinicians(StepIx) const;

  const Procedure& p_;
  World& world_;
  Session& session_;
  std::vector<std::uint64_t> names_;           // by step: hash of its id
  std::vector<std::uint8_t> lags_after_;       // by step: a minimum lag hangs on it
  std::vector<std::uint64_t> clinician_open_;  // bit set: steps the clinician has still to do
  std::vector<Ms> timers_;                     // minimum lags running out, ascending
  std::vector<StepIx> scratch_;
  PlaceIx soiled_place_;
  int open_ = 0;             // steps not finished
  int clinician_count_ = 0;  // of these, the clinician's
};

}  // namespace beforehand::drill
