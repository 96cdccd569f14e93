// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "scoring/trace.hpp"

#include <algorithm>

#include "scoring/redone.hpp"
#include "scoring/timekeeper.hpp"

namespace beforehand::scoring {
namespace {

using drill::Event;
using drill::What;

}  // namespace

/// Turns one session's events into a Trace.
class TraceReader {
 public:
  TraceReader(Trace& t, const Frame& f, const Session& s)
      : t_(t), f_(f), p_(f.procedure), s_(s), time_(t, f) {}

  void read() {
    reset();
    for (std::uint32_t i = 0; i < s_.events.size(); ++i) {
      const Event& e = s_.events[i];
      if (e.what == What::ended) break;
      time_.count_idle_together(e.at);
      t_.end = e.at;
      take(e, i);
    }
    finish();
  }

 private:
  using PersonNow = Trace::PersonNow;
  using Doing = Trace::Doing;

  void reset() {
    t_.steps.assign(p_.steps.size(), {});
    t_.needs.assign(f_.first_need.back(), {});
    t_.decided.assign(p_.signals.size(), never);
    t_.shown.assign(p_.signals.size(), false);
    t_.actions.clear();
    t_.refusals.clear();
    t_.noted.clear();
    t_.end = t_.others_end = Ms{0};
    time_.reset();
    reset_others_waiting();
  }

  void reset_others_waiting() {
    others_waiting_.assign(f_.words, 0);
    for (std::size_t s = 0; s < p_.steps.size(); ++s)
      if (!f_.prefers_trainee(StepIx{s}) && in_scope(p_, s_, StepIx{s}))
        others_waiting_[s / 64] |= std::uint64_t{1} << (s % 64);
  }

  void no_longer_waiting(StepIx s) {
    others_waiting_[s.at() / 64] &= ~(std::uint64_t{1} << (s.at() % 64));
  }

  void finish() {
    t_.whole = s_.complete() && s_.events.back().value != 2;
    // Closed by the time limit, it waited for what never came: that is no chair time. Left, its
    // time is what the clock showed.
    if (s_.complete() && s_.events.back().value != 1) {
      time_.count_idle_together(s_.events.back().at);
      t_.end = s_.events.back().at;
    }
    time_.close(t_.end);
  }

  void take(const Event& e, std::uint32_t position) {
    switch (e.what) {
      case What::action_started:
        start_action(e, false);
        break;
      case What::cover_started:
        start_action(e, true);
        break;
      case What::action_done:
        end_action(e, e.value != 0 ? Action::Outcome::effect : Action::Outcome::nothing);
        break;
      case What::action_broken:
        end_action(e, Action::Outcome::broken);
        break;
      case What::cover_stopped:
        end_action(e, Action::Outcome::effect);
        break;
      case What::cover_served:
        serve(e);
        break;
      case What::step_started:
        start_step(e);
        break;
      case What::step_paused:
        pause(e, true);
        break;
      case What::step_resumed:
        pause(e, false);
        break;
      case What::step_done:
        end_step(e);
        break;
      case What::step_skipped:
        skip_step(e);
        break;
      case What::need_arose:
        await(e);
        break;
      case What::helping:
        help(e);
        break;
      case What::helped:
        helped(e);
        break;
      case What::need_met:
        need(e).since = e.since;
        need(e).by = e.person;
        break;
      case What::asked:
        if (!of_kept(e) && need(e).asked == never) need(e).asked = e.at;
        break;
      case What::signal_shown:
        t_.shown[e.signal.at()] = true;
        [[fallthrough]];
      case What::signal_passed:
        t_.decided[e.signal.at()] = e.at;
        break;
      case What::refused:
        if (e.person == f_.whom)
          t_.refusals.push_back({e.at, e.action, static_cast<drill::Reason>(e.value)});
        break;
      default:
        break;
    }
    note(e, position);
  }

  void note(const Event& e, std::uint32_t position) {
    const bool theirs =
        e.person == f_.whom && (e.what == What::unready_start || e.what == What::soiled_touch);
    if (theirs || e.what == What::has_set || e.what == What::lag_overrun ||
        e.what == What::step_paused || e.what == What::prepared ||
        (e.what == What::asked && of_kept(e)))
      t_.noted.push_back(position);
  }

  /// Whether it tells of what is kept from a step, and of none of its needs.
  bool of_kept(const Event& e) const {
    return static_cast<std::size_t>(e.value) >= p_.step(e.step).needs.size();
  }

  NeedTrace& need(const Event& e) {
    return t_.needs[f_.need_index(e.step, static_cast<std::size_t>(e.value))];
  }

  bool needs_attention(const Event& e, bool cover) const {
    if (cover) return false;
    if (e.step) return p_.step(e.step).attention;
    if (e.action && !p_.action(e.action).steps.empty())
      return p_.step(p_.action(e.action).steps.front()).attention;
    return true;
  }

  /// Begun before a step of somebody else's which must come before it has ended (or, where the
  /// link says so, started).
  bool too_soon(StepIx s) const {
    for (std::size_t w = 0; w < f_.words; ++w)
      if ((p_.before[s.at()][w] & others_waiting_[w]) != 0) return true;
    return std::any_of(p_.step(s).after.begin(), p_.step(s).after.end(), [&](const auto& link) {
      const StepTrace& first = t_.steps[link.step.at()];
      return link.from == procedure::Anchor::end && !f_.prefers_trainee(link.step) &&
             in_scope(p_, s_, link.step) && !first.skipped && first.ended == never;
    });
  }

  void start_action(const Event& e, bool cover) {
    const auto position = static_cast<std::uint32_t>(t_.actions.size());
    if (e.person == f_.whom) add_action(e, cover);
    time_.change(e.person, e.at, [&](PersonNow& who) {
      drop(who.offers, e.supply);
      who.doing.push_back({e.action, e.step, position, needs_attention(e, cover), false, false});
    });
    if (e.step && e.person != f_.whom) {
      t_.steps[e.step.at()].started = e.at;
      no_longer_waiting(e.step);
    }
  }

  void add_action(const Event& e, bool cover) {
    Action a{e.action, e.step, e.supply, e.at, never, Action::Outcome::going, cover, false, false};
    if (e.action && !a.supply) a.supply = p_.action(e.action).supply;
    if (!a.step) a.step = withdrawn(e.action);
    if (e.step) a.too_soon = too_soon(e.step);
    if (e.step && cover) {
      // Taken up again after being given up: the same cover, and not done twice.
      if (t_.steps[e.step.at()].by_trainee) a.outcome = Action::Outcome::broken;
      begin_cover(e);
    }
    t_.actions.push_back(a);
  }

  /// The step of an offer that was taken out of the transfer zone again and is now repeated.
  StepIx withdrawn(ActionIx action) const {
    for (auto a = t_.actions.rbegin(); a != t_.actions.rend(); ++a)
      if (a->action == action) return a->withdrawn ? a->step : StepIx{};
    return {};
  }

  void withdraw(ActionIx action) {
    for (auto a = t_.actions.rbegin(); a != t_.actions.rend(); ++a)
      if (a->action == action && a->outcome == Action::Outcome::effect) {
        a->outcome = Action::Outcome::broken;
        a->withdrawn = true;
        return;
      }
  }

  void begin_cover(const Event& e) {
    StepTrace& step = t_.steps[e.step.at()];
    if (step.by_trainee)
      step.missed = missed_since(e);
    else
      step.started = e.at;
    step.acted = e.at;
    step.by_trainee = true;
  }

  /// Since when something covered has stood still for want of it.
  Ms missed_since(const Event& e) const {
    Ms since = e.at;
    for (const StepIx s : p_.step(e.step).covers) {
      const StepTrace& covered = t_.steps[s.at()];
      if (covered.paused_at != never) since = std::min(since, covered.paused_at);
      if (covered.started == never) since = std::min(since, covered.arose);
    }
    return since;
  }

  void end_action(const Event& e, Action::Outcome outcome) {
    time_.change(e.person, e.at, [&](PersonNow& who) {
      const auto d = std::find_if(who.doing.rbegin(), who.doing.rend(), [&](const Doing& x) {
        return x.action == e.action && !x.own_step;
      });
      drop(who.offers, e.supply);
      if (d == who.doing.rend()) {
        if (e.person == f_.whom && is_pass(e.action)) withdraw(e.action);
        return;
      }
      if (e.person == f_.whom) close_action(t_.actions[d->position], e.at, outcome);
      who.doing.erase(std::next(d).base());
      if (outcome == Action::Outcome::effect && is_pass(e.action)) who.offers.push_back(e.supply);
    });
  }

  bool is_pass(ActionIx a) const { return a && p_.action(a).verb == procedure::Verb::pass; }

  void close_action(Action& a, Ms at, Action::Outcome outcome) {
    a.to = at;
    if (a.outcome != Action::Outcome::going) return;
    a.outcome = outcome;
    if (!a.step || outcome != Action::Outcome::effect) return;
    StepTrace& step = t_.steps[a.step.at()];
    if (a.cover) {
      if (covered_nothing(a.step)) {
        a.outcome = Action::Outcome::broken;
        step.started = step.acted = never;
        step.by_trainee = false;
      }
      return;
    }
    step.started = a.from;
    step.acted = at;
    step.by_trainee = true;
  }

  bool covered_nothing(StepIx cover) const {
    const auto& covers = p_.step(cover).covers;
    return std::all_of(covers.begin(), covers.end(),
                       [&](StepIx s) { return t_.steps[s.at()].started == never; });
  }

  /// An ongoing cover serves a further step: the same hand, one more thing done.
  void serve(const Event& e) {
    if (e.person != f_.whom || !e.step) return;
    const auto going = std::find_if(t_.actions.rbegin(), t_.actions.rend(), [&](const Action& a) {
      return a.cover && a.action == e.action && a.outcome == Action::Outcome::going;
    });
    const bool known = t_.steps[e.step.at()].by_trainee;
    begin_cover(e);
    if (known) return;
    if (going != t_.actions.rend() && !going->step)
      going->step = e.step;
    else
      t_.actions.push_back(
          {e.action, e.step, e.supply, e.at, e.at, Action::Outcome::effect, true, false, false});
  }

  void start_step(const Event& e) {
    StepTrace& step = t_.steps[e.step.at()];
    time_.change(e.person, e.at, [&](PersonNow& who) {
      std::erase_if(who.doing, [&](const Doing& d) { return d.step == e.step && !d.own_step; });
      drop(who.awaited, e.step);
      if (step.arose != never)
        step.stood_still = (e.at - step.arose) - (who.own_work - step.busy_at_arose);
      who.doing.push_back({{}, e.step, 0, p_.step(e.step).attention, true, false});
    });
    step.started = e.at;
    if (e.person == f_.whom) step.by_trainee = true;
    no_longer_waiting(e.step);
    for (const auto& needed : p_.step(e.step).needs)
      if (needed.kind == procedure::Need::Kind::supply) time_.take_offer(needed.supply, e.at);
  }

  void pause(const Event& e, bool paused) {
    time_.change(e.person, e.at, [&](PersonNow& who) {
      if (!paused) drop(who.awaited, e.step);
      for (auto& d : who.doing)
        if (d.step == e.step && d.own_step) d.paused = paused;
    });
    StepTrace& step = t_.steps[e.step.at()];
    if (!paused) step.paused += e.at - step.paused_at;
    step.paused_at = paused ? e.at : never;
  }

  void end_step(const Event& e) {
    time_.change(e.person, e.at, [&](PersonNow& who) {
      std::erase_if(who.doing, [&](const Doing& d) { return d.step == e.step && d.own_step; });
    });
    StepTrace& step = t_.steps[e.step.at()];
    step.ended = e.at;
    step.by = e.person;
    if (e.person == f_.whom && step.acted == never) step.acted = e.at;
    no_longer_waiting(e.step);
    stop_awaiting(e);
    if (e.person && e.person != f_.whom) t_.others_end = e.at;
  }

  void skip_step(const Event& e) {
    t_.steps[e.step.at()].skipped = true;
    no_longer_waiting(e.step);
    stop_awaiting(e);
  }

  void stop_awaiting(const Event& e) {
    const PersonIx who = who_waits(e.step);
    const auto& awaited = time_.person(who).awaited;
    if (std::find(awaited.begin(), awaited.end(), e.step) == awaited.end()) return;
    time_.change(who, e.at, [&](PersonNow& now) { drop(now.awaited, e.step); });
  }

  PersonIx who_waits(StepIx s) const {
    const PersonIx clinician = p_.who(procedure::Role::clinician);
    return clinician && p_.may_do(clinician, s) ? clinician : p_.step(s).by.front();
  }

  void await(const Event& e) {
    StepTrace& step = t_.steps[e.step.at()];
    time_.change(who_waits(e.step), e.at, [&](PersonNow& who) {
      drop(who.awaited, e.step);
      who.awaited.push_back(e.step);
      if (step.arose != never) return;
      step.arose = e.at;
      step.busy_at_arose = who.own_work;
    });
  }

  void help(const Event& e) {
    if (!of_kept(e)) {
      need(e).helping = e.at;
      const auto& wanted = p_.step(e.step).needs[static_cast<std::size_t>(e.value)];
      if (wanted.kind == procedure::Need::Kind::supply) time_.take_offer(wanted.supply, e.at);
    }
    time_.change(e.person, e.at, [&](PersonNow& who) {
      who.doing.push_back({{}, e.step, 0, true, false, false});
    });
  }

  void helped(const Event& e) {
    if (!of_kept(e)) need(e).helped = e.at;
    time_.change(e.person, e.at, [&](PersonNow& who) {
      std::erase_if(who.doing, [&](const Doing& d) { return d.step == e.step && !d.own_step; });
    });
  }

  Trace& t_;
  const Frame& f_;
  const Procedure& p_;
  const Session& s_;
  Timekeeper time_;
  std::vector<std::uint64_t> others_waiting_;
};

void Trace::read(const Frame& frame, const Session& session) {
  TraceReader(*this, frame, session).read();
  find_redone(frame, session, *this);
}

}  // namespace beforehand::scoring
