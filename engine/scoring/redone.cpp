// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "scoring/redone.hpp"

#include <algorithm>

namespace beforehand::scoring {

using drill::Event;
using drill::What;
using Outcome = Action::Outcome;

StepIx user_of(const Procedure& p, const Trace& t, StepIx prep, Ms at) {
  for (std::size_t s = 0; s < p.steps.size(); ++s)
    for (const auto& need : p.steps[s].needs)
      if (need.prepared_by == prep && !t.steps[s].skipped && t.steps[s].ended > at)
        return StepIx{s};
  return {};
}

const Action* made_what_set(const Frame& f, const Session& s, const Trace& t, const Event& set) {
  const Event* prepared = nullptr;
  for (const auto position : t.noted) {
    const Event& e = s.events[position];
    if (&e == &set) break;
    if (e.what == What::prepared && e.supply == set.supply) prepared = &e;
  }
  if (prepared == nullptr || prepared->person != f.whom) return nullptr;
  const auto made = std::find_if(t.actions.begin(), t.actions.end(), [&](const Action& a) {
    return a.supply == set.supply && a.to == prepared->at && a.step &&
           procedure::prepares(f.procedure.action(a.action).verb);
  });
  return made == t.actions.end() ? nullptr : &*made;
}

namespace {

class Redone {
 public:
  Redone(const Frame& f, const Session& s, Trace& t) : f_(f), p_(f.procedure), s_(s), t_(t) {}

  void find() {
    for (const auto position : t_.noted)
      if (const Event& e = s_.events[position]; e.what == What::has_set) has_set(e);
  }

 private:
  /// What is spent is the last making of the supply, and its hand-over, when it set before the step
  /// it was made for had begun.
  void has_set(const Event& e) {
    const Action* made = made_what_set(f_, s_, t_, e);
    if (made == nullptr) return;
    const StepIx user = user_of(p_, t_, made->step, e.at);
    if (!user || t_.steps[user.at()].started <= e.at) return;
    const Ms since = made->from;
    for (std::size_t i = 0; i < t_.actions.size(); ++i) {
      Action& a = t_.actions[i];
      const bool in_between = a.from >= since && a.to <= e.at && a.supply == e.supply;
      if (!in_between || a.outcome != Outcome::effect || !a.step) continue;
      a.spent = true;
      do_again(i, e.at);
    }
  }

  /// The next action of the kind does the spent one's step again, and the ones after it move up by
  /// one, until the one that the drill let count for nothing.
  void do_again(std::size_t spent, Ms at) {
    std::vector<std::size_t> again;
    for (std::size_t i = spent + 1; i < t_.actions.size(); ++i) {
      const Action& a = t_.actions[i];
      if (a.action != t_.actions[spent].action || a.from < at || a.outcome != Outcome::effect)
        continue;
      again.push_back(i);
      if (!a.step) break;
    }
    if (again.empty() || t_.actions[again.back()].step) return;
    StepIx step = t_.actions[spent].step;
    for (const std::size_t i : again) {
      Action& a = t_.actions[i];
      std::swap(step, a.step);
      a.again = true;
      a.too_soon = too_soon(a);
      t_.steps[a.step.at()].started = a.from;
      t_.steps[a.step.at()].acted = a.to;
    }
  }

  /// As in the trace, told afterwards: a step of somebody else's that must come first had not
  /// begun.
  bool too_soon(const Action& a) const {
    for (std::size_t s = 0; s < p_.steps.size(); ++s) {
      const StepTrace& first = t_.steps[s];
      const bool waiting = first.started > a.from && first.ended > a.from && !first.skipped;
      if (waiting && !f_.prefers_trainee(StepIx{s}) && in_scope(p_, s_, StepIx{s}) &&
          p_.precedes(StepIx{s}, a.step))
        return true;
    }
    return false;
  }

  const Frame& f_;
  const Procedure& p_;
  const Session& s_;
  Trace& t_;
};

}  // namespace

void find_redone(const Frame& frame, const Session& session, Trace& trace) {
  Redone(frame, session, trace).find();
}

}  // namespace beforehand::scoring
