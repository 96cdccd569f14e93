// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "drill/world.hpp"

#include <algorithm>

#include "base/random.hpp"
#include "procedure/relations.hpp"

namespace beforehand::drill {

using procedure::Anchor;
using procedure::Link;
using procedure::Need;
using procedure::Step;
using procedure::SupplyState;
using procedure::Verb;

namespace {

bool is_need(const Step& step, const Link& link) {
  for (const auto& n : step.needs) {
    if (n.from == link.step) return true;
  }
  return false;
}

// The moment from which a link lets its step go; never while it does not. A skipped step holds
// nobody up.
Ms opens(const World& w, const Link& link) {
  const auto& before = w.step(link.step);
  if (before.state == StepState::skipped) return Ms{0};
  if (link.from == Anchor::start) {
    return before.started == never ? never : before.started + link.at_least;
  }
  return before.state == StepState::done ? before.ended + link.at_least : never;
}

bool signals_allow(const World& w, const Step& step) {
  for (const auto s : step.when) {
    if (w.signals[s.at()] != SignalState::happened) return false;
  }
  for (const auto s : step.unless) {
    if (w.signals[s.at()] != SignalState::passed) return false;
  }
  return true;
}

// Whether the step that a signal hangs on, and that has not been done, comes with this need.
bool decides(const Procedure& p, const World& w, const Need& need, SignalIx signal) {
  const auto after = p.signal(signal).after;
  if (!need.from || w.signals[signal.at()] != SignalState::open || w.finished(after)) return false;
  return signals_allow(w, p.step(need.from)) &&
         (need.from == after || p.precedes(after, need.from));
}

bool decides_any(const Procedure& p, const World& w, const Step& step, const Need& need) {
  const auto decided = [&](SignalIx s) { return decides(p, w, need, s); };
  return std::any_of(step.when.begin(), step.when.end(), decided) ||
         std::any_of(step.unless.begin(), step.unless.end(), decided);
}

// Whether nothing but needs keeps the step's signals from being known.
bool may_be_decided(const Procedure& p, const World& w, const Step& step) {
  const auto all = [&](const auto& signals, SignalState wanted) {
    return std::all_of(signals.begin(), signals.end(), [&](SignalIx s) {
      return w.signals[s.at()] == wanted ||
             std::any_of(step.needs.begin(), step.needs.end(),
                         [&](const Need& n) { return decides(p, w, n, s); });
    });
  };
  return all(step.when, SignalState::happened) && all(step.unless, SignalState::passed);
}

// What had set is made and handed over once more, and counts for no step.
bool is_made_anew(const Procedure& p, const Doing& d, const Need& need) {
  const auto verb = p.action(d.action).verb;
  return need.supply && d.supply == need.supply &&
         (procedure::prepares(verb) || verb == Verb::pass);
}

bool at_work_on(const Procedure& p, const Doing& d, const Need& need) {
  if (d.helping) return false;
  if (!d.step) return d.action && is_made_anew(p, d, need);
  if (d.step == need.from) return true;
  return p.precedes(d.step, need.from) && need.supply && p.step(d.step).supply == need.supply;
}

}  // namespace

int free_hands(const Procedure& p, const World& w, PersonIx who) {
  const auto& person = w.person(who);
  auto taken = static_cast<int>(person.holds.size());
  for (const auto& d : person.doing) taken += d.hands;
  return p.person(who).hands - taken;
}

PersonIx covering(const Procedure& p, const World& w, StepIx cover_step, Ms* since) {
  const auto action = p.action_of[cover_step.at()];
  for (std::size_t i = 0; i < w.people.size(); ++i) {
    for (const auto& d : w.people[i].doing) {
      if (d.cover && d.action == action) {
        if (since) *since = d.started;
        return PersonIx{i};
      }
    }
  }
  return {};
}

bool is_met(const Procedure& p, const World& w, StepIx step, const Need& need, PersonIx by) {
  // Before it is known whether a step takes place, it wants only what lets it be known.
  if (!signals_allow(w, p.step(step))) return !decides_any(p, w, p.step(step), need);
  const auto position = static_cast<std::size_t>(&need - p.step(step).needs.data());
  if (w.need_helped[w.need_index(step, position)] && need.kind != Need::Kind::supply) return true;
  if (need.from && w.step(need.from).state == StepState::skipped) return true;
  switch (need.kind) {
    case Need::Kind::done:
      return w.finished(need.from) ||
             (w.step(need.from).started != never && start_suffices(p.step(step), need));
    case Need::Kind::cover: {
      const auto who = covering(p, w, need.from);
      return who && who != by;
    }
    case Need::Kind::supply:
      break;
  }
  const auto& s = w.supply(need.supply);
  if (s.state == SupplyState::set) return false;
  return s.ready_at != never && (s.holder == by || s.offered);
}

bool is_shut_away(const Procedure& p, const World& w, SupplyIx supply) {
  const auto& s = w.supply(supply);
  if (s.state != SupplyState::stored || !s.place) return false;
  const auto outer = p.place(s.place).inside;
  return outer && w.supply(outer).state == SupplyState::stored;
}

StepIx counts_for(const Procedure& p, const World& w, ActionIx action) {
  for (const auto s : p.action(action).steps) {
    if (w.step(s).state == StepState::waiting) return s;
  }
  return {};
}

Ms enabled_at(const Procedure& p, const World& w, StepIx step) {
  Ms last{0};
  for (const auto& link : p.step(step).after) last = std::max(last, opens(w, link));
  return last;
}

bool conditions_hold(const Procedure& p, const World& w, StepIx ix, bool with_needs, Ms& from) {
  const auto& step = p.step(ix);
  from = never;
  if (!signals_allow(w, step) && (with_needs || !may_be_decided(p, w, step))) return false;
  Ms last{0};
  for (const auto& link : step.after) {
    const Ms opened = opens(w, link);
    if (opened != never) {
      last = std::max(last, opened);
    } else if (with_needs || !is_need(step, link)) {
      return false;
    }
  }
  if (last <= w.now) return true;
  from = last;
  return false;
}

bool tools_free(const Procedure& p, const World& w, StepIx ix, PersonIx who) {
  const auto& step = p.step(ix);
  for (const auto d : step.devices) {
    if (w.device_used[d.at()]) return false;
  }
  if (!step.supply || step.is_cover()) return true;
  const auto holder = w.supply(step.supply).holder;
  return !holder || holder == who;
}

namespace {

StepIx model_of(const Procedure& p, const Doing& d) {
  return d.step ? d.step : p.action(d.action).steps.back();
}

bool share_device(const Step& a, const Step& b) {
  return std::any_of(a.devices.begin(), a.devices.end(), [&](DeviceIx d) {
    return std::find(b.devices.begin(), b.devices.end(), d) != b.devices.end();
  });
}

// What holds out a supply, or else what is done with it.
ActionIx action_on(const Procedure& p, SupplyIx supply) {
  ActionIx any;
  for (std::size_t a = 0; a < p.actions.size(); ++a) {
    if (p.actions[a].supply != supply) continue;
    if (p.actions[a].verb == Verb::pass) return ActionIx{a};
    if (!any) any = ActionIx{a};
  }
  return any;
}

}  // namespace

Kept kept_from(const Procedure& p, const World& w, StepIx ix, PersonIx who) {
  const auto& step = p.step(ix);
  const auto wanted = step.is_cover() ? SupplyIx{} : step.supply;
  for (std::size_t i = 0; i < w.people.size(); ++i) {
    if (PersonIx{i} == who) continue;
    for (const auto& d : w.people[i].doing) {
      if (!d.cover) continue;
      if ((wanted && d.supply == wanted) || share_device(p.step(model_of(p, d)), step))
        return {PersonIx{i}, d.action, d.supply};
    }
    for (const auto s : w.people[i].holds) {
      if (s == wanted) return {PersonIx{i}, action_on(p, s), s};
    }
  }
  return {};
}

bool being_served(const Procedure& p, const World& w, const Need& need, PersonIx apart_from) {
  if (!need.from) return false;
  for (std::size_t i = 0; i < w.people.size(); ++i) {
    if (PersonIx{i} == apart_from) continue;
    for (const auto& d : w.people[i].doing) {
      if (at_work_on(p, d, need)) return true;
    }
  }
  return false;
}

void chain_for(const Procedure& p, const World& w, const Need& need, std::vector<StepIx>& out) {
  out.clear();
  if (!need.from) return;
  for (const auto s : p.topological) {
    if (s != need.from && !p.precedes(s, need.from)) continue;
    const bool open = w.step(s).state == StepState::waiting || w.step(s).state == StepState::doing;
    const bool of_clinician = p.person(p.step(s).by.front()).role == procedure::Role::clinician;
    if (open && !of_clinician) out.push_back(s);
  }
}

std::uint64_t checksum(const World& w) {
  std::uint64_t h = mix64(static_cast<std::uint64_t>(w.now.count()));
  const auto add = [&h](auto... v) { ((h = mix64(h ^ static_cast<std::uint64_t>(v))), ...); };
  for (const auto& s : w.steps) add(s.state, s.by.value, s.started.count(), s.ended.count());
  for (const auto& s : w.supplies) add(s.state, s.place.value, s.holder.value, s.sets_at.count());
  for (const auto& who : w.people) {
    add(who.gloves_soiled, who.holds.size());
    for (const auto& d : who.doing) add(d.action.value, d.step.value, d.ends.count());
  }
  for (const auto s : w.signals) add(s);
  add(w.field.to_ullong(), w.filled, w.over);
  return h;
}

}  // namespace beforehand::drill
