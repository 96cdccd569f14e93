// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "procedure/needs.hpp"

#include <algorithm>
#include <iterator>
#include <string>
#include <utility>

#include "procedure/relations.hpp"

namespace beforehand::procedure {
namespace {

using Steps = std::vector<StepIx>;

bool passes(const Step& step) { return step.verb == Verb::pass; }

class Needs {
 public:
  Needs(Procedure& p, std::vector<Problem>& problems)
      : p_(p), problems_(problems), lives_(lives(p)), passes_for_(p.steps.size()) {}

  void fill_in() {
    for (std::size_t i = 0; i < p_.steps.size(); ++i) check_pass(StepIx{i});
    for (std::size_t i = 0; i < p_.steps.size(); ++i) {
      add_supplies(StepIx{i});
      add_covers(StepIx{i});
      add_done(StepIx{i});
    }
  }

 private:
  void error(Mark mark, Said message) {
    problems_.push_back({Problem::Kind::error, mark, std::move(message)});
  }

  void check_pass(StepIx ix) {
    const Step& pass = p_.step(ix);
    if (!passes(pass)) return;
    const auto& supply = p_.supply(pass.supply).id;
    if (!pass.serves)
      return error(pass.mark, say("nobody needs what {} passes; name the step it is for, as "
                                  "in \"for: etch\"",
                                  pass.id));
    const Step& taker = p_.step(pass.serves);
    if (!needs_supply(taker, pass.supply))
      return error(pass.mark, say("{} does not need what {} passes; add {} to its \"needs\" "
                                  "or take the pass away",
                                  named(p_, taker), pass.id, supply));
    if (pass.by.size() == 1 && taker.by == pass.by)
      error(pass.mark, say("{} passes {} to the person who passes it", pass.id, supply));
    if (!applies_whenever(taker, pass))
      error(pass.mark, say("{} passes {} also when {} does not apply; give it the same "
                           "\"when\" and \"unless\"",
                           pass.id, supply, named(p_, taker)));
    passes_for_[pass.serves.at()].push_back(ix);
  }

  void add_supplies(StepIx ix) {
    const auto written = std::exchange(p_.steps[ix.at()].needs, {});
    for (Need need : written) {
      need.prepared_by = who_prepared(ix, need.supply);
      check_prepared(ix, need);
      Steps from = passes_for_[ix.at()];
      std::erase_if(from, [&](StepIx pass) { return p_.step(pass).supply != need.supply; });
      check_served(ix, need, from);
      if (from.empty()) from.push_back({});  // kept in the own hand
      for (const StepIx pass : from) {
        need.from = pass;
        p_.steps[ix.at()].needs.push_back(need);
      }
    }
  }

  bool is_passed_twice(const Step& step, const Steps& from, const std::string& supply) {
    for (std::size_t i = 0; i < from.size(); ++i) {
      for (std::size_t j = 0; j < i; ++j) {
        if (!can_both_apply(p_.step(from[i]), p_.step(from[j]))) continue;
        error(p_.step(from[i]).mark, say("{} is already passed for {} by {}", supply, step.id,
                                         named(p_, p_.step(from[j]))));
        return true;
      }
    }
    return false;
  }

  void check_served(StepIx ix, const Need& need, const Steps& from) {
    const Step& step = p_.step(ix);
    const auto& supply = p_.supply(need.supply).id;
    if (is_passed_twice(step, from, supply) || is_kept(ix, need.supply) ||
        is_served_in_every_case(from, p_, step))
      return;
    if (from.empty())
      error(step.mark, say("{} needs {}, but nobody passes it and it is not in the hand "
                           "already; add a step \"does: pass, supply: {}, for: {}\"",
                           step.id, supply, supply, step.id));
    else
      error(step.mark, say("{} needs {} in every case, but it is passed only when certain "
                           "signals happen or do not: {}",
                           step.id, supply, named(p_, p_.step(from.front()))));
  }

  // No two of them apply at once, and each only where the step does: they fill its cases when their
  // shares add up. Each signal a pass depends on beyond the step's own halves its share.
  static bool is_served_in_every_case(const Steps& passes, const Procedure& p, const Step& step) {
    const auto signals = [](const Step& s) { return s.when.size() + s.unless.size(); };
    std::uint64_t whole = std::uint64_t{1} << p.signals.size(), served = 0;
    for (const StepIx pass : passes) {
      if (!applies_whenever(step, p.step(pass))) return true;  // reported already
      served += whole >> (signals(p.step(pass)) - signals(step));
    }
    return served == whole;
  }

  // Calls `visit` for the steps that handle the supply before `ix`, the latest first, until it
  // returns false.
  template <class Visit>
  void look_back(StepIx ix, SupplyIx supply, Visit visit) const {
    const auto& life = lives_[supply.at()];
    auto at = std::find(life.begin(), life.end(), ix);
    while (at != life.begin()) {
      if (!visit(*--at)) return;
    }
  }

  bool is_kept(StepIx ix, SupplyIx supply) const {
    const Step& step = p_.step(ix);
    bool kept = false;
    look_back(ix, supply, [&](StepIx before) {
      const Step& other = p_.step(before);
      if (!can_both_apply(other, step)) return true;
      if (doer(other) != doer(step) || !keeps(other, supply)) return false;
      kept = applies_whenever(other, step);
      return !kept;
    });
    return kept;
  }

  // A use that keeps the supply, or leaves it as ready as before, uses nothing up.
  StepIx who_prepared(StepIx ix, SupplyIx supply) const {
    StepIx found;
    look_back(ix, supply, [&](StepIx before) {
      const Step& other = p_.step(before);
      if (!can_both_apply(other, p_.step(ix))) return true;
      if (prepares(other.verb) && other.supply == supply) {
        found = before;
        return false;
      }
      const bool used_up = needs_supply(other, supply) && !keeps(other, supply) &&
                           p_.supply(supply).after_use != AfterUse::ready;
      return !(used_up && applies_whenever(other, p_.step(ix)));
    });
    return found;
  }

  void check_prepared(StepIx ix, const Need& need) {
    const Supply& supply = p_.supply(need.supply);
    if (!supply.needs_preparing || need.prepared_by || supply.starts == SupplyState::prepared)
      return;
    error(p_.step(ix).mark, say("{} needs {} ready, but nobody opens, mixes or loads it "
                                "before (since its last use); add such a step",
                                p_.step(ix).id, supply.id));
  }

  void add_covers(StepIx ix) {
    Step& step = p_.steps[ix.at()];
    for (const StepIx cover : step.covered_by) {
      Need need;
      need.kind = Need::Kind::cover;
      need.supply = p_.step(cover).supply;
      need.from = cover;
      need.mark = step.mark;
      step.needs.push_back(need);
    }
  }

  // Those that only have to start come last: the places of the others stay what they were.
  void add_done(StepIx ix) {
    for (const Anchor from : {Anchor::end, Anchor::start}) add_done(ix, from);
  }

  void add_done(StepIx ix, Anchor from) {
    Step& step = p_.steps[ix.at()];
    for (const Link& link : step.after) {
      if (link.from != from || !only_others_do(link, ix)) continue;
      if (from == Anchor::start && (link.implied || starts_anyway(link, ix))) continue;
      const bool known = std::any_of(step.needs.begin(), step.needs.end(), [&](const Need& n) {
        return n.kind == Need::Kind::done && n.from == link.step;
      });
      if (known) continue;
      Need need;
      need.kind = Need::Kind::done;
      need.from = link.step;
      need.mark = link.mark;
      step.needs.push_back(need);
    }
  }

  // Whether something else that the clinician waits for lies behind the start of that step, or the
  // step is not the clinician's, for whom alone others have to be asked.
  bool starts_anyway(const Link& link, StepIx ix) const {
    const Step& step = p_.step(ix);
    return p_.person(doer(step)).role != Role::clinician ||
           std::any_of(step.after.begin(), step.after.end(), [&](const Link& other) {
             return other.step != link.step && p_.precedes(link.step, other.step);
           });
  }

  // What the order of a supply's life adds is a need of the clinician's only where a prep must end
  // before it; a pass for this step is a need of its own kind.
  bool only_others_do(const Link& link, StepIx ix) const {
    const Step &other = p_.step(link.step), &step = p_.step(ix);
    if (doer(other) == doer(step)) return false;
    if (passes(other) && other.serves == ix) return false;
    if (!link.implied || other.serves == ix) return true;
    return p_.person(doer(step)).role == Role::clinician && !other.is_cover() && !passes(other);
  }

  Procedure& p_;
  std::vector<Problem>& problems_;
  std::vector<Steps> lives_;
  std::vector<Steps> passes_for_;  // by step: the passes for it
};

}  // namespace

void fill_in_needs(Procedure& p, std::vector<Problem>& problems) { Needs(p, problems).fill_in(); }

}  // namespace beforehand::procedure
