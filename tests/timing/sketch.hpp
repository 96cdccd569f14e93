// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <string>
#include <vector>

#include "procedure/procedure.hpp"

// Procedures put together by hand, with the derived fields the timing room reads filled in by hand
// too, so that these tests depend on no other room's work.

namespace beforehand::timing {

using procedure::Anchor;
using procedure::Link;
using procedure::Need;
using procedure::Procedure;
using procedure::Role;
using procedure::Step;
using procedure::Verb;

inline Ms s(double seconds) { return Ms{static_cast<std::int64_t>(seconds * 1000)}; }

inline const PersonIx clinician{0}, assistant{1};

class Sketch {
 public:
  Sketch() {
    p.people.resize(2);
    p.people[0] = {"clinician", "Clinician", Role::clinician, 2, {}};
    p.people[1] = {"assistant", "Assistant", Role::assistant, 2, {}};
    p.phases.resize(1);
  }

  StepIx step(std::string id, std::vector<PersonIx> by, Ms takes, std::vector<StepIx> after = {}) {
    Step step;
    step.id = step.title = std::move(id);
    step.phase = PhaseIx{0};
    step.by = std::move(by);
    step.takes = {takes, takes, takes};
    step.verb = step.by.front() == clinician ? Verb::work : Verb::use;
    step.mark.line = static_cast<int>(p.steps.size()) + 1;
    p.steps.push_back(step);
    const StepIx ix{p.steps.size() - 1};
    for (const auto a : after) link(ix, a);
    return ix;
  }

  Link& link(StepIx step, StepIx after, Ms at_least = Ms{0}, Ms at_most = never,
             Anchor from = Anchor::end) {
    Link link;
    link.step = after;
    link.from = from;
    link.at_least = at_least;
    link.at_most = at_most;
    link.mark = at(step).mark;
    at(step).after.push_back(link);
    return at(step).after.back();
  }

  SupplyIx supply(std::string id, Ms working_time = never) {
    p.supplies.emplace_back();
    p.supplies.back().id = p.supplies.back().name = std::move(id);
    p.supplies.back().working_time = working_time;
    return SupplyIx{p.supplies.size() - 1};
  }

  /// A pass of `what` by the assistant, served to `user`.
  StepIx pass(SupplyIx what, StepIx user, Ms takes, std::vector<StepIx> after = {},
              StepIx prepared_by = {}) {
    return serve(step("pass " + p.supply(what).id, {assistant}, takes, std::move(after)), what,
                 user, prepared_by);
  }

  StepIx serve(StepIx ix, SupplyIx what, StepIx user, StepIx prepared_by = {}) {
    at(ix).verb = Verb::pass;
    at(ix).supply = what;
    at(ix).serves = user;
    Need need;
    need.kind = Need::Kind::supply;
    need.supply = what;
    need.from = ix;
    need.prepared_by = prepared_by;
    at(user).needs.push_back(need);
    return ix;
  }

  StepIx cover(std::string id, PersonIx by, std::vector<StepIx> covered) {
    const auto ix = step(std::move(id), {by}, Ms{0});
    at(ix).verb = Verb::suction;
    at(ix).attention = false;
    at(ix).covers = covered;
    for (const auto c : covered) {
      at(c).covered_by.push_back(ix);
      Need need;
      need.kind = Need::Kind::cover;
      need.from = ix;
      at(c).needs.push_back(need);
    }
    return ix;
  }

  Step& at(StepIx i) { return p.steps[i.at()]; }

  Procedure p;
};

}  // namespace beforehand::timing
