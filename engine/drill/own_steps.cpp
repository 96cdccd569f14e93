// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include <algorithm>

#include "drill/mechanics.hpp"
#include "procedure/relations.hpp"

// The clinician's way of working: a step begins when its needs are met, pauses when its cover
// stops, and what nobody brings is got alone.

namespace beforehand::drill {

using procedure::AfterUse;
using procedure::Need;
using procedure::Step;
using procedure::SupplyState;
using procedure::Verb;

namespace {

constexpr Ms turning_away{2000};  // to turn away from the field and back; invented planning value

// One hand for each supply; a supply that different steps pass in different cases counts once.
int hands_for(const Step& step) {
  int supplies = 0;
  for (auto n = step.needs.begin(); n != step.needs.end(); ++n) {
    supplies += n->kind == Need::Kind::supply &&
                std::none_of(step.needs.begin(), n,
                             [&](const Need& before) { return before.supply == n->supply; });
  }
  return std::max(step.hands, supplies);
}

bool is_own_step(const Doing& d) { return d.step && !d.action && !d.helping; }

}  // namespace

Reason Mechanics::may_begin(PersonIx who, StepIx ix) const {
  if (world_.over) return Reason::over;
  if (!p_.may_do(who, ix)) return Reason::not_yours;
  if (world_.person(who).attention()) return Reason::busy;
  Ms unused;
  const auto& needs = p_.step(ix).needs;
  const bool ready = world_.step(ix).state == StepState::waiting &&
                     tools_free(p_, world_, ix, who) &&
                     conditions_hold(p_, world_, ix, false, unused) &&
                     std::all_of(needs.begin(), needs.end(),
                                 [&](const Need& n) { return is_met(p_, world_, ix, n, who); });
  return ready ? Reason::none : Reason::not_ready;
}

void Mechanics::begin(PersonIx who, StepIx ix) {
  const auto reason = may_begin(who, ix);
  if (reason != Reason::none) {
    auto e = about(What::refused, who, ix);
    e.value = static_cast<std::int64_t>(reason);
    return emit(e);
  }
  const auto& step = p_.step(ix);
  ++world_.moves;
  stop_awaiting(ix);
  Ms takes = length(ix);
  for (std::size_t i = 0; i < step.needs.size(); ++i) {
    const bool alone = world_.need_helped[world_.need_index(ix, i)] != 0;
    if (alone && step.needs[i].kind == Need::Kind::cover) takes += takes / 2;
  }
  Doing d;
  d.step = ix;
  d.supply = step.supply;
  d.started = world_.now;
  d.ends = world_.now + takes;
  d.hands = hands_for(step);
  take_needed(who, ix);
  let_go_of(who, d.hands);
  devices(ix, true);
  if (step.supply) world_.supplies[step.supply.at()].holder = who;
  world_.people[who.at()].doing.push_back(d);
  note_overrun(ix, world_.now);

  auto& progress = world_.steps[ix.at()];
  progress.state = StepState::doing;
  progress.by = who;
  progress.started = world_.now;
  auto e = about(What::step_started, who, ix);
  e.value = takes.count();
  emit(e);
  timers_for(ix, procedure::Anchor::start);
  plan_signals(ix, procedure::Anchor::start);
}

// Takes the supplies into the hand, tells since when each need was met, and lets ongoing covers
// count for this step.
void Mechanics::take_needed(PersonIx who, StepIx ix) {
  const auto& step = p_.step(ix);
  const auto& needs = step.needs;
  for (std::size_t i = 0; i < needs.size(); ++i) {
    const auto& n = needs[i];
    if (n.from && world_.step(n.from).state == StepState::skipped) continue;
    auto e = about(What::need_met, {}, ix);
    e.value = static_cast<std::int64_t>(i);
    e.since = world_.now;
    if (n.kind == Need::Kind::supply) {
      auto& s = world_.supplies[n.supply.at()];
      e.person = s.holder;
      e.supply = n.supply;
      e.since = s.ready_at;
      std::erase(world_.people[s.holder.at()].holds, n.supply);
      release(n.supply, {}, SupplyState::in_use);
      s.holder = who;
    } else if (n.kind == Need::Kind::done) {
      e.person = world_.step(n.from).by;
      const auto& from = world_.step(n.from);
      e.since = start_suffices(step, n) ? from.started : from.ended;
    } else if (const auto keeper = covering(p_, world_, n.from, &e.since)) {
      e.person = keeper;
      serve_by_cover(keeper, n.from);
    }
    emit(e);
  }
}

// From here on the cover that `keeper` keeps up counts for this cover step.
void Mechanics::serve_by_cover(PersonIx keeper, StepIx cover_step) {
  for (auto& d : world_.people[keeper.at()].doing) {
    if (!d.cover || d.action != p_.action_of[cover_step.at()] || d.step == cover_step) continue;
    back_to_waiting(d.step);
    d.step = cover_step;
    auto& progress = world_.steps[cover_step.at()];
    progress.state = StepState::doing;
    progress.by = keeper;
    progress.started = world_.now;
    auto e = about(What::cover_served, keeper, cover_step);
    e.action = d.action;
    emit(e);
  }
}

// A hand that a step needs lets go of what it kept from before.
void Mechanics::let_go_of(PersonIx who, int hands_wanted) {
  while (free_hands(p_, world_, who) < hands_wanted && !world_.person(who).holds.empty()) {
    put_down(who, world_.person(who).holds.front());
  }
}

void Mechanics::finish_step(PersonIx who, const Doing& d) {
  const auto& step = p_.step(d.step);
  ++world_.moves;
  devices(d.step, false);
  if (step.supply) {
    const auto state = world_.supply(step.supply).state;
    release(step.supply, place_for(step.supply, state), state);
  }
  for (const auto& n : step.needs) {
    if (n.kind == Need::Kind::supply) lay_down_used(who, d.step, n.supply);
  }
  mark_done(d.step, who);
  close_covers_of(d.step);
  attention_free(who);
}

// After its use a supply stays in the hand, waits there to be taken back, or is laid down.
void Mechanics::lay_down_used(PersonIx who, StepIx ix, SupplyIx supply) {
  auto& s = world_.supplies[supply.at()];
  if (s.holder != who) return;
  const auto& kind = p_.supply(supply);
  const auto& keeps = p_.step(ix).keeps;
  const auto ready = kind.needs_preparing ? SupplyState::prepared : SupplyState::set_out;
  if (std::find(keeps.begin(), keeps.end(), supply) != keeps.end()) {
    s.state = s.sets_at <= world_.now ? SupplyState::set : ready;
    s.ready_at = world_.now;
    world_.people[who.at()].holds.push_back(supply);
    return;
  }
  const auto after = kind.after_use == AfterUse::soiled   ? SupplyState::soiled
                     : kind.after_use == AfterUse::reload ? SupplyState::set_out
                                                          : ready;
  if (after != SupplyState::prepared) s.sets_at = never;
  if (taken_back_next(supply)) {
    s.state = after;
    world_.people[who.at()].holds.push_back(supply);
  } else {
    release(supply, place_for(supply, after), after);
  }
}

// Whether the next thing to be done with this supply, in the file's order, is to take it back.
bool Mechanics::taken_back_next(SupplyIx supply) const {
  for (std::size_t i = 0; i < p_.steps.size(); ++i) {
    if (world_.steps[i].state != StepState::waiting) continue;
    const auto& step = p_.steps[i];
    if (step.supply == supply) return step.verb == Verb::take_back;
    for (const auto& n : step.needs) {
      if (n.kind == Need::Kind::supply && n.supply == supply) return false;
    }
  }
  return false;
}

void Mechanics::note_overrun(StepIx ix, Ms started) {
  for (const auto& link : p_.step(ix).after) {
    if (link.at_most == never) continue;
    const auto& before = world_.step(link.step);
    const Ms from = link.from == procedure::Anchor::start ? before.started : before.ended;
    if (before.state == StepState::skipped || from == never) continue;
    const Ms late = started - from - link.at_most;
    if (late <= Ms{0}) continue;
    auto e = about(What::lag_overrun, {}, ix);
    e.cause = link.step;
    e.value = late.count();
    emit(e);
  }
}

// ---- covers that stop under a step -------------------------------------------------------------

void Mechanics::pause_uncovered() {
  for (std::size_t i = 0; i < world_.people.size(); ++i) {
    for (auto& d : world_.people[i].doing) {
      if (!is_own_step(d) || d.ends <= world_.now || d.ends == never) continue;
      const auto& needs = p_.step(d.step).needs;
      const bool covered = std::all_of(needs.begin(), needs.end(), [&](const Need& n) {
        return n.kind != Need::Kind::cover || is_met(p_, world_, d.step, n, PersonIx{i});
      });
      if (covered) continue;
      d.left = d.ends - world_.now;
      d.ends = never;
      world_.steps[d.step.at()].state = StepState::paused;
      emit(about(What::step_paused, PersonIx{i}, d.step));
    }
  }
}

void Mechanics::resume_covered() {
  for (std::size_t i = 0; i < world_.people.size(); ++i) {
    for (auto& d : world_.people[i].doing) {
      if (!is_own_step(d) || d.ends != never) continue;
      const auto& needs = p_.step(d.step).needs;
      const bool covered = std::all_of(needs.begin(), needs.end(), [&](const Need& n) {
        return n.kind != Need::Kind::cover || is_met(p_, world_, d.step, n, PersonIx{i});
      });
      if (!covered) continue;
      stop_awaiting(d.step);
      world_.steps[d.step.at()].state = StepState::doing;
      d.ends = world_.now + d.left;
      for (const auto& n : needs) {
        if (n.kind != Need::Kind::cover) continue;
        if (const auto keeper = covering(p_, world_, n.from)) serve_by_cover(keeper, n.from);
      }
      emit(about(What::step_resumed, PersonIx{i}, d.step));
    }
  }
}

void Mechanics::stop_awaiting(StepIx ix) {
  auto& progress = world_.steps[ix.at()];
  if (progress.awaited != never) progress.waited += world_.now - progress.awaited;
  progress.awaited = never;
  progress.kept_open = false;
  if (world_.awaited == ix) world_.awaited = {};
  for (std::size_t i = 0; i < p_.step(ix).needs.size(); ++i) {
    world_.need_open[world_.need_index(ix, i)] = 0;
  }
}

// ---- helping oneself ---------------------------------------------------------------------------

Event Mechanics::about_need(What what, PersonIx who, StepIx ix, std::uint8_t need) const {
  auto e = about(what, who, ix);
  e.value = need;
  if (need < p_.step(ix).needs.size()) return e;
  const auto kept = kept_from(p_, world_, ix, who);
  e.action = kept.action;
  e.supply = kept.supply;
  return e;
}

void Mechanics::ask(PersonIx who, StepIx ix, std::uint8_t need) {
  if (need < p_.step(ix).needs.size())
    world_.need_asked[world_.need_index(ix, need)] = 1;
  else
    world_.steps[ix.at()].kept_asked = true;
  emit(about_need(What::asked, who, ix, need));
}

// Alone it takes turning away and half as long again as it takes the one whose task it is (our own
// planning value, invented). Whoever was still at it drops it.
void Mechanics::help(PersonIx who, StepIx ix, std::uint8_t need) {
  Ms takes = turning_away;
  if (need < p_.step(ix).needs.size()) {
    chain_for(p_, world_, p_.step(ix).needs[need], scratch_);
    take_from_others(who, p_.step(ix).needs[need], scratch_);
    for (const auto s : scratch_) {
      if (p_.step(s).is_cover()) continue;
      const Ms usual = p_.step(s).takes.usual + p_.step(s).reach;
      takes += usual + usual / 2;
    }
  }
  Doing d;
  d.step = ix;
  d.helping = true;
  d.need = need;
  d.attention = !world_.person(who).attention();  // a paused step keeps it
  d.started = world_.now;
  d.ends = world_.now + takes;
  world_.people[who.at()].doing.push_back(d);
  emit(about_need(What::helping, who, ix, need));
}

// Breaks off what others are at of these steps, and what they do with the supply of a need: nothing
// is got, or done, by two at once.
void Mechanics::take_from_others(PersonIx who, const Need& need, const std::vector<StepIx>& steps) {
  const auto supply = need.kind == Need::Kind::supply ? need.supply : SupplyIx{};
  const auto same = [&](const Doing& d) {
    if (!d.action) return false;
    if (supply && d.supply == supply) return true;
    return d.step && !d.cover && std::find(steps.begin(), steps.end(), d.step) != steps.end();
  };
  for (std::size_t i = 0; i < world_.people.size(); ++i) {
    const PersonIx other{i};
    if (other == who) continue;
    auto& doing = world_.people[i].doing;
    for (std::size_t k = doing.size(); k-- > 0;) {
      if (!same(doing[k])) continue;
      if (doing[k].cover)
        stop_cover(other, k);
      else
        break_off(other, k);
    }
  }
}

// Lets go, for the others, of what they keep from a step.
void Mechanics::take_kept(PersonIx who, StepIx ix) {
  for (auto kept = kept_from(p_, world_, ix, who); kept.by; kept = kept_from(p_, world_, ix, who)) {
    auto& doing = world_.people[kept.by.at()].doing;
    const auto cover = std::find_if(doing.begin(), doing.end(), [&](const Doing& d) {
      return d.cover && d.action == kept.action && d.supply == kept.supply;
    });
    if (cover != doing.end()) {
      stop_cover(kept.by, static_cast<std::size_t>(cover - doing.begin()));
      continue;
    }
    put_down(kept.by, kept.supply);
    auto e = about(What::action_broken, kept.by);
    e.action = kept.action;
    e.supply = kept.supply;
    emit(e);
  }
}

void Mechanics::finish_help(PersonIx who, const Doing& d) {
  if (d.need >= p_.step(d.step).needs.size()) {
    const auto e = about_need(What::helped, who, d.step, d.need);
    take_kept(who, d.step);
    emit(e);
    if (d.attention) attention_free(who);
    return;
  }
  const auto& need = p_.step(d.step).needs[d.need];
  take_from_others(who, need, {need.from});  // begun while nobody could see it
  chain_for(p_, world_, need, scratch_);
  const auto chain = scratch_;
  for (const auto s : chain) {
    const auto& step = p_.step(s);
    if (step.is_cover() || world_.step(s).state != StepState::waiting) continue;
    if (step.verb == Verb::take_back && world_.supply(step.supply).holder) {
      put_down(world_.supply(step.supply).holder, step.supply);
    } else if (step.verb != Verb::pass && step.verb != Verb::take_back) {
      handle(who, s, step.verb, step.supply);
    }
    mark_done(s, who);
  }
  if (need.kind == Need::Kind::supply) {
    auto& s = world_.supplies[need.supply.at()];
    if (s.holder) std::erase(world_.people[s.holder.at()].holds, need.supply);
    const auto& kind = p_.supply(need.supply);
    release(need.supply, {}, kind.needs_preparing ? SupplyState::prepared : SupplyState::set_out);
    s.holder = who;
    s.ready_at = world_.now;
    if (s.sets_at <= world_.now) s.sets_at = never;
    world_.people[who.at()].holds.push_back(need.supply);
  }
  world_.need_helped[world_.need_index(d.step, d.need)] = 1;
  ++world_.moves;
  auto e = about(What::helped, who, d.step);
  e.value = d.need;
  emit(e);
  resume_covered();
  if (d.attention) attention_free(who);
}

}  // namespace beforehand::drill
