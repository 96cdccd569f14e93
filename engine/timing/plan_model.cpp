// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "timing/plan_model.hpp"

#include <algorithm>
#include <numeric>

#include "timing/applies.hpp"
#include "timing/windows.hpp"

namespace beforehand::timing {

using procedure::Anchor;
using procedure::Link;
using procedure::Need;
using procedure::Role;
using procedure::Step;
using procedure::Verb;
using Interval = ScheduleProblem::Interval;
using Resource = ScheduleProblem::Resource;

namespace {

Ms usual(const Step& s) { return s.is_cover() ? Ms{0} : s.takes.usual + s.reach; }

std::int64_t common_unit(const Procedure& p) {
  std::int64_t unit = 0;
  const auto take_in = [&](Ms t) {
    if (t != never) unit = std::gcd(unit, t.count());
  };
  for (const auto& step : p.steps) {
    take_in(usual(step));
    for (const auto& link : step.after) {
      take_in(link.at_least);
      take_in(link.at_most);
    }
  }
  for (const auto& supply : p.supplies) take_in(supply.working_time);
  for (const auto& signal : p.signals) take_in(signal.delay);
  return std::max<std::int64_t>(unit, 1);
}

// The supplies a step needs, each once, however many passes may bring it.
std::vector<SupplyIx> used_by(const Step& s) {
  std::vector<SupplyIx> all;
  for (const auto& n : s.needs) {
    const bool known = std::find(all.begin(), all.end(), n.supply) != all.end();
    if (n.kind == Need::Kind::supply && !known) all.push_back(n.supply);
  }
  return all;
}

template <class Item>
bool contains(const std::vector<Item>& items, const Item& item) {
  return std::find(items.begin(), items.end(), item) != items.end();
}

}  // namespace

PlanModel::PlanModel(const Procedure& p, const PlanRequest& request)
    : procedure_(p), happened_(request.happened), phase_(request.phase) {
  choose_unit(p);
  place(p);
  for (std::size_t i = 0; i < p.steps.size(); ++i) {
    const StepIx step{i};
    if (!happens(step)) continue;
    wait_for_signals(step, step);
    for (const auto& link : p.steps[i].after) add_link(step, link);
    add_needs(step);
    add_covers(step);
  }
  add_finish();
  add_people();
  add_devices();
}

void PlanModel::choose_unit(const Procedure& p) {
  unit = Ms{common_unit(p)};
  const auto finish = earliest_finish(p, happened_, phase_).count();
  while (finish / unit.count() > finest) {
    unit *= 2;
    rounded = true;
  }
}

int PlanModel::up(Ms t) const {
  return static_cast<int>((t.count() + unit.count() - 1) / unit.count());
}
int PlanModel::down(Ms t) const { return static_cast<int>(t.count() / unit.count()); }

void PlanModel::place(const Procedure& p) {
  placed.resize(p.steps.size());
  for (std::size_t i = 0; i < p.steps.size(); ++i) {
    const Step& step = p.steps[i];
    if (!applies(step, happened_) || !in_part(p, StepIx{i}, phase_)) continue;
    Placed& at = placed[i];
    at.start = problem.points++;
    at.end = step.is_cover() ? problem.points++ : at.start;
    at.takes = usual(step);
    at.end_offset = up(at.takes);
    if (step.by.size() < 2) continue;
    at.choice = static_cast<int>(problem.options.size());
    problem.options.push_back(static_cast<int>(step.by.size()));
  }
}

void PlanModel::add(int from, int to, int lag, Because why) {
  problem.differences.push_back({from, to, lag});
  because.push_back(why);
}

void PlanModel::add_link(StepIx to, const Link& link) {
  if (!happens(link.step)) return wait_for_signals(to, link.step);
  const Placed& pred = placed[link.step.at()];
  const bool from_start = link.from == Anchor::start;
  const int from = from_start ? pred.start : pred.end;
  const Ms takes = from_start ? Ms{0} : pred.takes;
  const int start = placed[to.at()].start;
  add(from, start, up(takes + link.at_least), {Because::Kind::link, link.step, to});
  if (link.at_most == never) return;
  add(start, from, -down(takes + link.at_most), {Because::Kind::within, link.step, to});
}

void PlanModel::add_needs(StepIx to) {
  const Placed& at = placed[to.at()];
  for (const auto& need : procedure_.step(to).needs) {
    if (need.from && happens(need.from)) {
      const Placed& from = placed[need.from.at()];
      const bool cover = need.kind == Need::Kind::cover;
      add(cover ? from.start : from.end, at.start, cover ? 0 : from.end_offset,
          {Because::Kind::need, need.from, to});
      if (cover) exclude_same(need.from, to);
    }
    if (!need.prepared_by || !happens(need.prepared_by)) continue;
    const auto keeps = procedure_.supply(need.supply).working_time;
    if (keeps == never) continue;
    const Placed& made = placed[need.prepared_by.at()];
    add(at.end, made.end, -down(keeps + made.takes - at.takes),
        {Because::Kind::working_time, need.prepared_by, to});
  }
}

// Nobody covers his or her own work.
void PlanModel::exclude_same(StepIx cover, StepIx work) {
  for (const auto who : procedure_.step(cover).by) {
    if (!procedure_.may_do(who, work)) continue;
    const auto a = whole(cover, who).when, b = whole(work, who).when;
    std::vector<ScheduleProblem::Option> together;
    for (const auto o : {a, b}) {
      if (o.choice >= 0) together.push_back(o);
    }
    problem.excluded.push_back(together);
  }
}

// `to` starts when it is known whether `decided` happens; if that hangs on a step which itself does
// not happen, when that is known.
void PlanModel::wait_for_signals(StepIx to, StepIx decided) {
  const Step& step = procedure_.step(decided);
  for (const auto* signals : {&step.when, &step.unless}) {
    for (const auto ix : *signals) {
      const auto& signal = procedure_.signal(ix);
      if (!signal.after || signal.after == decided) continue;
      if (!happens(signal.after)) {
        wait_for_signals(to, signal.after);
        continue;
      }
      const Placed& after = placed[signal.after.at()];
      const int lag = up((signal.from_start ? Ms{0} : after.takes) + signal.delay);
      add(signal.from_start ? after.start : after.end, placed[to.at()].start, lag,
          {Because::Kind::signal, signal.after, to});
    }
  }
}

void PlanModel::add_covers(StepIx cover) {
  const Placed& at = placed[cover.at()];
  for (const auto covered : procedure_.step(cover).covers) {
    if (!happens(covered)) continue;
    const Placed& work = placed[covered.at()];
    add(work.end, at.end, work.end_offset, {Because::Kind::cover, cover, covered});
  }
  if (procedure_.step(cover).is_cover()) {
    add(at.start, at.end, 0, {Because::Kind::cover, cover, cover});
  }
}

void PlanModel::add_finish() {
  problem.finish = problem.points++;
  clinician_first = problem.points++;
  clinician_last = problem.points++;
  for (std::size_t i = 0; i < placed.size(); ++i) {
    const StepIx step{i};
    if (!happens(step)) continue;
    const Placed& at = placed[i];
    add(at.end, problem.finish, at.end_offset, {Because::Kind::chair, step, step});
    const Step& s = procedure_.step(step);
    const bool own = s.by.size() == 1 && procedure_.person(s.by[0]).role == Role::clinician;
    if (!own || !s.attention || s.is_cover()) continue;
    add(clinician_first, at.start, 0, {Because::Kind::chair, step, step});
    add(at.end, clinician_last, at.end_offset, {Because::Kind::chair, step, step});
    clinicians_own.push_back(step);
  }
  add(clinician_last, problem.finish, 0, {Because::Kind::chair, {}, {}});
  add(clinician_first, clinician_last, 0, {Because::Kind::chair, {}, {}});
}

// From the start to the end of a step, if `who` does it.
Interval PlanModel::whole(StepIx step, PersonIx who) const {
  const Step& s = procedure_.step(step);
  const Placed& at = placed[step.at()];
  Interval i{at.start, 0, at.end, at.end_offset, 1, {}};
  const auto option = std::find(s.by.begin(), s.by.end(), who) - s.by.begin();
  if (at.choice >= 0) i.when = {at.choice, static_cast<int>(option)};
  return i;
}

bool PlanModel::lasts(StepIx i) const {
  return procedure_.step(i).is_cover() || placed[i.at()].end_offset > 0;
}

void PlanModel::add_people() {
  for (std::size_t n = 0; n < procedure_.people.size(); ++n) {
    const PersonIx who{n};
    Resource attention;
    for (std::size_t i = 0; i < placed.size(); ++i) {
      const StepIx step{i};
      if (!happens(step) || !procedure_.may_do(who, step) || !lasts(step)) continue;
      if (procedure_.step(step).attention) attention.intervals.push_back(whole(step, who));
    }
    problem.resources.push_back(std::move(attention));
    means.push_back({Means::Kind::attention, n});
    add_hands(who);
  }
}

// By step that hands something over: the step that takes it.
std::vector<StepIx> PlanModel::first_served() const {
  std::vector<StepIx> served(placed.size());
  for (std::size_t i = 0; i < placed.size(); ++i) {
    if (!happens(StepIx{i})) continue;
    for (const auto& n : procedure_.steps[i].needs) {
      const bool handed = n.kind == Need::Kind::supply && n.from && !served[n.from.at()];
      if (handed) served[n.from.at()] = StepIx{i};
    }
  }
  return served;
}

// Two counts of the same hands. Whoever takes something back while holding something ready needs no
// more hands than for holding it; so one count leaves out the taking back, the other the holding.
void PlanModel::add_hands(PersonIx who) {
  Resource without_taking, without_holding;
  without_taking.capacity = without_holding.capacity = procedure_.person(who).hands;
  const auto served = first_served();
  for (std::size_t i = 0; i < placed.size(); ++i) {
    const StepIx step{i};
    if (!happens(step) || !procedure_.may_do(who, step)) continue;
    const Step& s = procedure_.steps[i];
    auto own = whole(step, who);
    own.demand = std::max(s.hands, static_cast<int>(used_by(s).size()));
    for (const auto& held : held_after(step, who)) {
      without_taking.intervals.push_back(held);
      without_holding.intervals.push_back(held);
      --own.demand;
    }
    if (served[i] && lasts(step)) {
      auto held = own;
      held.end = placed[served[i].at()].start;
      held.end_offset = 0;
      held.demand = 1;
      without_taking.intervals.push_back(held);
      if (own.demand > 0) without_holding.intervals.push_back(own);
      --own.demand;
      if (own.demand > 0) without_taking.intervals.push_back(own);
      continue;
    }
    if (own.demand <= 0 || !lasts(step)) continue;
    without_holding.intervals.push_back(own);
    if (s.verb != Verb::take_back) without_taking.intervals.push_back(own);
  }
  problem.resources.push_back(std::move(without_taking));
  problem.resources.push_back(std::move(without_holding));
  means.insert(means.end(), 2, {Means::Kind::hands, who.at()});
}

// What stays in the hand of the person who uses it, each from the start of the use on.
std::vector<Interval> PlanModel::held_after(StepIx use, PersonIx who) const {
  std::vector<Interval> all;
  const Step& s = procedure_.step(use);
  for (const auto supply : used_by(s)) {
    if (!lasts(use)) continue;
    StepIx next;  // the next step that handles the supply
    for (std::size_t i = use.at() + 1; i < placed.size() && !next; ++i) {
      const Step& t = procedure_.steps[i];
      if (happens(StepIx{i}) && (t.supply == supply || contains(used_by(t), supply)))
        next = StepIx{i};
    }
    const bool kept = contains(s.keeps, supply);
    const bool taken_back = next && procedure_.step(next).verb == Verb::take_back;
    if (!kept && !taken_back) continue;
    auto held = whole(use, who);
    held.end = problem.finish;
    if (next) held.end = taken_back ? placed[next.at()].end : placed[next.at()].start;
    held.end_offset = taken_back ? placed[next.at()].end_offset : 0;
    all.push_back(held);
  }
  return all;
}

void PlanModel::add_devices() {
  for (std::size_t d = 0; d < procedure_.devices.size(); ++d) {
    Resource device;
    for (std::size_t i = 0; i < placed.size(); ++i) {
      const Step& s = procedure_.steps[i];
      if (!contains(s.devices, DeviceIx{d}) || !happens(StepIx{i}) || !lasts(StepIx{i})) continue;
      auto interval = whole(StepIx{i}, s.by.front());
      interval.when = {};
      device.intervals.push_back(interval);
    }
    problem.resources.push_back(std::move(device));
    means.push_back({Means::Kind::device, d});
  }
}

Schedule PlanModel::schedule_of(const Plan& plan) const {
  Schedule s;
  s.time.resize(static_cast<std::size_t>(problem.points), 0);
  s.option.resize(problem.options.size(), 0);
  const auto set = [&](int point, Ms t) { s.time[static_cast<std::size_t>(point)] = up(t); };
  set(problem.finish, plan.chair_time);
  Ms first = never, last{0};
  for (std::size_t i = 0; i < placed.size(); ++i) {
    const PlannedStep& step = plan.steps[i];
    if (!happens(StepIx{i})) continue;
    set(placed[i].start, step.start);
    if (placed[i].end != placed[i].start) set(placed[i].end, step.end);
    const bool own = contains(clinicians_own, StepIx{i});
    if (own) first = std::min(first, step.start);
    if (own) last = std::max(last, step.end);
    if (placed[i].choice < 0) continue;
    const auto& by = procedure_.steps[i].by;
    const auto option = std::find(by.begin(), by.end(), step.by) - by.begin();
    s.option[static_cast<std::size_t>(placed[i].choice)] = static_cast<int>(option);
  }
  if (first != never) set(clinician_first, first);
  set(clinician_last, last);
  return s;
}

StepIx PlanModel::step_at(int point) const {
  for (std::size_t i = 0; i < placed.size(); ++i) {
    if (point != 0 && (placed[i].start == point || placed[i].end == point)) return StepIx{i};
  }
  return {};
}

}  // namespace beforehand::timing
