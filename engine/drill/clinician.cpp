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
  Ms enabled = need.from ? enabled_at(p, w, need.from) : never;
  if (need.supply && enabled != never && w.supply(need.supply).prepared_at != never)
    enabled = std::max(enabled, w.supply(need.supply).prepared_at);  // made anew
  return enabled == never ? limit_reached : std::max(limit_reached, enabled + courtesy);
}

// From when a step that somebody else is preferred for may be taken over.
Ms take_over_at(const Procedure& p, const World& w, StepIx ix, PersonIx me) {
  const Ms enabled = enabled_at(p, w, ix);
  return enabled == never ? never : std::max(enabled, w.person(me).free_since) + p.patience;
}

// Under a cover that has stopped: the work rests, and he can speak and fetch.
bool is_paused(const Doing& d) { return !d.helping && d.ends == never; }

bool is_helping(const World& w, PersonIx me) {
  const auto& doing = w.person(me).doing;
  return std::any_of(doing.begin(), doing.end(), [](const Doing& d) { return d.helping; });
}

// What the clinician does next about a need of the awaited step, and from when; never: nothing.
struct Resort {
  Op op = Op::ask;
  Ms at = never;
};

Resort resort_for(const Procedure& p, const World& w, StepIx ix, std::size_t which, PersonIx me) {
  const auto& need = p.step(ix).needs[which];
  if (is_met(p, w, ix, need, me)) return {};
  const Op op = w.need_asked[w.need_index(ix, which)] ? Op::help : Op::ask;
  if (op == Op::help && is_helping(w, me)) return {};
  const Ms patience = op == Op::help ? p.self_help : p.patience;
  const Ms limit = being_served(p, w, need, me) ? hard_limit * p.patience : patience;
  return {op, fair_from(p, w, need, patience_from(w.step(ix)) + limit)};
}

// The same about what somebody keeps from the awaited step, which lacks nothing else.
Resort resort_for_kept(const Procedure& p, const World& w, StepIx ix, PersonIx me) {
  const auto& needs = p.step(ix).needs;
  const bool lacks = std::any_of(needs.begin(), needs.end(),
                                 [&](const Need& n) { return !is_met(p, w, ix, n, me); });
  if (lacks || !kept_from(p, w, ix, me).by) return {};
  const Op op = w.step(ix).kept_asked ? Op::help : Op::ask;
  return {op, patience_from(w.step(ix)) + (op == Op::help ? p.self_help : p.patience)};
}

Resort resort_for_any(const Procedure& p, const World& w, StepIx ix, std::size_t which,
                      PersonIx me) {
  return which < p.step(ix).needs.size() ? resort_for(p, w, ix, which, me)
                                         : resort_for_kept(p, w, ix, me);
}

}  // namespace

bool ScriptedClinician::decide(const Procedure& p, const World& w, Command& out) {
  const auto* at = w.person(me_).attention();
  if (at && !is_paused(*at)) return false;
  if (!at && start_something(p, w, out)) return true;
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
  for (std::size_t i = 0; i <= p.step(ix).needs.size(); ++i) {
    const auto resort = resort_for_any(p, w, ix, i, me_);
    if (resort.at > w.now) continue;
    out.op = resort.op;
    out.step = ix;
    out.need = static_cast<std::uint8_t>(i);
    return true;
  }
  return false;
}

Ms ScriptedClinician::wake(const Procedure& p, const World& w) {
  const auto* at = w.person(me_).attention();
  if (at && !is_paused(*at)) return never;
  // That he stands still is known only once the moment is closed; what has been due for longer, as
  // the next thing when he comes back from fetching one, is due at once.
  const Ms at_once = w.now + Ms{1};
  Ms next = never;
  if (const auto ix = w.awaited) {
    for (std::size_t i = 0; i <= p.step(ix).needs.size(); ++i) {
      next = std::min(next, std::max(at_once, resort_for_any(p, w, ix, i, me_).at));
    }
  }
  if (at) return next;
  for (std::size_t i = first_open_; i < w.steps.size(); ++i) {
    const StepIx ix{i};
    const auto& step = p.step(ix);
    if (w.steps[i].state != StepState::waiting || step.by.front() == me_) continue;
    if (step.by.size() == 1 || !p.may_do(me_, ix)) continue;
    const Ms takes_over = take_over_at(p, w, ix, me_);
    if (takes_over > w.now) next = std::min(next, takes_over);
  }
  return next;
}

}  // namespace beforehand::drill
