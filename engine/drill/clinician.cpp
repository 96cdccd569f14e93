// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "drill/clinician.hpp"

#include <algorithm>

namespace beforehand::drill {

using procedure::Need;

namespace {

constexpr Ms courtesy{2000};    // for a hand-over that has only just become possible; our own value
constexpr int hard_limit = 10;  // in patiences: helps himself even while somebody is at it

bool can_start(const Procedure& p, const World& w, StepIx ix, PersonIx me) {
  Ms unused;
  if (!conditions_hold(p, w, ix, false, unused) || !tools_free(p, w, ix, me)) return false;
  const auto& needs = p.step(ix).needs;
  return std::all_of(needs.begin(), needs.end(),
                     [&](const Need& n) { return is_met(p, w, ix, n, me); });
}

// From when standing still counts.
Ms patience_from(const StepProgress& awaited) {
  return std::max(awaited.awaited - awaited.waited, awaited.due);
}

// Nobody is asked for what could only just be done: from when asking is fair.
Ms fair_from(const Procedure& p, const World& w, const Need& need, Ms limit_reached) {
  const Ms enabled = need.from ? enabled_at(p, w, need.from) : never;
  return enabled == never ? limit_reached : std::max(limit_reached, enabled + courtesy);
}

// From when a step that somebody else is preferred for may be taken over.
Ms take_over_at(const Procedure& p, const World& w, StepIx ix, PersonIx me) {
  const Ms enabled = enabled_at(p, w, ix);
  return enabled == never ? never : std::max(enabled, w.person(me).free_since) + p.patience;
}

}  // namespace

bool ScriptedClinician::decide(const Procedure& p, const World& w, Command& out) {
  const auto* at = w.person(me_).attention();
  const bool paused = at && !at->helping && at->ends == never;
  if (at && !paused) return false;
  if (!paused && start_something(p, w, out)) return true;
  return w.awaited && speak_or_help(p, w, w.awaited, out);
}

bool ScriptedClinician::start_something(const Procedure& p, const World& w, Command& out) {
  while (first_open_ < w.steps.size() && w.finished(StepIx{first_open_})) ++first_open_;
  for (std::size_t i = first_open_; i < w.steps.size(); ++i) {
    const StepIx ix{i};
    if (w.steps[i].state != StepState::waiting || !p.may_do(me_, ix)) continue;
    if (!can_start(p, w, ix, me_)) continue;
    if (p.step(ix).by.front() != me_ && w.now < take_over_at(p, w, ix, me_)) continue;
    out.op = Op::begin;
    out.step = ix;
    return true;
  }
  return false;
}

bool ScriptedClinician::speak_or_help(const Procedure& p, const World& w, StepIx ix, Command& out) {
  const auto& progress = w.step(ix);
  const Ms zero = patience_from(progress);
  const auto& needs = p.step(ix).needs;
  for (std::size_t i = 0; i < needs.size(); ++i) {
    const auto at = w.need_index(ix, i);
    if (w.need_helped[at] || is_met(p, w, ix, needs[i], me_)) continue;
    const bool served = being_served(p, w, needs[i], me_);
    out.step = ix;
    out.need = static_cast<std::uint8_t>(i);
    if (!w.need_asked[at] && fair_from(p, w, needs[i], zero + p.patience) <= w.now && !served) {
      out.op = Op::ask;
      return true;
    }
    const bool helping = std::any_of(w.person(me_).doing.begin(), w.person(me_).doing.end(),
                                     [](const Doing& d) { return d.helping; });
    const Ms limit = served ? hard_limit * p.patience : p.self_help;
    const bool long_enough = fair_from(p, w, needs[i], zero + limit) <= w.now;
    if (!helping && w.need_asked[at] && long_enough) {
      out.op = Op::help;
      return true;
    }
  }
  return false;
}

Ms ScriptedClinician::wake(const Procedure& p, const World& w) {
  Ms next = never;
  const auto later = [&](Ms t) {
    if (t > w.now) next = std::min(next, t);
  };
  if (const auto ix = w.awaited) {
    const auto& progress = w.step(ix);
    const Ms zero = patience_from(progress);
    for (const Ms limit : {p.patience, p.self_help, hard_limit * p.patience}) {
      for (const auto& need : p.step(ix).needs) later(fair_from(p, w, need, zero + limit));
    }
  }
  if (w.person(me_).attention()) return next;
  for (std::size_t i = first_open_; i < w.steps.size(); ++i) {
    const StepIx ix{i};
    const auto& step = p.step(ix);
    if (w.steps[i].state != StepState::waiting || step.by.front() == me_) continue;
    if (step.by.size() > 1 && p.may_do(me_, ix)) later(take_over_at(p, w, ix, me_));
  }
  return next;
}

}  // namespace beforehand::drill
