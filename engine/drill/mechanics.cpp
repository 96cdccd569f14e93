// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "drill/mechanics.hpp"

#include <algorithm>

#include "drill/durations.hpp"

namespace beforehand::drill {

using procedure::Anchor;
using procedure::Link;
using procedure::PlaceKind;
using procedure::SupplyState;
using procedure::Verb;

// ---- bookkeeping -------------------------------------------------------------------------------

Event Mechanics::about(What what, PersonIx person, StepIx step) const {
  Event e;
  e.at = world_.now;
  e.what = what;
  e.person = person;
  e.step = step;
  return e;
}

Ms Mechanics::length(StepIx s) {
  return draw_duration(p_.step(s), names_[s.at()], session_.setup.seed,
                       world_.steps[s.at()].begun++);
}

void Mechanics::devices(StepIx s, bool taken) {
  for (const auto d : p_.step(s).devices) world_.device_used[d.at()] = taken ? 1 : 0;
}

void Mechanics::release(SupplyIx s, PlaceIx place, SupplyState state) {
  auto& now = world_.supplies[s.at()];
  now.holder = {};
  now.offered = false;
  now.ready_at = never;
  now.place = place;
  now.state = state;
}

// Where a supply in this state lies; nowhere while it is on the patient.
PlaceIx Mechanics::place_for(SupplyIx s, SupplyState state) const {
  const auto& kind = p_.supply(s);
  switch (state) {
    case SupplyState::stored:
      return kind.stored;
    case SupplyState::in_use:
      return {};
    case SupplyState::soiled:
      return soiled_place_ ? soiled_place_ : kind.at;
    default:
      return kind.at;
  }
}

void Mechanics::put_down(PersonIx who, SupplyIx supply) {
  std::erase(world_.people[who.at()].holds, supply);
  const auto state = world_.supply(supply).state;
  release(supply, place_for(supply, state), state);
}

void Mechanics::back_to_waiting(StepIx s) {
  if (!s || world_.step(s).state == StepState::done) return;
  world_.steps[s.at()].state = StepState::waiting;
  world_.steps[s.at()].started = never;
}

void Mechanics::timers_for(StepIx s, Anchor anchor) {
  if (!lags_after_[s.at()]) return;
  for (const auto& step : p_.steps) {
    for (const auto& link : step.after) {
      if (link.step != s || link.from != anchor || link.at_least <= Ms{0}) continue;
      const Ms at = world_.now + link.at_least;
      timers_.insert(std::upper_bound(timers_.begin(), timers_.end(), at), at);
    }
  }
}

void Mechanics::attention_free(PersonIx who) {
  auto& person = world_.people[who.at()];
  person.free_since = world_.now;
  if (!person.lined_up) return;
  const Command next = *person.lined_up;
  person.lined_up.reset();
  act(next);
}

// ---- commands ----------------------------------------------------------------------------------

void Mechanics::apply(const Command& c) {
  session_.commands.push_back(c);
  session_.events_before.push_back(static_cast<std::uint32_t>(session_.events.size()));
  switch (c.op) {
    case Op::act:
      return act(c);
    case Op::stop:
      return stop(c.person, c.action);
    case Op::break_off:
      return break_off(c.person);
    case Op::begin:
      return begin(c.person, c.step);
    case Op::ask:
      return ask(c.person, c.step, c.need);
    case Op::help:
      return help(c.person, c.step, c.need);
    case Op::raise:
      world_.signal_raised[c.signal.at()] = 1;
      if (auto& due = world_.signal_due[c.signal.at()]; due != never) due = world_.now;
  }
}

void Mechanics::act(const Command& c) {
  const auto reason = may_i(p_, world_, c.person, c.action);
  if (reason == Reason::none) return start_action(c.person, c.action);
  auto e = about(What::refused, c.person);
  e.action = c.action;
  e.value = static_cast<std::int64_t>(reason);
  if (reason == Reason::busy) {
    world_.people[c.person.at()].lined_up = c;
    e.what = What::lined_up;
    e.value = 0;
  }
  emit(e);
}

// ---- actions -----------------------------------------------------------------------------------

void Mechanics::start_action(PersonIx who, ActionIx action) {
  const auto& kind = p_.action(action);
  const auto counted = counts_for(p_, world_, action);
  const auto model = counted ? counted : kind.steps.back();
  const auto& step = p_.step(model);
  auto& person = world_.people[who.at()];

  note_premature(who, action, counted);
  note_soiled(who, model, kind.verb, kind.supply);
  Doing d;
  d.action = action;
  d.step = counted;
  d.supply = kind.supply;
  d.cover = kind.cover;
  d.attention = step.attention && !kind.cover;
  d.started = world_.now;
  std::erase(person.holds, kind.supply);
  d.hands = std::min(step.hands, free_hands(p_, world_, who));  // an exchange needs no more
  if (!kind.cover) d.ends = world_.now + length(model);
  if (kind.supply && kind.verb != Verb::take_back) {
    auto& s = world_.supplies[kind.supply.at()];
    s.holder = who;
    s.offered = false;
    s.ready_at = never;
  }
  devices(model, true);
  person.doing.push_back(d);

  auto e = about(kind.cover ? What::cover_started : What::action_started, who, counted);
  e.action = action;
  e.supply = kind.supply;
  e.value = kind.cover ? 0 : (d.ends - world_.now).count();
  emit(e);
  if (counted) {
    auto& progress = world_.steps[counted.at()];
    progress.state = StepState::doing;
    progress.by = who;
    progress.started = world_.now;
    timers_for(counted, Anchor::start);
    plan_signals(counted, Anchor::start);
  }
  if (kind.cover) resume_covered();
}

void Mechanics::note_premature(PersonIx who, ActionIx action, StepIx step) {
  if (!step) return;
  const Link* broken = nullptr;
  for (const auto& link : p_.step(step).after) {
    const auto& before = world_.step(link.step);
    const bool open = link.from == Anchor::start
                          ? before.started == never && before.state != StepState::skipped
                          : !world_.finished(link.step);
    if (open && (!broken || (link.unsafe && !broken->unsafe))) broken = &link;
  }
  if (!broken) return;
  auto e = about(What::unready_start, who, step);
  e.action = action;
  e.cause = broken->step;
  e.value = broken->unsafe ? 1 : 0;
  emit(e);
}

// Clean may not touch soiled: reaching into a clean store with soiled gloves, or handing over or
// preparing a thing that is soiled.
void Mechanics::note_soiled(PersonIx who, StepIx step, Verb verb, SupplyIx supply) {
  if (!supply) return;
  const auto& s = world_.supply(supply);
  const bool into_store = verb == Verb::set_out && world_.person(who).gloves_soiled && s.place &&
                          p_.place(s.place).kind == PlaceKind::store;
  const bool soiled_again =
      s.state == SupplyState::soiled && (verb == Verb::pass || procedure::prepares(verb));
  if (!into_store && !soiled_again) return;
  auto e = about(What::soiled_touch, who, step);
  e.supply = supply;
  emit(e);
}

void Mechanics::finish_action(PersonIx who, const Doing& d) {
  const auto model = d.step ? d.step : p_.action(d.action).steps.back();
  const auto verb = p_.action(d.action).verb;
  const bool in_turn = d.step && enabled_at(p_, world_, d.step) <= d.started;
  const bool effect = in_turn || !d.step || !procedure::acts_on_patient(verb);
  devices(model, false);
  handle(who, model, verb, d.supply);
  auto e = about(What::action_done, who, d.step);
  e.action = d.action;
  e.supply = d.supply;
  e.value = effect ? 1 : 0;
  emit(e);
  if (d.step && effect) {
    if (in_turn) note_overrun(d.step, d.started);
    mark_done(d.step, who);
  } else {
    back_to_waiting(d.step);
  }
  if (d.attention) attention_free(who);
}

// What a verb does to its supply once it is finished.
void Mechanics::handle(PersonIx who, StepIx step, Verb verb, SupplyIx supply) {
  if (!supply) return;
  const auto& kind = p_.supply(supply);
  auto& s = world_.supplies[supply.at()];
  auto& person = world_.people[who.at()];
  const auto lay = [&](SupplyState state) { release(supply, place_for(supply, state), state); };
  switch (verb) {
    case Verb::set_out:
      return lay(SupplyState::set_out);
    case Verb::wipe:
      return lay(SupplyState::cleaned);
    case Verb::place:
      return lay(SupplyState::in_use);
    case Verb::open:
    case Verb::mix:
    case Verb::load: {
      lay(SupplyState::prepared);
      s.prepared_at = world_.now;
      s.sets_at = kind.working_time == never ? never : world_.now + kind.working_time;
      auto e = about(What::prepared, who, step);
      e.supply = supply;
      return emit(e);
    }
    case Verb::pass:
      s.holder = who;
      s.place = {};
      s.offered = true;
      s.ready_at = world_.now;
      person.holds.push_back(supply);
      return;
    case Verb::take_back:
      if (s.holder) std::erase(world_.people[s.holder.at()].holds, supply);
      person.gloves_soiled |= s.state == SupplyState::soiled;
      return lay(s.state);
    case Verb::remove:
      person.gloves_soiled = true;
      return lay(SupplyState::soiled);
    case Verb::put_away: {
      person.gloves_soiled |= s.state == SupplyState::soiled;
      const bool kept = p_.place(kind.ends).kind == PlaceKind::store;
      return release(supply, kind.ends, kept ? SupplyState::stored : SupplyState::discarded);
    }
    default:
      if (kind.cleans_hands) person.gloves_soiled = false;
      lay(s.state);
  }
}

void Mechanics::drop_action(PersonIx who, const Doing& d) {
  const auto& kind = p_.action(d.action);
  devices(d.step ? d.step : kind.steps.back(), false);
  if (d.supply && kind.verb != Verb::take_back) {
    const auto state = world_.supply(d.supply).state;
    release(d.supply, place_for(d.supply, state), state);
  }
  back_to_waiting(d.step);
  auto e = about(What::action_broken, who, d.step);
  e.action = d.action;
  e.supply = d.supply;
  emit(e);
}

void Mechanics::break_off(PersonIx who) {
  auto& doing = world_.people[who.at()].doing;
  world_.people[who.at()].lined_up.reset();
  const auto it =
      std::find_if(doing.begin(), doing.end(), [](const Doing& d) { return d.action && !d.cover; });
  if (it != doing.end()) break_off(who, static_cast<std::size_t>(it - doing.begin()));
}

void Mechanics::break_off(PersonIx who, std::size_t which) {
  auto& person = world_.people[who.at()];
  const Doing d = person.doing[which];
  person.doing.erase(person.doing.begin() + static_cast<std::ptrdiff_t>(which));
  if (d.attention) person.lined_up.reset();
  drop_action(who, d);
  if (d.attention) attention_free(who);
}

// Stops a cover, or takes an offered thing back out of the transfer zone.
void Mechanics::stop(PersonIx who, ActionIx action) {
  auto& doing = world_.people[who.at()].doing;
  for (std::size_t i = 0; i < doing.size(); ++i) {
    if (doing[i].cover && doing[i].action == action) return stop_cover(who, i);
  }
  const auto& kind = p_.action(action);
  auto e = about(What::refused, who);
  e.action = action;
  if (kind.verb == Verb::pass && world_.supply(kind.supply).offered &&
      world_.supply(kind.supply).holder == who) {
    put_down(who, kind.supply);
    e.what = What::action_broken;
    e.supply = kind.supply;
  } else {
    e.value = static_cast<std::int64_t>(Reason::not_covering);
  }
  emit(e);
}

void Mechanics::stop_cover(PersonIx who, std::size_t which) {
  auto& doing = world_.people[who.at()].doing;
  const Doing d = doing[which];
  doing.erase(doing.begin() + static_cast<std::ptrdiff_t>(which));
  devices(d.step ? d.step : p_.action(d.action).steps.back(), false);
  if (d.supply) release(d.supply, p_.supply(d.supply).at, world_.supply(d.supply).state);
  back_to_waiting(d.step);
  auto e = about(What::cover_stopped, who, d.step);
  e.action = d.action;
  e.supply = d.supply;
  emit(e);
  pause_uncovered();
}

}  // namespace beforehand::drill
