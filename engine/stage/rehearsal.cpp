// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/rehearsal.hpp"

#include <algorithm>

#include "drill/cast.hpp"
#include "study/team_debrief.hpp"

namespace beforehand::stage {
namespace {

using drill::Command;
using drill::Op;
using drill::StepState;

drill::Setup setup_for(const Rehearsal::Plan& plan) {
  drill::Setup setup;
  setup.seed = plan.seed;
  setup.assistant = study::rehearsing;
  return setup;
}

}  // namespace

Rehearsal::Rehearsal(const procedure::Procedure& procedure, Plan plan, const Strings& t)
    : t_(t), plan_(std::move(plan)), run_(procedure, setup_for(plan_)) {
  drill::cast_around(run_, plan_.human);
  if (!plan_.recording.empty()) try {
      writer_ =
          std::make_unique<drill::RecordingWriter>(plan_.recording, procedure, run_.session());
    } catch (const drill::RecordingError& error) {
      problem_ = error.what();
    }
  run_.advance_to(Ms{0});
  keep();
}

void Rehearsal::keep() {
  if (writer_) try {
      writer_->append(run_.session());
    } catch (const drill::RecordingError& error) {
      problem_ = error.what();
      writer_.reset();
    }
}

void Rehearsal::pass(std::chrono::microseconds real) {
  if (paused_ || !plan_.timed || over()) return;
  rest_ += real;
  const auto whole = std::chrono::duration_cast<Ms>(rest_);
  rest_ -= whole;
  run_.advance_to(run_.now() + whole);
  keep();
}

void Rehearsal::let_happen() {
  if (over()) return;
  const Ms next = run_.next_moment();
  run_.advance_to(next == never ? run_.now() + Ms{1000} : std::max(next, run_.now() + Ms{1}));
  keep();
}

void Rehearsal::submit(PersonIx who, Command command) {
  if (over()) return;
  command.at = run_.now();
  command.person = who;
  run_.submit(command);
  run_.advance_to(run_.now());
  keep();
}

void Rehearsal::choose(PersonIx who, const Option& option) {
  if (option.why_not.empty()) submit(who, option.command);
}

void Rehearsal::break_off(PersonIx who) {
  Command c;
  c.op = Op::break_off;
  submit(who, c);
}

void Rehearsal::raise(SignalIx signal) {
  Command c;
  c.op = Op::raise;
  c.signal = signal;
  submit(procedure().who(procedure::Role::clinician), c);
}

void Rehearsal::abandon() {
  if (!over()) run_.abandon();
  keep();
}

void Rehearsal::add_going_on(PersonIx who, std::vector<Option>& out) const {
  for (const auto& doing : run_.world().person(who).doing) {
    Option o;
    o.going_on = true;
    o.since = doing.started;
    o.command.op = doing.cover ? Op::stop : Op::break_off;
    o.command.action = doing.action;
    if (doing.helping)
      o.title = t_("rehearse.helping", {procedure().step(doing.step).title});
    else if (doing.step)
      o.title = procedure().step(doing.step).title;
    else
      o.title = title_of(procedure(), doing.action, t_);
    out.push_back(std::move(o));
  }
  const auto& p = procedure();
  for (std::size_t i = 0; i < p.actions.size(); ++i) {
    if (!card_now(p, run_.world(), who, ActionIx{i}).offered) continue;
    Option o;
    o.going_on = true;
    o.command.op = Op::stop;
    o.command.action = ActionIx{i};
    o.title = t_("rehearse.offers", {p.supply(p.actions[i].supply).name});
    out.push_back(std::move(o));
  }
}

// What hangs on a surprise is no choice before it has come.
bool Rehearsal::may_come(StepIx ix) const {
  const auto& step = procedure().step(ix);
  const auto& signals = run_.world().signals;
  return std::all_of(step.when.begin(), step.when.end(),
                     [&](SignalIx s) { return signals[s.at()] == drill::SignalState::happened; });
}

Rehearsal::Option Rehearsal::own_step(PersonIx who, StepIx ix) const {
  const auto& p = procedure();
  const auto& w = run_.world();
  Option o;
  o.title = p.step(ix).title;
  o.command.op = Op::begin;
  o.command.step = ix;
  Ms from = never;
  if (!drill::conditions_hold(p, w, ix, false, from))
    o.why_not = t_(from != never ? "rehearse.not_long_enough" : "rehearse.not_yet");
  else if (!drill::tools_free(p, w, ix, who))
    o.why_not = t_("rehearse.in_use");
  for (const auto& need : p.step(ix).needs)
    if (o.why_not.empty() && !drill::is_met(p, w, ix, need, who))
      o.why_not = t_("rehearse.needs",
                     {need.supply ? p.supply(need.supply).name : p.step(need.from).title});
  if (o.why_not.empty() && w.person(who).attention() != nullptr) o.why_not = t_("rehearse.busy");
  return o;
}

Rehearsal::Option Rehearsal::action(PersonIx who, ActionIx a, StepIx ix) const {
  const auto& p = procedure();
  const auto now = card_now(p, run_.world(), who, a);
  Option o;
  o.title = p.step(ix).title;
  o.command.op = now.held ? Op::stop : Op::act;
  o.command.action = a;
  if (!now.possible())
    o.why_not = t_("reason." + std::string(drill::word(now.reason)),
                   {p.step(ix).supply ? p.supply(p.step(ix).supply).name : p.step(ix).title});
  return o;
}

void Rehearsal::add_asking(PersonIx who, std::vector<Option>& out) const {
  const auto& p = procedure();
  const auto& w = run_.world();
  if (!w.awaited || !p.may_do(who, w.awaited)) return;
  const auto& needs = p.step(w.awaited).needs;
  for (std::size_t i = 0; i < needs.size(); ++i) {
    const auto at = w.need_index(w.awaited, i);
    if (drill::is_met(p, w, w.awaited, needs[i], who) || w.need_helped[at]) continue;
    Option o;
    o.command.op = w.need_asked[at] ? Op::help : Op::ask;
    o.command.step = w.awaited;
    o.command.need = static_cast<std::uint8_t>(i);
    o.title = t_(w.need_asked[at] ? "rehearse.help" : "rehearse.ask",
                 {needs[i].supply ? p.supply(needs[i].supply).name : p.step(needs[i].from).title});
    out.push_back(std::move(o));
  }
  add_asking_for_kept(who, out);
}

void Rehearsal::add_asking_for_kept(PersonIx who, std::vector<Option>& out) const {
  const auto& p = procedure();
  const auto& w = run_.world();
  const auto kept = drill::kept_from(p, w, w.awaited, who);
  if (!w.step(w.awaited).kept_open || !kept.by) return;
  const bool asked = w.step(w.awaited).kept_asked;
  Option o;
  o.command.op = asked ? Op::help : Op::ask;
  o.command.step = w.awaited;
  o.command.need = static_cast<std::uint8_t>(p.step(w.awaited).needs.size());
  const auto name = kept.supply ? p.supply(kept.supply).name : title_of(p, kept.action, t_);
  o.title = t_(asked ? "rehearse.take" : "rehearse.let-go", {name});
  out.push_back(std::move(o));
}

std::vector<Rehearsal::Option> Rehearsal::options(PersonIx who, std::size_t most,
                                                  std::size_t skip) const {
  const auto& p = procedure();
  const auto& w = run_.world();
  std::vector<Option> out;
  add_going_on(who, out);
  const bool clinician = p.person(who).role == procedure::Role::clinician;
  if (clinician) add_asking(who, out);
  std::vector<ActionIx> listed;
  for (std::size_t i = 0; i < p.steps.size() && out.size() < most; ++i) {
    const StepIx ix{i};
    if (w.steps[i].state != StepState::waiting || !p.may_do(who, ix) || !may_come(ix)) continue;
    const ActionIx a = p.action_of[i];
    const bool own = clinician || !a;
    if (!own && std::find(listed.begin(), listed.end(), a) != listed.end()) continue;
    if (!own) listed.push_back(a);
    if (skip > 0) {
      --skip;
      continue;
    }
    out.push_back(own ? own_step(who, ix) : action(who, a, ix));
  }
  if (out.size() > most) out.resize(most);
  return out;
}

}  // namespace beforehand::stage
