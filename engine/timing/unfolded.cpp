// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "timing/unfolded.hpp"

#include <algorithm>

#include "timing/applies.hpp"
#include "timing/windows.hpp"

namespace beforehand::timing {

using procedure::Anchor;
using procedure::Link;
using procedure::Need;
using procedure::Role;
using procedure::Step;

namespace {

bool clinicians(const Procedure& p, StepIx i) {
  return p.person(p.step(i).by.front()).role == Role::clinician;
}

}  // namespace

Unfolded::Unfolded(const Procedure& p, const std::vector<SignalIx>& happened, Durations durations)
    : points_(p.steps.size(), 0) {
  for (std::size_t i = 0; i < points_.size(); ++i) {
    if (!applies(p.steps[i], happened)) continue;
    points_[i] = static_cast<TemporalNetwork::Point>(network.points);
    network.points += 2;
  }
  add_durations(p, durations);
  for (std::size_t i = 0; i < points_.size(); ++i) {
    if (!happens(StepIx{i})) continue;
    add_links(p, StepIx{i});
    add_needs(p, StepIx{i});
  }
  if (durations == Durations::contingent) add_at_once(p);
}

void Unfolded::add(TemporalNetwork::Constraint c, Says what) {
  network.constraints.push_back(c);
  says.push_back(what);
}

void Unfolded::add_durations(const Procedure& p, Durations durations) {
  for (std::size_t i = 0; i < points_.size(); ++i) {
    const StepIx step{i};
    if (!happens(step)) continue;
    const auto& s = p.steps[i];
    const Says what{Says::Kind::duration, step, step, true, s.takes.least + s.reach};
    add({0, start(step), Ms{0}, never}, what);
    if (s.is_cover()) {
      add({start(step), end(step), Ms{0}, never}, what);
    } else if (durations == Durations::free) {
      add({start(step), end(step), s.takes.least + s.reach, s.takes.most + s.reach}, what);
    } else if (clinicians(p, step) && s.takes.least < s.takes.most) {
      network.contingent.push_back(
          {start(step), end(step), s.takes.least + s.reach, s.takes.most + s.reach});
      contingent.push_back(step);
    } else {
      add({start(step), end(step), s.takes.usual + s.reach, s.takes.usual + s.reach}, what);
    }
  }
}

void Unfolded::add_links(const Procedure& p, StepIx to) {
  for (const Link& link : p.step(to).after) {
    if (!happens(link.step)) continue;
    const bool from_start = link.from == Anchor::start;
    const auto from = from_start ? start(link.step) : end(link.step);
    add({from, start(to), link.at_least, never},
        {Says::Kind::link, link.step, to, from_start, link.at_least});
    if (link.at_most == never) continue;
    add({from, start(to), -never, link.at_most},
        {Says::Kind::within, link.step, to, from_start, link.at_most});
  }
}

void Unfolded::add_needs(const Procedure& p, StepIx to) {
  for (const Need& need : p.step(to).needs) {
    if (need.from && happens(need.from)) {
      const bool cover = need.kind == Need::Kind::cover;
      add({cover ? start(need.from) : end(need.from), start(to), Ms{0}, never},
          {Says::Kind::need, need.from, to, cover, Ms{0}});
      if (cover) {
        add({end(to), end(need.from), Ms{0}, never},
            {Says::Kind::cover, need.from, to, false, Ms{0}});
      }
    }
    if (!need.prepared_by || !happens(need.prepared_by)) continue;
    const auto keeps = p.supply(need.supply).working_time;
    if (keeps == never) continue;
    add({end(need.prepared_by), end(to), -never, keeps},
        {Says::Kind::working_time, need.prepared_by, to, false, keeps});
  }
}

// A clinician's step with one own predecessor starts as soon as that allows, or as much later as
// preps made without delay, in usual time, are ready.
void Unfolded::add_at_once(const Procedure& p) {
  std::vector<StepTime> progress(p.steps.size());
  for (std::size_t i = 0; i < points_.size(); ++i) {
    if (!happens(StepIx{i})) progress[i].state = StepTime::State::skipped;
  }
  std::vector<Window> windows;
  timing::windows(p, progress, Ms{0}, windows);
  for (std::size_t i = 0; i < points_.size(); ++i) {
    const StepIx step{i};
    if (!happens(step) || !clinicians(p, step)) continue;
    const Link* own = nullptr;
    int count = 0;
    for (const Link& link : p.steps[i].after) {
      if (!happens(link.step) || !clinicians(p, link.step) || link.implied) continue;
      own = &link;
      ++count;
    }
    if (count != 1) continue;
    const bool from_start = own->from == Anchor::start;
    const auto& before = p.step(own->step);
    const Ms anchor =
        windows[own->step.at()].expected + (from_start ? Ms{0} : before.takes.usual + before.reach);
    const Ms later = std::max(own->at_least, windows[i].expected - anchor);
    add({from_start ? start(own->step) : end(own->step), start(step), -never, later},
        {Says::Kind::at_once, own->step, step, from_start, later});
  }
}

}  // namespace beforehand::timing
