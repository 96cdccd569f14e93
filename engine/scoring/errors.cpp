// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "scoring/errors.hpp"

#include <algorithm>

#include "scoring/redone.hpp"

namespace beforehand::scoring {
namespace {

using drill::Event;
using drill::What;
using procedure::Need;

/// Looks for what went wrong, first mistakes first, so that what follows from one finds it.
class ErrorFinder {
 public:
  ErrorFinder(const Findings& in, std::vector<Error>& out)
      : f_(in.frame), p_(f_.procedure), t_(in.trace), in_(in), out_(out) {}

  void run() {
    out_.clear();
    for (const auto position : t_.noted) from_event(in_.session.events[position]);
    for (std::size_t i = 0; i < t_.actions.size(); ++i)
      if (!in_.alignment.kept[i] && t_.actions[i].outcome != Action::Outcome::broken &&
          !t_.actions[i].spent)
        from_action(t_.actions[i]);
    for (std::size_t s = 0; s < p_.steps.size(); ++s)
      if (in_.alignment.expected[s] && !t_.steps[s].by_trainee) from_omission(StepIx{s});
    for (const NeedScore& need : in_.needs) from_need(need);
    std::stable_sort(out_.begin(), out_.end(),
                     [](const Error& a, const Error& b) { return a.at < b.at; });
  }

 private:
  Error& add(ErrorKind kind, StepIx step, Ms at) {
    Error e;
    e.kind = kind;
    e.step = step;
    e.at = at;
    if (step) e.severity = p_.step(step).severity;
    if (step) e.action = f_.kind_of[step.at()];
    out_.push_back(std::move(e));
    return out_.back();
  }

  template <class Is>
  Error* find(Is&& is) {
    const auto found = std::find_if(out_.begin(), out_.end(), is);
    return found == out_.end() ? nullptr : &*found;
  }

  /// True when there was an earlier mistake that this follows from.
  bool follows(Error* mistake, StepIx step) {
    if (mistake == nullptr) return false;
    auto& list = mistake->followed_by;
    if (step && step != mistake->step && std::find(list.begin(), list.end(), step) == list.end())
      list.push_back(step);
    return true;
  }

  static bool of_order(const Error& e) {
    return e.kind == ErrorKind::out_of_order || e.kind == ErrorKind::unsafe;
  }
  static bool spoilt(const Error& e) {
    return e.kind == ErrorKind::too_early || e.kind == ErrorKind::expired;
  }
  bool same_supply(StepIx a, SupplyIx supply) const {
    return a && supply && p_.step(a).supply == supply;
  }

  /// Whether `later` could not be done because `first` was not, or its supply was spoilt: the same
  /// supply, on its way to the hand-over that `first` belongs to, or back from it.
  bool hangs_on(StepIx later, StepIx first) const {
    using procedure::Verb;
    if (!first || !same_supply(first, p_.step(later).supply) || !p_.precedes(first, later))
      return false;
    const Verb verb = p_.step(first).verb, next = p_.step(later).verb;
    const bool way_there = verb == Verb::set_out || procedure::prepares(verb);
    if (verb == Verb::pass) return next != Verb::pass && !procedure::prepares(next);
    if (!way_there) return false;
    for (std::size_t s = 0; s < p_.steps.size(); ++s)
      if (p_.steps[s].verb == Verb::pass && same_supply(StepIx{s}, p_.step(later).supply) &&
          p_.precedes(first, StepIx{s}) && p_.precedes(StepIx{s}, later))
        return false;
    return true;
  }
  bool theirs(StepIx s) const { return f_.prefers_trainee(s) || t_.steps[s.at()].by_trainee; }

  // What the drill itself noted ------------------------------------------------------------------

  void from_event(const Event& e) {
    switch (e.what) {
      case What::unready_start:
        unready(e);
        break;
      case What::has_set:
        has_set(e);
        break;
      case What::lag_overrun:
        overrun(e);
        break;
      case What::step_paused:
        paused(e);
        break;
      case What::asked:
        kept(e);
        break;
      case What::soiled_touch:
        add(ErrorKind::contaminated, e.step, e.at);
        break;
      default:
        break;
    }
  }

  void unready(const Event& e) {
    const bool unsafe = e.value != 0;
    const bool again = std::any_of(t_.actions.begin(), t_.actions.end(), [&](const Action& a) {
      return a.again && a.from == e.at && a.action == e.action;
    });
    if (again && !unsafe) return;  // out of turn only for the step it did not do
    Error* same =
        find([&](const Error& x) { return of_order(x) && x.step == e.step && x.at == e.at; });
    if (same == nullptr && !unsafe) {
      // Built on an attempt that came to nothing, and was taken for done.
      Error* first = find([&](const Error& x) { return of_order(x) && x.step == e.cause; });
      if (follows(first, e.step)) return;
    }
    if (same != nullptr && !unsafe) return;
    Error& error = same != nullptr ? *same : add(ErrorKind::out_of_order, e.step, e.at);
    error.cause = e.cause;
    if (!unsafe) return;
    error.kind = ErrorKind::unsafe;
    error.severity = Severity::critical;
  }

  void has_set(const Event& e) {
    const Action* made = made_what_set(f_, in_.session, t_, e);
    if (made == nullptr) return;
    const StepIx user = user_of(p_, t_, made->step, e.at);
    if (!user) return;
    const bool wanted = t_.steps[user.at()].wanted() <= e.at;
    Error* begun = find([&](const Error& x) {  // out of turn already: the same mistake
      return of_order(x) && x.step == made->step && x.at <= made->to;
    });
    if (begun != nullptr) {
      if (begun->kind == ErrorKind::unsafe) return;
      begun->kind = ErrorKind::too_early;
      begun->cause = user;
      return;
    }
    Error& error = add(wanted ? ErrorKind::expired : ErrorKind::too_early, made->step,
                       wanted ? e.at : made->to);
    error.cause = user;
  }

  /// The trainee owns it where the step was the trainee's, or would have been in time had the
  /// clinician not been held up since.
  void overrun(const Event& e) {
    const PersonIx clinician = p_.who(procedure::Role::clinician);
    const Ms since = t_.steps[e.cause.at()].ended;
    Ms held_up{0};
    if (clinician)
      for (const Stretch& s : t_.stretches[clinician.at()])
        if (s.kind == Stretch::Kind::waiting)
          held_up += std::max(Ms{0}, std::min(s.to, e.at) - std::max(s.from, since));
    held_up = std::max(held_up, t_.steps[e.step.at()].stood_still);
    if (!theirs(e.step) && held_up < Ms{e.value}) return;
    add(ErrorKind::overrun, e.step, e.at).cause = e.cause;
  }

  /// Kept on with until the clinician, who could do nothing without it, asked to have it.
  void kept(const Event& e) {
    const bool trainees = std::any_of(t_.actions.begin(), t_.actions.end(), [&](const Action& a) {
      const bool going = a.cover ? a.to > e.at : a.outcome == Action::Outcome::effect;
      return a.action == e.action && a.from <= e.at && going;
    });
    if (!trainees) return;
    Error& error = add(ErrorKind::extra, {}, e.at);
    error.action = e.action;
    error.cause = e.step;
    error.severity = p_.step(e.step).severity;
  }

  void paused(const Event& e) {
    for (const StepIx cover : p_.step(e.step).covered_by) {
      const bool given_up = std::any_of(t_.actions.begin(), t_.actions.end(), [&](const Action& a) {
        return a.cover && a.action == f_.kind_of[cover.at()] && a.to == e.at &&
               a.outcome != Action::Outcome::going;
      });
      if (given_up) add(ErrorKind::uncovered, cover, e.at).cause = e.step;
    }
  }

  // What the alignment could not keep -------------------------------------------------------------

  void from_action(const Action& a) {
    const bool known =
        find([&](const Error& x) {
          return of_order(x) && (x.at == a.from ? x.step == a.step : a.step && x.cause == a.step);
        }) != nullptr;
    if (known) return;
    Error* spoilt_before = find([&](const Error& x) {
      return spoilt(x) && x.at <= a.from && same_supply(x.step, a.supply) &&
             a.from <= t_.steps[x.cause.at()].ended;
    });
    if (follows(spoilt_before, a.step)) return;
    if (a.step && in_.alignment.expected[a.step.at()] && not_in_order(a)) return;
    const bool told = find([&](const Error& x) {  // already, as kept from somebody
                        return is_kept(x) && x.action == a.action && x.at >= a.from && x.at <= a.to;
                      }) != nullptr;
    if (told) return;
    Error& error = add(ErrorKind::extra, {}, a.from);
    error.action = a.action;
    const StepIx again = done_before(a);
    if (!again) return;
    error.kind = ErrorKind::repeated;
    error.step = again;
  }

  StepIx done_before(const Action& a) const {
    if (!a.action) return {};
    StepIx last;
    for (const StepIx s : p_.action(a.action).steps)
      if (t_.steps[s.at()].by_trainee && t_.steps[s.at()].started <= a.from) last = s;
    return last;
  }

  /// An order that the drill let pass and the alignment cannot keep.
  bool not_in_order(const Action& a) {
    for (const auto& link : p_.step(a.step).after)
      if (a.too_soon && !theirs(link.step) && t_.steps[link.step.at()].ended > a.from) {
        add(ErrorKind::out_of_order, a.step, a.from).cause = link.step;
        return true;
      }
    for (const Action& other : t_.actions) {
      if (!other.step || other.outcome == Action::Outcome::broken || other.from == a.from) continue;
      const bool a_first = a.from < other.from;
      const Action &first = a_first ? a : other, &second = a_first ? other : a;
      if (!p_.precedes(second.step, first.step)) continue;
      add(ErrorKind::out_of_order, first.step, first.from).cause = second.step;
      return true;
    }
    return false;
  }

  void from_omission(StepIx s) {
    Error* first = find([&](const Error& x) {
      if (x.step == s) return of_order(x);
      return (x.kind == ErrorKind::omitted || spoilt(x)) && hangs_on(s, x.step);
    });
    if (follows(first, s)) return;
    const Ms due = in_.hindsight[s.at()].due;
    Error& error = add(ErrorKind::omitted, s, due == never ? t_.end : std::min(due, t_.end));
    take_in_what_built_on_it(error);
  }

  /// What was begun before a step that never came is that one mistake; an unsafe act stays its own,
  /// and takes the omission in.
  void take_in_what_built_on_it(Error& omission) {
    const StepIx s = omission.step;
    Error* unsafe =
        find([&](const Error& x) { return x.kind == ErrorKind::unsafe && x.cause == s; });
    if (follows(unsafe, s)) {
      out_.pop_back();
      return;
    }
    const auto built_on_it = [&](const Error& x) {
      return x.kind == ErrorKind::out_of_order && x.cause == s;
    };
    std::vector<StepIx> later;
    for (const Error& x : out_)
      if (built_on_it(x)) later.push_back(x.step);
    omission.followed_by = later;
    std::erase_if(out_, built_on_it);
  }

  // What the clinician had to wait for ------------------------------------------------------------

  void from_need(const NeedScore& n) {
    const Ms until = n.need_at + n.wait;
    if (!n.helped && until - n.due_at <= allowance) return;
    Error* first = find([&](const Error& x) {
      if (x.kind == ErrorKind::overrun) return x.step == n.step;
      if (x.kind == ErrorKind::uncovered) return n.helped && x.step == n.from && x.cause == n.step;
      if (x.at > until || !x.step) return false;
      if (x.step == n.from) return of_order(x) || x.kind == ErrorKind::omitted || spoilt(x);
      return (x.kind == ErrorKind::omitted || spoilt(x)) && hangs_on(n.from, x.step);
    });
    if (follows(first, n.from)) {
      if (spoilt(*first)) first->late_because = Cause::had_set;
      return;
    }
    Error& error = add(ErrorKind::late, n.from, n.due_at);
    error.cause = n.step;
    error.severity = n.severity;
    error.late_because = why_late(n, until);
  }

  Cause why_late(const NeedScore& n, Ms until) const {
    const Need& need = p_.step(n.step).needs[n.need];
    const auto not_by_then = [&](StepIx s) {
      return s && theirs(s) && t_.steps[s.at()].acted > n.need_at;
    };
    if (not_by_then(set_out_for(n.from))) return Cause::not_set_out;
    if (not_by_then(need.prepared_by)) return Cause::not_prepared;
    for (const Refusal& r : t_.refusals)
      if (r.reason == drill::Reason::hands_full && r.action == f_.kind_of[n.from.at()] &&
          r.at <= until && r.at >= n.need_at - p_.offer)
        return Cause::hand_full;
    const bool let_go = std::any_of(t_.actions.begin(), t_.actions.end(), [&](const Action& a) {
      return a.cover && a.step == n.from && a.to >= n.due_at - p_.offer && a.to <= until;
    });
    if (let_go) return Cause::let_go;
    const Ms last_chance = n.due_at - in_.hindsight[n.from.at()].takes;
    for (const Stretch& s : t_.stretches[f_.whom.at()])
      if (s.kind == Stretch::Kind::work && s.from <= last_chance && last_chance < s.to)
        return s.step == n.from ? Cause::stood_by : Cause::busy;
    return Cause::stood_by;
  }

  StepIx set_out_for(StepIx serving) const {
    for (std::size_t s = 0; s < p_.steps.size(); ++s)
      if (p_.steps[s].verb == procedure::Verb::set_out && p_.steps[s].supply &&
          p_.steps[s].supply == p_.step(serving).supply && p_.precedes(StepIx{s}, serving))
        return StepIx{s};
    return {};
  }

  const Frame& f_;
  const Procedure& p_;
  const Trace& t_;
  const Findings& in_;
  std::vector<Error>& out_;
};

}  // namespace

void find_errors(const Findings& findings, std::vector<Error>& out) {
  ErrorFinder(findings, out).run();
}

int faults(const std::vector<Error>& errors) {
  int sum = 0;
  for (const Error& e : errors)
    if (e.kind == ErrorKind::contaminated || e.kind == ErrorKind::overrun ||
        e.kind == ErrorKind::uncovered || is_kept(e))
      sum += weight(e.severity);
  return sum;
}

bool is_kept(const Error& e) { return e.kind == ErrorKind::extra && e.cause; }

bool bars_ready(const Error& e) {
  if (e.kind == ErrorKind::unsafe) return true;
  return e.severity != Severity::minor && e.kind != ErrorKind::late && e.kind != ErrorKind::extra &&
         e.kind != ErrorKind::repeated;
}

}  // namespace beforehand::scoring
