// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include <algorithm>

#include "base/random.hpp"
#include "drill/mechanics.hpp"

// What happens by itself: the laying out of the room, ends, settings, signals, the closing.

namespace beforehand::drill {

using procedure::Anchor;
using procedure::Need;
using procedure::Role;
using procedure::SupplyState;

namespace {

constexpr Ms closing_grace{30'000};  // the assistant's time to finish once the clinician is done

}  // namespace

bool Mechanics::clinicians(StepIx s) const {
  return p_.person(p_.step(s).by.front()).role == Role::clinician;
}

Mechanics::Mechanics(const Procedure& p, World& world, Session& session)
    : p_(p), world_(world), session_(session) {
  const auto n = p.steps.size();
  world_.steps.resize(n);
  world_.people.resize(p.people.size());
  world_.supplies.resize(p.supplies.size());
  world_.signals.assign(p.signals.size(), SignalState::open);
  world_.signal_due.assign(p.signals.size(), never);
  world_.signal_at.assign(p.signals.size(), Ms{0});
  world_.signal_raised.assign(p.signals.size(), 0);
  world_.device_used.assign(p.devices.size(), 0);
  world_.first_need.resize(n);
  names_.resize(n);
  lags_after_.assign(n, 0);
  clinician_open_.assign((n + 63) / 64, 0);
  std::uint32_t needs = 0;
  for (std::size_t i = 0; i < n; ++i) {
    names_[i] = fnv1a(p.steps[i].id);
    world_.first_need[i] = needs;
    needs += static_cast<std::uint32_t>(p.steps[i].needs.size());
    for (const auto& link : p.steps[i].after) {
      if (link.at_least > Ms{0}) lags_after_[link.step.at()] = 1;
    }
    if (clinicians(StepIx{i})) {
      clinician_open_[i / 64] |= std::uint64_t{1} << (i % 64);
      ++clinician_count_;
    }
  }
  open_ = static_cast<int>(n);
  world_.need_asked.assign(needs, 0);
  world_.need_helped.assign(needs, 0);
  world_.need_open.assign(needs, 0);
  for (std::size_t i = 0; i < p.places.size() && !soiled_place_; ++i) {
    if (p.places[i].kind == procedure::PlaceKind::soiled) soiled_place_ = PlaceIx{i};
  }
  for (std::size_t i = 0; i < p.supplies.size(); ++i) {
    release(SupplyIx{i}, place_for(SupplyIx{i}, p.supplies[i].starts), p.supplies[i].starts);
  }
  if (session_.setup.phase) set_up_phase();
}

// A drill of one phase: what comes before counts as done at its beginning and has left its traces,
// what comes after does not take place.
void Mechanics::set_up_phase() {
  const auto phase = session_.setup.phase;
  for (const auto ix : p_.topological) {
    const auto& step = p_.step(ix);
    const bool serves_now = step.serves && p_.step(step.serves).phase >= phase;
    if (step.phase > phase) {
      finish(ix, StepState::skipped);
    } else if (step.phase < phase && !serves_now) {
      const auto doer = step.by.front();
      if (!step.is_cover() && step.supply && step.verb != procedure::Verb::take_back) {
        handle(doer, ix, step.verb, step.supply);
      }
      for (const auto& n : step.needs) {
        if (n.kind != Need::Kind::supply) continue;
        std::erase(world_.people[doer.at()].holds, n.supply);
        for (auto& who : world_.people) std::erase(who.holds, n.supply);
        world_.supplies[n.supply.at()].holder = doer;
        lay_down_used(doer, ix, n.supply);
      }
      mark_done(ix, doer);
    }
  }
  for (auto& who : world_.people) {
    for (const auto s : std::vector<SupplyIx>(who.holds)) {
      put_down(PersonIx{static_cast<std::size_t>(&who - world_.people.data())}, s);
    }
    who.gloves_soiled = false;
  }
  session_.events.clear();
}

Ms Mechanics::next_moment() const {
  if (world_.over) return never;
  Ms next = std::min(world_.closing_at, timers_.empty() ? never : timers_.front());
  for (const auto& who : world_.people) {
    for (const auto& d : who.doing) next = std::min(next, d.ends);
  }
  for (const auto& s : world_.supplies) next = std::min(next, s.sets_at);
  for (const auto due : world_.signal_due) next = std::min(next, due);
  return next;
}

void Mechanics::fire() {
  bool again = true;
  while (again && !world_.over) {
    again = false;
    for (std::size_t i = 0; i < world_.people.size(); ++i) again |= finish_due(PersonIx{i});
    again |= set_due();
    again |= decide_due();
    while (!timers_.empty() && timers_.front() <= world_.now) timers_.erase(timers_.begin());
  }
  if (world_.over) return;
  if (open_ == 0) return end(0);
  if (world_.closing_at <= world_.now) return end(1);
  if (clinician_count_ == 0 && world_.closing_at == never) {
    Ms left = closing_grace;
    for (std::size_t i = 0; i < p_.steps.size(); ++i) {
      if (!world_.finished(StepIx{i})) left += 2 * (p_.steps[i].takes.usual + p_.steps[i].reach);
    }
    world_.closing_at = world_.now + left;
  }
}

bool Mechanics::finish_due(PersonIx who) {
  auto& doing = world_.people[who.at()].doing;
  const auto it = std::find_if(doing.begin(), doing.end(),
                               [&](const Doing& d) { return d.ends <= world_.now; });
  if (it == doing.end()) return false;
  const Doing d = *it;
  doing.erase(it);
  if (d.helping) {
    finish_help(who, d);
  } else if (d.action) {
    finish_action(who, d);
  } else {
    finish_step(who, d);
  }
  return true;
}

bool Mechanics::set_due() {
  bool any = false;
  for (std::size_t i = 0; i < world_.supplies.size(); ++i) {
    auto& s = world_.supplies[i];
    if (s.sets_at > world_.now) continue;
    any = true;
    s.sets_at = never;
    const bool matters = s.state == SupplyState::prepared || s.state == SupplyState::in_use;
    if (!matters) continue;
    if (s.state == SupplyState::prepared) s.state = SupplyState::set;
    auto e = about(What::has_set, s.holder);
    e.supply = SupplyIx{i};
    emit(e);
  }
  return any;
}

bool Mechanics::decide_due() {
  bool any = false;
  for (std::size_t i = 0; i < p_.signals.size(); ++i) {
    if (world_.signal_due[i] > world_.now) continue;
    any = true;
    world_.signal_due[i] = never;
    world_.signal_at[i] = world_.now;
    const auto& signal = p_.signals[i];
    int percent = signal.likely_percent;
    for (const auto& f : signal.foretold) {
      if (world_.signals[f.by.at()] == SignalState::happened) percent = f.likely_percent;
    }
    const double u = keyed_uniform({session_.setup.seed, fnv1a(signal.id), 0});
    const bool happens = world_.signal_raised[i] || u * 100.0 < percent;
    world_.signals[i] = happens ? SignalState::happened : SignalState::passed;
    if (happens) world_.field |= signal.leaves;
    ++world_.moves;
    auto e = about(happens ? What::signal_shown : What::signal_passed);
    e.signal = SignalIx{i};
    emit(e);
    skip_what_does_not_apply();
  }
  return any;
}

void Mechanics::plan_signals(StepIx s, Anchor anchor) {
  for (std::size_t i = 0; i < p_.signals.size(); ++i) {
    const auto& signal = p_.signals[i];
    const bool here = signal.after == s && signal.from_start == (anchor == Anchor::start);
    if (here && world_.signals[i] == SignalState::open) {
      world_.signal_due[i] = world_.now + signal.delay;
    }
  }
}

void Mechanics::skip_what_does_not_apply() {
  const auto is = [this](SignalState state) {
    return [this, state](SignalIx s) { return world_.signals[s.at()] == state; };
  };
  for (std::size_t i = 0; i < p_.steps.size(); ++i) {
    const auto& step = p_.steps[i];
    if (world_.steps[i].state != StepState::waiting) continue;
    if (std::any_of(step.when.begin(), step.when.end(), is(SignalState::passed)) ||
        std::any_of(step.unless.begin(), step.unless.end(), is(SignalState::happened))) {
      mark_skipped(StepIx{i});
    }
  }
}

void Mechanics::mark_done(StepIx ix, PersonIx by) {
  const auto& step = p_.step(ix);
  auto& progress = world_.steps[ix.at()];
  progress.by = by;
  if (progress.started == never) {  // done in one, as when somebody else helps out
    progress.started = world_.now;
    timers_for(ix, Anchor::start);
    plan_signals(ix, Anchor::start);
  }
  finish(ix, StepState::done);
  world_.field &= ~step.clears;
  world_.field |= step.leaves;
  if (step.leaves[static_cast<std::size_t>(procedure::Field::filled)]) ++world_.filled;
  emit(about(What::step_done, by, ix));
  timers_for(ix, Anchor::end);
  plan_signals(ix, Anchor::end);
}

// A signal that hangs on a step that does not take place passes with it.
void Mechanics::mark_skipped(StepIx ix) {
  finish(ix, StepState::skipped);
  emit(about(What::step_skipped, {}, ix));
  for (std::size_t i = 0; i < p_.signals.size(); ++i) {
    if (p_.signals[i].after != ix || world_.signals[i] != SignalState::open) continue;
    world_.signals[i] = SignalState::passed;
    world_.signal_at[i] = world_.now;
    auto e = about(What::signal_passed);
    e.signal = SignalIx{i};
    emit(e);
    skip_what_does_not_apply();
  }
  close_covers_of(ix);
}

void Mechanics::finish(StepIx ix, StepState state) {
  auto& progress = world_.steps[ix.at()];
  if (world_.finished(ix)) return;
  progress.state = state;
  progress.ended = world_.now;
  --open_;
  if (!clinicians(ix)) return;
  --clinician_count_;
  clinician_open_[ix.at() / 64] &= ~(std::uint64_t{1} << (ix.at() % 64));
}

// A cover step is done with the last step it covers, and is not needed when none of them is.
void Mechanics::close_covers_of(StepIx ix) {
  for (const auto c : p_.step(ix).covered_by) {
    if (world_.finished(c)) continue;
    const auto& covers = p_.step(c).covers;
    const bool over =
        std::all_of(covers.begin(), covers.end(), [&](StepIx x) { return world_.finished(x); });
    if (!over) continue;
    const bool took_place = std::any_of(covers.begin(), covers.end(), [&](StepIx x) {
      return world_.step(x).state == StepState::done;
    });
    if (!took_place) {
      mark_skipped(c);
    } else {
      mark_done(c,
                world_.step(c).state == StepState::doing ? world_.step(c).by : world_.step(ix).by);
    }
  }
}

// The step for which this clinician stands still: the paused one, or the first that only others
// keep from starting. None while a step of the own could start, or must first.
StepIx Mechanics::awaited_step(PersonIx who) const {
  if (const auto* d = world_.person(who).attention()) {
    const bool paused = d->step && !d->helping && d->ends == never;
    return paused ? d->step : StepIx{};
  }
  StepIx first;
  Ms unused;
  for (std::size_t i = 0; i < p_.steps.size(); ++i) {
    const StepIx ix{i};
    const auto& step = p_.steps[i];
    if (world_.steps[i].state != StepState::waiting || step.by.front() != who) continue;
    if (!conditions_hold(p_, world_, ix, false, unused)) continue;
    const auto missing = [&](const Need& n) { return !is_met(p_, world_, ix, n, who); };
    if (std::none_of(step.needs.begin(), step.needs.end(), missing)) {
      if (!kept_from(p_, world_, ix, who).by) return {};
      if (!first) first = ix;
      continue;
    }
    const bool own_first = std::any_of(step.needs.begin(), step.needs.end(), [&](const Need& n) {
      return missing(n) && n.from && clinician_first(n.from);
    });
    if (!first && !own_first) first = ix;
  }
  return first;
}

// Whether the clinician has something to do before that step can be done.
bool Mechanics::clinician_first(StepIx s) const {
  const auto& before = p_.before[s.at()];
  for (std::size_t i = 0; i < before.size(); ++i) {
    if (before[i] & clinician_open_[i]) return true;
  }
  return false;
}

void Mechanics::stand_still() {
  for (std::size_t who = 0; who < world_.people.size(); ++who) {
    if (p_.people[who].role != Role::clinician) continue;
    const auto target = awaited_step(PersonIx{who});
    if (world_.awaited && world_.awaited != target) stop_awaiting(world_.awaited);
    if (!target) continue;
    world_.awaited = target;
    auto& progress = world_.steps[target.at()];
    if (progress.awaited == never) progress.awaited = world_.now;
    progress.due = due_at(p_, world_, target);
    note_missing(PersonIx{who}, target);
  }
}

// Tells of what is newly missing: the needs of the awaited step, or else what is kept from it.
void Mechanics::note_missing(PersonIx who, StepIx target) {
  const auto& needs = p_.step(target).needs;
  bool any = false;
  for (std::size_t i = 0; i < needs.size(); ++i) {
    auto& open = world_.need_open[world_.need_index(target, i)];
    const bool met = is_met(p_, world_, target, needs[i], who);
    if (!met && !open) {
      auto e = about(What::need_arose, who, target);
      e.value = static_cast<std::int64_t>(i);
      emit(e);
    }
    open = met ? 0 : 1;
    any |= !met;
  }
  auto& open = world_.steps[target.at()].kept_open;
  const bool kept = !any && kept_from(p_, world_, target, who).by;
  if (kept && !open)
    emit(about_need(What::need_arose, who, target, static_cast<std::uint8_t>(needs.size())));
  open = kept;
}

void Mechanics::end(int how) {
  if (world_.over) return;
  if (world_.awaited) stop_awaiting(world_.awaited);
  world_.over = true;
  auto e = about(What::ended);
  e.value = how;
  emit(e);
}

}  // namespace beforehand::drill
