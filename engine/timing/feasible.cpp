// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "timing/feasible.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>

namespace beforehand::timing {

using procedure::Anchor;
using procedure::Link;
using procedure::Need;
using procedure::Role;
using procedure::Step;
using procedure::Verb;

namespace {

class Rehearsal {
 public:
  Rehearsal(const Procedure& p, const std::vector<SignalIx>& happened, const Plan& plan,
            PhaseIx phase)
      : p_(p), happened_(happened.begin(), happened.end()), plan_(plan), phase_(phase) {}

  std::vector<std::string> run() {
    for (std::size_t i = 0; i < p_.steps.size(); ++i) check_step(StepIx{i});
    std::set<Ms> moments;
    for (const auto& s : plan_.steps) {
      if (s.happens()) moments.insert(s.start);
    }
    for (const auto now : moments) {
      for (std::size_t i = 0; i < p_.people.size(); ++i) check_person(PersonIx{i}, now);
      for (std::size_t i = 0; i < p_.devices.size(); ++i) check_device(DeviceIx{i}, now);
    }
    check_figures();
    return std::move(found_);
  }

 private:
  const PlannedStep& at(StepIx i) const { return plan_.steps[i.at()]; }
  bool under_way(StepIx i, Ms now) const {
    return at(i).happens() && at(i).start <= now && now < at(i).end;
  }
  template <class... Args>
  void fail(fmt::format_string<Args...> format, Args&&... args) {
    found_.push_back(fmt::format(format, std::forward<Args>(args)...));
  }

  bool should_happen(const Step& s) const {
    const bool for_phase = s.serves && s.phase < phase_ && p_.step(s.serves).phase == phase_;
    if (phase_ && s.phase != phase_ && !for_phase) return false;
    for (const auto w : s.when) {
      if (!happened_.contains(w)) return false;
    }
    for (const auto u : s.unless) {
      if (happened_.contains(u)) return false;
    }
    return true;
  }

  void check_step(StepIx i) {
    const Step& s = p_.step(i);
    if (at(i).happens() != should_happen(s)) {
      return fail("{}: happens against its signals, or does not", s.id);
    }
    if (!at(i).happens()) return;
    if (!p_.may_do(at(i).by, i)) fail("{}: done by somebody who may not", s.id);
    if (at(i).start < Ms{0}) fail("{}: starts before the beginning", s.id);
    if (!s.is_cover() && at(i).end - at(i).start != s.takes.usual + s.reach) {
      fail("{}: does not take its usual time", s.id);
    }
    if (at(i).start < at(i).earliest || at(i).start > at(i).latest) {
      fail("{}: starts outside its own window", s.id);
    }
    check_signals(i, i);
    for (const auto& link : s.after) check_link(i, link);
    for (const auto& need : s.needs) check_need(i, need);
  }

  // Nobody can know of a signal before it is decided.
  void check_signals(StepIx waits, StepIx on) {
    for (const auto* list : {&p_.step(on).when, &p_.step(on).unless}) {
      for (const auto ix : *list) {
        const auto& signal = p_.signal(ix);
        if (!signal.after) continue;
        if (!at(signal.after).happens()) {
          check_signals(waits, signal.after);
          continue;
        }
        const auto shows =
            (signal.from_start ? at(signal.after).start : at(signal.after).end) + signal.delay;
        if (at(waits).start < shows) fail("{}: before its signal shows", p_.step(waits).id);
      }
    }
  }

  void check_link(StepIx i, const Link& link) {
    if (!at(link.step).happens()) return check_signals(i, link.step);
    const auto from = link.from == Anchor::start ? at(link.step).start : at(link.step).end;
    const auto gap = at(i).start - from;
    if (gap < link.at_least) fail("{}: too soon after {}", p_.step(i).id, p_.step(link.step).id);
    if (gap > link.at_most) fail("{}: too long after {}", p_.step(i).id, p_.step(link.step).id);
  }

  void check_need(StepIx i, const Need& need) {
    const auto& id = p_.step(i).id;
    if (need.from && at(need.from).happens()) {
      const auto& from = at(need.from);
      const auto& name = p_.step(need.from).id;
      if (need.kind == Need::Kind::cover) {
        if (from.start > at(i).start || from.end < at(i).end)
          fail("{}: not covered by {}", id, name);
        if (from.by == at(i).by) fail("{}: {} is done by the same person", id, name);
      } else if (from.end > at(i).start) {
        fail("{}: before {} is done", id, name);
      }
    }
    if (!need.prepared_by || !at(need.prepared_by).happens()) return;
    if (at(i).end - at(need.prepared_by).end > p_.supply(need.supply).working_time) {
      fail("{}: {} has set", id, p_.supply(need.supply).id);
    }
  }

  // The supply is in the hand of whoever last used it, still to be used again or taken back.
  bool in_hand_after(StepIx use, SupplyIx supply, Ms now) const {
    const auto& keeps = p_.step(use).keeps;
    const bool kept = std::find(keeps.begin(), keeps.end(), supply) != keeps.end();
    for (std::size_t i = use.at() + 1; i < p_.steps.size(); ++i) {
      const Step& s = p_.steps[i];
      if (!at(StepIx{i}).happens()) continue;
      if (s.supply == supply && s.verb == Verb::take_back) return now < at(StepIx{i}).end;
      const bool handles = s.supply == supply || uses(s, supply);
      if (handles) return kept && now < at(StepIx{i}).start;
    }
    return kept && now < plan_.chair_time;
  }
  static bool uses(const Step& s, SupplyIx supply) {
    return std::any_of(s.needs.begin(), s.needs.end(), [&](const Need& n) {
      return n.kind == Need::Kind::supply && n.supply == supply;
    });
  }

  // Whether what `pass` offers has been passed and not yet been taken.
  bool offering(StepIx pass, Ms now) const {
    if (at(pass).end > now) return false;
    for (std::size_t i = 0; i < p_.steps.size(); ++i) {
      if (!at(StepIx{i}).happens()) continue;
      for (const auto& n : p_.steps[i].needs) {
        if (n.kind == Need::Kind::supply && n.from == pass) return now < at(StepIx{i}).start;
      }
    }
    return false;
  }

  void check_person(PersonIx who, Ms now) {
    int attention = 0, busy = 0, holding = 0, taking = 0;
    for (std::size_t i = 0; i < p_.steps.size(); ++i) {
      const StepIx ix{i};
      const Step& s = p_.steps[i];
      if (!at(ix).happens() || at(ix).by != who || now < at(ix).start) continue;
      std::set<SupplyIx> in_use;
      for (const auto& n : s.needs) {
        if (n.kind == Need::Kind::supply) in_use.insert(n.supply);
      }
      const int used = static_cast<int>(in_use.size());
      const auto kept = at(ix).end == at(ix).start
                            ? 0
                            : std::count_if(in_use.begin(), in_use.end(), [&](SupplyIx supply) {
                                return in_hand_after(ix, supply, now);
                              });
      if (under_way(ix, now)) {
        attention += s.attention;
        (s.verb == Verb::take_back ? taking : busy) += std::max(s.hands, used);
      } else {
        busy += static_cast<int>(kept);
        holding += offering(ix, now) && at(ix).end > at(ix).start;
      }
    }
    // What is taken back goes into a hand that offers something: an exchange.
    const int hands =
        busy + std::max(holding, taking > 0 && holding > 0 ? holding + taking - 1 : taking);
    if (attention > 1) fail("{} at {} ms: two things at once", p_.person(who).id, now.count());
    if (hands > p_.person(who).hands) {
      fail("{} at {} ms: {} hands wanted", p_.person(who).id, now.count(), hands);
    }
  }

  void check_device(DeviceIx device, Ms now) {
    int users = 0;
    for (std::size_t i = 0; i < p_.steps.size(); ++i) {
      const auto& list = p_.steps[i].devices;
      const bool needs = std::find(list.begin(), list.end(), device) != list.end();
      users += needs && under_way(StepIx{i}, now);
    }
    if (users > 1) fail("{} at {} ms: used twice", p_.devices[device.at()].id, now.count());
  }

  void check_figures() {
    Ms last{0}, first_own = never, last_own{0}, own{0};
    for (std::size_t i = 0; i < p_.steps.size(); ++i) {
      const Step& s = p_.steps[i];
      const auto& t = plan_.steps[i];
      if (!t.happens()) continue;
      last = std::max(last, t.end);
      const bool only = s.by.size() == 1 && p_.person(s.by[0]).role == Role::clinician;
      if (!only || !s.attention || s.is_cover()) continue;
      first_own = std::min(first_own, t.start);
      last_own = std::max(last_own, t.end);
      own += t.end - t.start;
    }
    if (last != plan_.chair_time) fail("the chair time is {} ms", last.count());
    const auto wait = first_own == never ? Ms{0} : last_own - first_own - own;
    if (wait > plan_.clinician_wait) fail("the clinician waits {} ms", wait.count());
    if (plan_.lower_bound > plan_.chair_time) fail("the lower bound lies above the chair time");
  }

  const Procedure& p_;
  const std::set<SignalIx> happened_;
  const Plan& plan_;
  const PhaseIx phase_;
  std::vector<std::string> found_;
};

}  // namespace

std::vector<std::string> violations(const Procedure& p, const std::vector<SignalIx>& happened,
                                    const Plan& plan, PhaseIx phase) {
  return Rehearsal(p, happened, plan, phase).run();
}

}  // namespace beforehand::timing
