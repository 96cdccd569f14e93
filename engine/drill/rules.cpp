// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include <algorithm>

#include "drill/world.hpp"

// "May I?": asked by the screen, the bots and the run alike; "do it" is mechanics.cpp.

namespace beforehand::drill {
namespace {

using procedure::Step;
using procedure::SupplyState;
using procedure::Verb;

Reason may_prepare(const SupplyNow& s) {
  switch (s.state) {
    case SupplyState::set_out:
    case SupplyState::cleaned:
    case SupplyState::soiled:  // possible, and a fault: see mechanics.cpp
    case SupplyState::set:
      return Reason::none;
    case SupplyState::prepared:
      return Reason::already_so;
    default:
      return Reason::not_set_out;
  }
}

Reason may_pass(const procedure::Supply& kind, const SupplyNow& s) {
  if (s.state == SupplyState::set) return Reason::has_set;
  if (s.state == SupplyState::soiled) return Reason::none;  // possible, and a fault
  if (kind.needs_preparing && s.state != SupplyState::prepared) return Reason::not_prepared;
  return Reason::none;
}

Reason may_handle(const Procedure& p, const World& w, PersonIx who, const Step& step) {
  const auto& s = w.supply(step.supply);
  const bool elsewhere = s.holder && s.holder != who;
  if (s.state == SupplyState::discarded) return Reason::gone;
  if (step.verb == Verb::set_out) {
    if (s.state != SupplyState::stored) return Reason::already_so;
    return is_shut_away(p, w, step.supply) ? Reason::shut_away : Reason::none;
  }
  if (s.state == SupplyState::stored) {
    return step.verb == Verb::put_away ? Reason::already_so : Reason::not_set_out;
  }
  const bool on_patient = s.state == SupplyState::in_use && !s.holder;
  if (step.verb == Verb::take_back) {
    if (!elsewhere) return Reason::not_used;
    return s.state == SupplyState::in_use ? Reason::not_here : Reason::none;
  }
  if (elsewhere) return Reason::not_here;
  switch (step.verb) {
    case Verb::open:
    case Verb::mix:
    case Verb::load:
      return may_prepare(s);
    case Verb::pass:
      if (s.offered) return Reason::already_so;
      return on_patient ? Reason::not_here : may_pass(p.supply(step.supply), s);
    case Verb::place:
      return on_patient ? Reason::already_so : Reason::none;
    case Verb::remove:
      return on_patient ? Reason::none : Reason::not_used;
    case Verb::wipe:
      return s.state == SupplyState::soiled ? Reason::none : Reason::not_used;
    case Verb::put_away:
      return on_patient ? Reason::not_here : Reason::none;
    default:
      return Reason::none;
  }
}

// A thing already in the hand needs no second one; an exchange takes the old with the hand that
// offers the new.
int hands_wanted(const World& w, PersonIx who, const Step& step) {
  const auto& holds = w.person(who).holds;
  const bool in_hand = std::find(holds.begin(), holds.end(), step.supply) != holds.end();
  const bool exchange = step.verb == Verb::take_back && !holds.empty();
  return step.hands - (in_hand || exchange ? 1 : 0);
}

bool device_busy(const World& w, const Step& step) {
  return std::any_of(step.devices.begin(), step.devices.end(),
                     [&](DeviceIx d) { return w.device_used[d.at()] != 0; });
}

bool already_at_it(const World& w, ActionIx action) {
  for (const auto& who : w.people) {
    for (const auto& d : who.doing) {
      if (d.action == action) return true;
    }
  }
  return false;
}

}  // namespace

Reason may_i(const Procedure& p, const World& w, PersonIx who, ActionIx action) {
  if (w.over) return Reason::over;
  const auto& kind = p.action(action);
  const auto counted = counts_for(p, w, action);
  const auto& step = p.step(counted ? counted : kind.steps.back());
  if (!p.may_do(who, counted ? counted : kind.steps.back())) return Reason::not_yours;
  if (step.attention && !kind.cover && w.person(who).attention()) return Reason::busy;
  if (already_at_it(w, action)) return Reason::already_so;
  if (kind.supply) {
    const auto reason = may_handle(p, w, who, step);
    if (reason != Reason::none) return reason;
  }
  if (device_busy(w, step)) return Reason::device_in_use;
  return hands_wanted(w, who, step) > free_hands(p, w, who) ? Reason::hands_full : Reason::none;
}

}  // namespace beforehand::drill
