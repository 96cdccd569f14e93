// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "drill/run.hpp"

#include <algorithm>
#include <cassert>

namespace beforehand::drill {
namespace {

constexpr Ms longest_drill{6 * 3'600'000};
constexpr int most_decisions_at_once = 1000;

Session begin_session(const Procedure& p, Setup setup) {
  Session s;
  s.setup = std::move(setup);
  s.scenario = p.id;
  s.fingerprint = p.fingerprint;
  s.commands.reserve(4 * p.steps.size());
  s.events_before.reserve(4 * p.steps.size());
  s.events.reserve(8 * p.steps.size());
  return s;
}

}  // namespace

Run::Run(const Procedure& procedure, Setup setup)
    : procedure_(procedure),
      session_(begin_session(procedure, std::move(setup))),
      mechanics_(procedure_, world_, session_),
      controllers_(procedure.people.size()) {}

void Run::control(PersonIx person, std::unique_ptr<Controller> controller) {
  assert(session_.events.empty());
  controllers_[person.at()] = std::move(controller);
}

void Run::submit(Command command) {
  if (world_.over) return;
  command.at = world_.now;
  mechanics_.apply(command);
  changed_ = true;
}

// Asks everybody, in order, until nobody has more to decide at this moment.
void Run::settle() {
  int decisions = 0;
  while (changed_ && !world_.over) {
    changed_ = false;
    for (std::size_t i = 0; i < controllers_.size() && !changed_; ++i) {
      Command c;
      if (!controllers_[i] || !controllers_[i]->decide(procedure_, world_, c)) continue;
      c.person = PersonIx{i};
      submit(c);
    }
    if (++decisions > most_decisions_at_once) return mechanics_.end(1);
  }
}

Ms Run::next_wake() const {
  Ms next = never;
  for (const auto& c : controllers_) {
    if (c) next = std::min(next, c->wake(procedure_, world_));
  }
  return next;
}

Ms Run::next_moment() const {
  return world_.over ? never : std::min(mechanics_.next_moment(), next_wake());
}

void Run::advance_to(Ms t) {
  while (!world_.over) {
    settle();
    if (world_.over) return;
    const Ms due = mechanics_.next_moment();
    if (due <= world_.now) {
      mechanics_.fire();
      changed_ = true;
      continue;
    }
    if (world_.now >= t) return;
    mechanics_.stand_still();
    const Ms next = std::min(due, next_wake());
    world_.now = std::min(next, t);
    if (next > t) continue;
    mechanics_.fire();
    changed_ = true;
    if (world_.now >= longest_drill) mechanics_.end(1);
  }
}

void Run::play_out() {
  advance_to(longest_drill);
  if (const Ms next = next_moment(); next != never) advance_to(next);
  mechanics_.end(1);
}

void Run::abandon() { mechanics_.end(2); }

}  // namespace beforehand::drill
