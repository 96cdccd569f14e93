// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "procedure/hands.hpp"

#include <algorithm>
#include <iterator>
#include <string>

#include "procedure/relations.hpp"

namespace beforehand::procedure {
namespace {

using Steps = std::vector<StepIx>;

// What one person holds beside the work, as the file goes on.
class Hands {
 public:
  Hands(const Procedure& p, PersonIx who, std::vector<Waiting>& waiting,
        std::vector<Problem>& problems)
      : p_(p), who_(who), waiting_(waiting), problems_(problems), lives_(lives(p)) {}

  void follow() {
    for (std::size_t i = 0; i < p_.steps.size(); ++i) {
      const Step& step = p_.steps[i];
      if (step.verb == Verb::take_back && doer(step) != who_) take(StepIx{i});
      if (doer(step) == who_ && !step.is_cover()) work(StepIx{i});
    }
  }

 private:
  struct Held {
    SupplyIx supply;
    StepIx freed_by;  // the take-back, once the file has come past it
  };

  void take(StepIx take_back) {
    for (Held& held : held_) {
      if (held.supply == p_.step(take_back).supply) held.freed_by = take_back;
    }
  }

  void work(StepIx ix) {
    const Step& step = p_.step(ix);
    std::erase_if(held_, [&](const Held& held) {  // taken up again, or surely gone by now
      return needs_supply(step, held.supply) || (held.freed_by && p_.precedes(held.freed_by, ix));
    });
    int lacking = static_cast<int>(held_.size()) + hands_for(step) - p_.person(who_).hands;
    for (auto held = held_.begin(); held != held_.end() && lacking > 0;) {
      if (!held->freed_by || p_.precedes(ix, held->freed_by)) {
        ++held;
        continue;
      }
      waiting_.push_back({held->freed_by, ix});
      held = held_.erase(held);
      --lacking;
    }
    if (lacking > 0) report(step);
    for (const Need& need : step.needs) {
      if (need.kind == Need::Kind::supply && stays_in_hand(ix, need.supply))
        held_.push_back({need.supply, {}});
    }
  }

  static int hands_for(const Step& step) {
    const auto supplies = std::count_if(step.needs.begin(), step.needs.end(),
                                        [](const Need& n) { return n.kind == Need::Kind::supply; });
    return std::max(step.hands, static_cast<int>(supplies));
  }

  bool stays_in_hand(StepIx ix, SupplyIx supply) const {
    if (keeps(p_.step(ix), supply)) return true;
    const auto& life = lives_[supply.at()];
    const auto next = std::next(std::find(life.begin(), life.end(), ix));
    return next != life.end() && p_.step(*next).verb == Verb::take_back;
  }

  void report(const Step& step) {
    std::vector<Said> holding;
    for (const Held& held : held_) holding.push_back(p_.supply(held.supply).id);
    const int wanted = hands_for(step);
    const auto hands = say(wanted == 1 ? "{} hand" : "{} hands", wanted);
    const auto& person = p_.person(who_);
    problems_.push_back({Problem::Kind::error, step.mark,
                         holding.empty()
                             ? say("{} takes {}, but {} has {}; lower \"hands\" or split the step",
                                   step.id, hands, person.id, person.hands)
                             : say("{} takes {} while still holding {}, but {} has {}; take "
                                   "something back before it",
                                   step.id, hands, listed(holding), person.id, person.hands)});
  }

  const Procedure& p_;
  PersonIx who_;
  std::vector<Waiting>& waiting_;
  std::vector<Problem>& problems_;
  std::vector<Steps> lives_;
  std::vector<Held> held_;
};

// Whoever may do a step needs the hands for it; of its doer, Hands tells.
void check_hands_of_all(const Procedure& p, const Step& step, std::vector<Problem>& problems) {
  for (const PersonIx who : step.by) {
    const Person& person = p.person(who);
    const bool told_by_hands = who == doer(step) && !step.is_cover();
    if (step.hands <= person.hands || told_by_hands) continue;
    problems.push_back(
        {Problem::Kind::error, step.mark,
         say("{} takes {} hands, but {} has {}", step.id, step.hands, person.id, person.hands)});
  }
}

// What one person must hold at once for a step of somebody else: its covers, and what is offered
// for it. Looked at in the case in which `certain` applies.
int hands_at_once(const Procedure& p, const Step& step, PersonIx who, const Step& certain) {
  int hands = 0;
  for (const Need& need : step.needs) {
    if (!need.from || need.kind == Need::Kind::done) continue;
    const Step& server = p.step(need.from);
    if (doer(server) != who || !applies_whenever(server, certain)) continue;
    hands += need.kind == Need::Kind::cover ? server.hands : 1;
  }
  return hands;
}

void check_step_at_once(const Procedure& p, const Step& step, std::vector<Problem>& problems) {
  for (const Need& need : step.needs) {
    if (!need.from || need.kind == Need::Kind::done) continue;
    const Step& server = p.step(need.from);
    const Person& person = p.person(doer(server));
    const Step& certain = applies_whenever(step, server) ? server : step;
    const int hands = hands_at_once(p, step, doer(server), certain);
    if (hands <= person.hands) continue;
    problems.push_back({Problem::Kind::error, step.mark,
                        say("{} wants {} hands of {} at once, to cover it and to offer what "
                            "it needs, but there are {}; let something be taken earlier and "
                            "kept",
                            step.id, hands, person.id, person.hands)});
    return;
  }
}

}  // namespace

std::vector<Waiting> find_who_waits_for_a_take_back(const Procedure& p,
                                                    std::vector<Problem>& problems) {
  std::vector<Waiting> waiting;
  for (const Step& step : p.steps) check_hands_of_all(p, step, problems);
  for (std::size_t i = 0; i < p.people.size(); ++i)
    Hands(p, PersonIx{i}, waiting, problems).follow();
  return waiting;
}

void check_hands_at_once(const Procedure& p, std::vector<Problem>& problems) {
  for (const Step& step : p.steps) check_step_at_once(p, step, problems);
}

}  // namespace beforehand::procedure
