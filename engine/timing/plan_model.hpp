// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <vector>

#include "procedure/procedure.hpp"
#include "timing/plan.hpp"
#include "timing/schedule.hpp"

namespace beforehand::timing {

using procedure::Procedure;

/// Why one thing has to come so long after another, in the author's terms.
struct Because {
  enum class Kind : std::uint8_t {
    link,    ///< `to` follows `from`
    within,  ///< `to` may not be later than so long after `from`; runs backward in the network
    signal,  ///< `to` waits until it shows whether a signal happens after `from`
    need,    ///< `to` needs what `from` hands over, does or covers
    working_time,  ///< what `from` prepares must be used up at the end of `to`; runs backward
    cover,         ///< the cover `from` lasts until `to` ends
    chair,         ///< the chair time lasts until `from` ends
  } kind = Kind::link;
  StepIx from, to;
};

/// A procedure, unfolded for the signals that happen, as a scheduling problem of usual durations.
///
/// A person's attention goes to one step at a time. Hands: a step takes its own; a pass holds its
/// supply until the step it serves starts; a cover lasts until all it covers has ended; what is
/// used stays in the hand until its take-back has ended, or, if kept, until it is next used. What
/// is taken back can be exchanged, by the hand that offers the next thing. A device serves one step
/// at a time. A step that several may do is done by one of them, in the same time; a cover is not
/// done by whom it covers.
///
/// Times are whole multiples of `unit`, the greatest common divisor of all durations and lags: of
/// the best plans one is always such a multiple, so nothing is lost. Where that would be more than
/// `finest` units of chair time, the unit is larger: what must lie between two steps is rounded up,
/// what may lie between them down (`rounded`), and a plan is then possible but not proven best.
struct PlanModel {
  static constexpr std::int64_t finest = 8000;

  /// Throws std::invalid_argument when the links run in a circle.
  PlanModel(const Procedure&, const PlanRequest&);

  struct Placed {
    int start = -1;  ///< point; -1: the step does not happen
    int end = -1;    ///< point, and how long after it the step ends
    int end_offset = 0;
    Ms takes{0};      ///< before rounding
    int choice = -1;  ///< who does it, among Step::by; -1: there is no choice
  };

  /// What a resource of the problem is.
  struct Means {
    enum class Kind : std::uint8_t { attention, hands, device } kind = Kind::attention;
    std::size_t index = 0;  ///< of the person or device
  };

  /// The schedule of a plan made from this model.
  Schedule schedule_of(const Plan&) const;
  /// The step a point starts or ends; none for the finish and the like.
  StepIx step_at(int point) const;

  ScheduleProblem problem;
  std::vector<Because> because;  ///< by difference of the problem
  std::vector<Means> means;      ///< by resource of the problem
  std::vector<Placed> placed;    ///< by step
  Ms unit{1};
  bool rounded = false;
  std::vector<StepIx> clinicians_own;           ///< what takes the clinician's attention and nobody
                                                ///< else may do
  int clinician_first = 0, clinician_last = 0;  ///< points around all of it

 private:
  void choose_unit(const Procedure&);
  void place(const Procedure&);
  void add(int from, int to, int lag, Because);
  void add_link(StepIx to, const procedure::Link&);
  void add_needs(StepIx to);
  void exclude_same(StepIx cover, StepIx work);
  void wait_for_signals(StepIx to, StepIx decided);
  void add_covers(StepIx);
  void add_finish();
  void add_people();
  void add_hands(PersonIx);
  void add_devices();
  std::vector<StepIx> first_served() const;
  ScheduleProblem::Interval whole(StepIx, PersonIx) const;
  std::vector<ScheduleProblem::Interval> held_after(StepIx use, PersonIx) const;
  bool lasts(StepIx) const;
  bool happens(StepIx i) const { return placed[i.at()].start >= 0; }
  int up(Ms) const;
  int down(Ms) const;

  const Procedure& procedure_;
  const std::vector<SignalIx> happened_;
  const PhaseIx phase_;
};

}  // namespace beforehand::timing
