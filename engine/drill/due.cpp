// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include <algorithm>

#include "drill/world.hpp"

namespace beforehand::drill {
namespace {

using procedure::Anchor;
using procedure::Role;

struct Span {
  Ms start{0}, end{0};
};

// How long an assistant's step takes, as far as can be known now. A cover is there at once.
Ms length(const Procedure& p, const World& w, StepIx ix) {
  const auto& step = p.step(ix);
  const auto& was = w.step(ix);
  if (step.is_cover()) return Ms{0};
  if (was.state == StepState::done) return was.ended - was.started;
  if (was.state == StepState::doing) {
    for (const auto& d : w.person(was.by).doing) {
      if (d.step == ix && d.ends != never) return d.ends - d.started;
    }
  }
  return step.takes.usual + step.reach;
}

bool clinicians(const Procedure& p, StepIx ix) {
  return p.person(p.step(ix).by.front()).role == Role::clinician;
}

Ms soonest(const Procedure& p, const World& w, StepIx ix, const std::vector<Span>& spans) {
  const auto& step = p.step(ix);
  Ms start{0};
  for (const auto s : step.when) start = std::max(start, w.signal_at[s.at()]);
  for (const auto s : step.unless) start = std::max(start, w.signal_at[s.at()]);
  const auto after = [&](StepIx before, Ms moment, Ms lag) {
    if (w.step(before).state != StepState::skipped) start = std::max(start, moment + lag);
  };
  for (const auto& link : step.after) {
    const auto& before = spans[link.step.at()];
    after(link.step, link.from == Anchor::start ? before.start : before.end, link.at_least);
  }
  for (const auto& need : step.needs) {
    if (need.from) after(need.from, spans[need.from.at()].end, Ms{0});
  }
  return start;
}

}  // namespace

Ms due_at(const Procedure& p, const World& w, StepIx step) {
  std::vector<Span> spans(p.steps.size());
  for (const auto ix : p.topological) {
    if (ix != step && !p.precedes(ix, step)) continue;
    auto& span = spans[ix.at()];
    if (ix != step && clinicians(p, ix)) {
      span = {w.step(ix).started, w.step(ix).ended};
    } else {
      span.start = soonest(p, w, ix, spans);
      span.end = span.start + length(p, w, ix);
    }
  }
  return spans[step.at()].start;
}

}  // namespace beforehand::drill
