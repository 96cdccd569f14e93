// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "scoring/hindsight.hpp"

#include <algorithm>

#include "procedure/relations.hpp"

namespace beforehand::scoring {
namespace {

using procedure::Anchor;
using procedure::Need;
using procedure::Step;

class LookBack {
 public:
  LookBack(const Frame& f, const Session& s, const Trace& t, std::vector<HindsightStep>& out)
      : f_(f), p_(f.procedure), s_(s), t_(t), out_(out) {}

  void run() {
    out_.assign(p_.steps.size(), {});
    for (std::size_t s = 0; s < out_.size(); ++s) classify(StepIx{s});
    for (const StepIx s : p_.topological)
      if (at(s).trainees) open(s);
    for (std::size_t s = 0; s < out_.size(); ++s) fit_working_time(StepIx{s});
    for (const StepIx s : p_.topological) want(s);
    for (auto s = p_.topological.rbegin(); s != p_.topological.rend(); ++s) hand_down_due(*s);
    for (auto& step : out_)
      if (step.trainees && step.soonest != never) step.due = std::max(step.due, step.soonest);
  }

 private:
  HindsightStep& at(StepIx s) { return out_[s.at()]; }
  const StepTrace& was(StepIx s) const { return t_.steps[s.at()]; }

  void classify(StepIx s) {
    HindsightStep& h = at(s);
    const Step& step = p_.step(s);
    h.trainees = (f_.prefers_trainee(s) || was(s).by_trainee) && t_.applies(f_, s_, s);
    if (!h.trainees) return;
    if (!step.is_cover())
      h.takes = was(s).by_trainee && was(s).acted != never ? was(s).acted - was(s).started
                                                           : step.takes.usual + step.reach;
    h.due = std::max(t_.others_end, Ms{0});
    if (!was(s).by_trainee && was(s).by)  // somebody else had to do it
      h.due = was(s).started != never ? was(s).started : was(s).ended;
  }

  /// Both forward passes at once: as if the trainee had done everything as soon as it could be
  /// done, and as it was.
  void open(StepIx s) {
    Ms soonest = t_.known_at(p_, s);
    Ms really = soonest;
    for (const auto& link : p_.step(s).after) {
      const HindsightStep& before = at(link.step);
      const bool from_end = link.from == Anchor::end;
      if (before.trainees) {
        later(soonest, from_end ? before.soonest : minus(before.soonest, before.takes),
              link.at_least);
        later(really, from_end ? was(link.step).acted : was(link.step).started, link.at_least);
      } else if (took_part(link.step)) {
        const Ms when = from_end ? was(link.step).ended : was(link.step).started;
        later(soonest, when, link.at_least);
        later(really, when, link.at_least);
      }
    }
    at(s).opened = really;
    at(s).soonest = soonest == never ? never : soonest + at(s).takes;
  }

  bool took_part(StepIx s) const { return t_.applies(f_, s_, s) && !f_.prefers_trainee(s); }
  static Ms minus(Ms moment, Ms length) { return moment == never ? never : moment - length; }
  static void later(Ms& moment, Ms other, Ms lag) {
    if (moment == never || other == never)
      moment = never;
    else
      moment = std::max(moment, other + lag);
  }

  /// Made ready earlier than its working time before the end of its use, a thing would have set.
  void fit_working_time(StepIx user) {
    if (was(user).ended == never) return;
    for (const Need& need : p_.step(user).needs) {
      if (!need.prepared_by || !need.supply || at(need.prepared_by).opened == never) continue;
      const Ms working_time = p_.supply(need.supply).working_time;
      if (working_time == never) continue;
      Ms& opened = at(need.prepared_by).opened;
      opened = std::max(opened, was(user).ended - working_time);
    }
  }

  /// How long the end of what a step needs may come after that step has begun.
  Ms from_its_start(StepIx s, const Need& need) {
    return procedure::start_suffices(p_.step(s), need) ? at(need.from).takes : Ms{0};
  }

  /// Nothing a step needs is due before everything it needs could have been there.
  void want(StepIx s) {
    if (at(s).trainees || was(s).wanted() == never) return;
    Ms& wanted = at(s).wanted = was(s).wanted();
    for (const Need& need : p_.step(s).needs)
      if (need.from && at(need.from).trainees && at(need.from).soonest != never)
        wanted = std::max(wanted, at(need.from).soonest - from_its_start(s, need));
  }

  /// Passes on to what comes before `s` by when that had to have ended.
  void hand_down_due(StepIx s) {
    const bool trainees = at(s).trainees;
    if (!trainees && !t_.applies(f_, s_, s)) return;
    const Ms start = trainees ? at(s).due - at(s).takes : at(s).wanted;
    if (start == never) return;
    for (const auto& link : p_.step(s).after)
      if (at(link.step).trainees) {
        const Ms end = start - link.at_least;
        earlier(link.step, link.from == Anchor::end ? end : end + at(link.step).takes);
      }
    if (trainees) return;
    for (const Need& need : p_.step(s).needs)
      if (need.from && at(need.from).trainees) earlier(need.from, start + from_its_start(s, need));
  }

  void earlier(StepIx s, Ms due) { at(s).due = std::min(at(s).due, due); }

  const Frame& f_;
  const Procedure& p_;
  const Session& s_;
  const Trace& t_;
  std::vector<HindsightStep>& out_;
};

}  // namespace

void look_back(const Frame& frame, const Session& session, const Trace& trace,
               std::vector<HindsightStep>& out) {
  LookBack(frame, session, trace, out).run();
}

}  // namespace beforehand::scoring
