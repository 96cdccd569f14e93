// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <chrono>
#include <memory>
#include <string>
#include <vector>

#include "drill/recording.hpp"
#include "drill/run.hpp"
#include "stage/action_cards.hpp"

namespace beforehand::stage {

/// A rehearsal of a team at one machine: any role played by a person, the others by the program;
/// timed, or talked through, when time passes only when somebody lets it. Knows no screen.
class Rehearsal {
 public:
  /// One thing a person can choose now.
  struct Option {
    drill::Command command;
    std::string title;
    std::string why_not;    ///< empty: it can be done now
    bool going_on = false;  ///< choosing it again ends it, where it can be ended
    Ms since = never;
  };
  struct Plan {
    std::vector<bool> human;  ///< by person
    bool timed = true;
    std::uint64_t seed = 1;
    std::string recording;  ///< the file to write, which must not exist yet; empty: none
  };

  /// Procedure and texts must outlive it.
  Rehearsal(const procedure::Procedure&, Plan, const Strings&);

  /// Lets real time pass; nothing happens when it is talked through or paused.
  void pass(std::chrono::microseconds real);
  /// Lets happen what happens next: for talking through.
  void let_happen();

  /// What the person is at, then what comes next in the file's order, then asking and helping.
  std::vector<Option> options(PersonIx, std::size_t most, std::size_t skip) const;
  void choose(PersonIx, const Option&);
  void break_off(PersonIx);
  /// The rehearsal leader lets a signal come at its moment.
  void raise(SignalIx);
  void abandon();

  void set_paused(bool paused) { paused_ = paused; }
  bool paused() const { return paused_; }
  bool timed() const { return plan_.timed; }
  bool human(PersonIx who) const { return plan_.human[who.at()]; }
  bool over() const { return run_.over(); }
  const drill::Run& run() const { return run_; }
  const procedure::Procedure& procedure() const { return run_.procedure(); }
  const std::string& recording() const { return plan_.recording; }
  /// Why the recording is not complete, or empty.
  const std::string& recording_problem() const { return problem_; }

 private:
  void submit(PersonIx, drill::Command);
  void keep();
  bool may_come(StepIx) const;
  void add_going_on(PersonIx, std::vector<Option>&) const;
  Option own_step(PersonIx, StepIx) const;
  Option action(PersonIx, ActionIx, StepIx) const;
  void add_asking(PersonIx, std::vector<Option>&) const;
  void add_asking_for_kept(PersonIx, std::vector<Option>&) const;

  const Strings& t_;
  Plan plan_;
  drill::Run run_;
  std::unique_ptr<drill::RecordingWriter> writer_;
  std::string problem_;
  std::chrono::microseconds rest_{0};
  bool paused_ = false;
};

}  // namespace beforehand::stage
