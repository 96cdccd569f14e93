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
#include "stage/ahead.hpp"
#include "stage/captions.hpp"
#include "stage/choice.hpp"
#include "stage/pace.hpp"

namespace beforehand::stage {

/// One drill as a person plays it: the run, the clock that drives it, and its recording. Knows no
/// screen.
class Sitting {
 public:
  /// The procedure and the texts must outlive it. `recording` is the file to write, which must not
  /// exist yet; empty for none. A file that cannot be written does not stop the drill:
  /// recording_problem() says so.
  Sitting(const procedure::Procedure&, const Choice&, std::uint64_t seed, std::string recording,
          const Strings&, const KeyRows& keys = rows_of(Letters::qwerty));

  /// Lets real time pass and plays the drill up to the moment it leads to.
  void pass(std::chrono::microseconds real);

  /// The trainee chooses an action; a cover that is held is stopped instead.
  void choose(ActionIx);
  /// Breaks off what the trainee is doing and forgets what is lined up.
  void break_off();
  /// Ends the drill now; the recording up to here is kept.
  void abandon();

  /// Pausing and pace; neither does anything at the assessed level.
  void set_paused(bool);
  void set_pace(Pace);
  bool may_pause() const { return level() != drill::Level::assessed; }

  /// Plays fast to the next thing that happens although preps are open; only in a stretch marked
  /// for it.
  void skip_ahead();

  drill::Level level() const { return run_.session().setup.level; }
  PersonIx trainee() const { return trainee_; }
  const drill::Run& run() const { return run_; }
  const drill::World& world() const { return run_.world(); }
  const procedure::Procedure& procedure() const { return run_.procedure(); }
  const PaceClock& clock() const { return clock_; }
  bool over() const { return run_.over(); }
  /// It has ended, and nobody left it before.
  bool finished() const { return over() && run_.session().events.back().value != 2; }
  bool lapsing() const { return lapsing_; }
  const std::vector<ActionCard>& cards() const { return cards_; }
  const std::vector<Ahead>& ahead() const { return ahead_; }
  const std::vector<Ahead>& loose() const { return look_ahead_.loose(); }
  const std::vector<timing::Window>& windows() const { return look_ahead_.windows(); }
  /// What was said, shown and told, the latest last.
  const std::vector<Caption>& captions() const { return captions_; }
  const std::string& recording() const { return recording_; }
  /// Why the recording is not complete, or empty.
  const std::string& recording_problem() const { return recording_problem_; }

 private:
  ActionIx lined_up_action() const;
  void submit(drill::Command);
  void take_in();  // what the run has brought since the last time

  const Strings& t_;
  PersonIx trainee_;
  drill::Run run_;
  PaceClock clock_;
  std::vector<ActionCard> cards_;
  LookAhead look_ahead_;
  std::vector<Ahead> ahead_;
  std::vector<Caption> captions_;
  std::size_t events_seen_ = 0;
  bool thanked_ = false;  // the clinician has said the last word
  bool lapsing_ = false, skipping_ = false;
  std::string recording_, recording_problem_;
  std::unique_ptr<drill::RecordingWriter> writer_;
};

}  // namespace beforehand::stage
