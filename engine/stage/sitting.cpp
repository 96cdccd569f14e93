// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/sitting.hpp"

#include <utility>

#include "drill/cast.hpp"

namespace beforehand::stage {
namespace {

using drill::Command;
using drill::Op;
using procedure::Role;

drill::Setup setup_for(const Choice& choice, std::uint64_t seed) {
  drill::Setup setup;
  setup.seed = seed;
  setup.level = choice.level;
  if (choice.part > 0) setup.phase = PhaseIx{choice.part - 1};
  setup.trainee = choice.name;
  setup.assistant = "human";
  return setup;
}

}  // namespace

Sitting::Sitting(const procedure::Procedure& procedure, const Choice& choice, std::uint64_t seed,
                 std::string recording, const Strings& t, const KeyRows& keys)
    : t_(t),
      trainee_(procedure.who(Role::assistant)),
      run_(procedure, setup_for(choice, seed)),
      clock_(choice.played_pace()),
      cards_(action_cards(procedure, trainee_, t, keys)),
      look_ahead_(procedure, trainee_),
      recording_(std::move(recording)) {
  drill::cast_around(run_, trainee_);
  if (!recording_.empty()) try {
      writer_ = std::make_unique<drill::RecordingWriter>(recording_, procedure, run_.session());
    } catch (const drill::RecordingError& error) {
      recording_problem_ = error.what();
    }
  take_in();
}

void Sitting::skip_ahead() {
  if (over()) return;
  skipping_ =
      lapse_until(procedure(), world(), trainee_, {}, run_.next_moment(), Ms{0}) > run_.now();
  if (!skipping_) captions_.push_back({Caption::Kind::told, t_("told.no-lapse"), run_.now()});
}

void Sitting::pass(std::chrono::microseconds real) {
  if (over()) return;
  const Ms now = run_.now();
  const Ms margin = skipping_ ? Ms{0} : Ms{4000};
  static const std::vector<Ahead> nothing_open;
  const Ms until = lapse_until(procedure(), world(), trainee_, skipping_ ? nothing_open : ahead_,
                               run_.next_moment(), margin);
  lapsing_ = until > now && !clock_.paused();
  if (!lapsing_) skipping_ = false;
  const Ms then = clock_.pass(real, until);
  if (then > now) run_.advance_to(then);
  take_in();
}

void Sitting::submit(Command command) {
  if (over()) return;
  command.at = run_.now();
  command.person = trainee_;
  const auto lined_up = lined_up_action();
  run_.submit(command);
  skipping_ = false;
  take_in();
  const auto instead = lined_up_action();
  if (lined_up && instead && lined_up != instead)
    captions_.push_back({Caption::Kind::told,
                         t_("told.lined-up-instead", {title_of(procedure(), instead, t_),
                                                      title_of(procedure(), lined_up, t_)}),
                         run_.now()});
}

ActionIx Sitting::lined_up_action() const {
  const auto& next = world().person(trainee_).lined_up;
  return next ? next->action : ActionIx{};
}

void Sitting::choose(ActionIx action) {
  Command command;
  command.op = card_now(procedure(), world(), trainee_, action).held ? Op::stop : Op::act;
  command.action = action;
  submit(command);
}

void Sitting::break_off() {
  Command command;
  command.op = Op::break_off;
  submit(command);
}

void Sitting::abandon() {
  if (!over()) run_.abandon();
  take_in();
}

void Sitting::set_paused(bool paused) {
  if (may_pause()) clock_.set_paused(paused);
}

void Sitting::set_pace(Pace pace) {
  if (may_pause()) clock_.set_pace(pace);
}

void Sitting::take_in() {
  const auto& events = run_.session().events;
  for (; events_seen_ < events.size(); ++events_seen_)
    for (auto& caption : captions_of(procedure(), events[events_seen_], trainee_, t_))
      captions_.push_back(std::move(caption));
  const bool done = over() ? finished() : world().closing_at != never;
  if (done && !thanked_) {
    thanked_ = true;
    captions_.push_back({Caption::Kind::said, t_("drill.thanks"), run_.now()});
  }
  ahead_ = look_ahead_.find(world());
  if (writer_) try {
      writer_->append(run_.session());
    } catch (const drill::RecordingError& error) {
      recording_problem_ = error.what();
      writer_.reset();
    }
}

}  // namespace beforehand::stage
