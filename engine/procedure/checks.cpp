// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "procedure/checks.hpp"

#include <algorithm>
#include <string>
#include <utility>

#include "base/text.hpp"
#include "procedure/event_graph.hpp"
#include "procedure/lag_checks.hpp"
#include "procedure/relations.hpp"

namespace beforehand::procedure {
namespace {

class Checks {
 public:
  explicit Checks(const Procedure& p) : p_(p), graph_(p) {}

  std::vector<Problem> run() {
    for (const Step& step : p_.steps) {
      check_phase(step);
      check_cover(step);
      check_places(step);
      check_keeps(step);
    }
    for (std::size_t i = 0; i < p_.steps.size(); ++i) check_inside(StepIx{i});
    for (std::size_t i = 0; i < p_.signals.size(); ++i) check_signal(SignalIx{i});
    for (const auto& life : lives(p_)) check_take_backs(life);
    check_kinds_of_action();
    check_lags(p_, graph_, problems_);
    warn_of_unused();
    sort_by_place(problems_);
    return std::move(problems_);
  }

 private:
  void error(Mark mark, Said message) {
    problems_.push_back({Problem::Kind::error, mark, std::move(message)});
  }
  void warning(Mark mark, Said message) {
    problems_.push_back({Problem::Kind::warning, mark, std::move(message)});
  }

  void check_phase(const Step& step) {
    for (const Link& link : step.after) {
      const Step& other = p_.step(link.step);
      if (other.phase <= step.phase) continue;
      return error(
          link.implied ? step.mark : link.mark,
          say("{} comes after {}, which is in a later phase (\"{}\" follows \"{}\"); change "
              "the phase of one, or the order of the phases",
              step.id, named(p_, other), p_.phases[other.phase.at()].id,
              p_.phases[step.phase.at()].id));
    }
  }

  void check_cover(const Step& cover) {
    for (const StepIx ix : cover.covers) {
      const Step& covered = p_.step(ix);
      if (cover.by.size() == 1 && covered.by == cover.by)
        error(cover.mark, say("{} covers {}, which the same person does; a cover is for "
                              "somebody else's step",
                              cover.id, named(p_, covered)));
    }
  }

  void check_places(const Step& step) {
    if (!step.supply) return;
    const Supply& supply = p_.supply(step.supply);
    if (step.verb == Verb::set_out && supply.starts != SupplyState::stored)
      error(step.mark, say("{} sets out {}, which starts {} already", step.id, supply.id,
                           word(supply.starts)));
    if (step.verb == Verb::set_out && !supply.stored)
      error(supply.mark, say("{} is set out by {}; say where it is kept before, in "
                             "\"stored\"",
                             supply.id, named(p_, step)));
    if (step.verb != Verb::put_away) return;
    if (!supply.ends)
      return error(supply.mark, say("{} is put away by {}; say where to, in \"ends\"", supply.id,
                                    named(p_, step)));
    const Place& ends = p_.place(supply.ends);
    if (supply.hazards.test(static_cast<std::size_t>(Hazard::sharp)) &&
        ends.kind == PlaceKind::waste)
      error(step.mark, say("{} is sharp but is thrown into {}; what is sharp and thrown away "
                           "goes into a place of kind \"sharps\"",
                           supply.id, ends.id));
  }

  void check_inside(StepIx ix) {
    const Step& step = p_.step(ix);
    const SupplyIx outer = comes_out_of(p_, step);
    if (!outer) return;
    for (std::size_t i = 0; i < ix.at(); ++i) {
      const Step& other = p_.steps[i];
      if (other.verb == Verb::set_out && other.supply == outer && applies_whenever(other, step))
        return;
    }
    error(step.mark, say("{} takes {} out of {}, which nobody sets out before in every case; add "
                         "such a step ahead of it",
                         step.id, p_.supply(step.supply).id, p_.supply(outer).id));
  }

  void check_keeps(const Step& step) {
    for (const SupplyIx s : step.keeps) {
      if (!needs_supply(step, s))
        error(step.mark, say("{} keeps {} in the hand without needing it; add it to "
                             "\"needs\"",
                             step.id, p_.supply(s).id));
    }
  }

  EventGraph::Event moment(const Signal& signal) const {
    return EventGraph::event(signal.after, signal.from_start ? Anchor::start : Anchor::end);
  }

  void check_signal(SignalIx ix) {
    const Signal& signal = p_.signal(ix);
    const Step& at = p_.step(signal.after);
    if (is_conditional(at))
      return error(signal.mark, say("{} shows after {}, which does not always take place; "
                                    "name a step that does",
                                    signal.id, named(p_, at)));
    const auto ways = graph_.longest_from(moment(signal), std::vector<bool>(p_.steps.size(), true));
    for (std::size_t i = 0; i < p_.steps.size(); ++i) {
      const Step& step = p_.steps[i];
      if (depends_on(step, ix) && !ways.reaches(EventGraph::start(StepIx{i})) &&
          !is_foretold_before(signal, StepIx{i}))
        error(step.mark,
              say("{} depends on {}, which is not known before {} has {}; add it "
                  "to \"after\"",
                  step.id, signal.id, named(p_, at), signal.from_start ? "started" : "ended"));
    }
    for (const Signal& later : p_.signals) {
      for (const Foretold& foretold : later.foretold) {
        if (foretold.by == ix && !ways.reaches(moment(later)))
          error(later.mark, say("{} is foretold by {}, which shows no earlier; {} must come "
                                "after {}",
                                later.id, signal.id, p_.step(later.after).id, at.id));
      }
    }
  }

  /// Whether a signal before the step tells for certain that this one comes: then the step may be
  /// done before this one shows.
  bool is_foretold_before(const Signal& signal, StepIx step) const {
    return std::any_of(signal.foretold.begin(), signal.foretold.end(), [&](const Foretold& f) {
      const std::vector<bool> all(p_.steps.size(), true);
      return f.likely_percent == 100 &&
             graph_.longest_from(moment(p_.signal(f.by)), all).reaches(EventGraph::start(step));
    });
  }

  static bool depends_on(const Step& step, SignalIx signal) {
    const auto has = [&](const auto& list) {
      return std::find(list.begin(), list.end(), signal) != list.end();
    };
    return has(step.when) || has(step.unless);
  }

  void check_take_backs(const std::vector<StepIx>& life) {
    for (std::size_t i = 0; i < life.size(); ++i) {
      const Step& step = p_.step(life[i]);
      if (step.verb != Verb::take_back) continue;
      std::size_t user = i;
      while (user > 0 && !can_both_apply(p_.step(life[--user]), step)) {
      }
      const Step& other = p_.step(life[user]);
      if (user == i || doer(other) == doer(step) || !needs_supply(other, step.supply))
        error(step.mark, say("{} takes {} back when nobody else has it in the hand; it "
                             "belongs after the step that needs it",
                             step.id, p_.supply(step.supply).id));
    }
  }

  void check_kinds_of_action() {
    for (std::size_t i = 0; i < p_.actions.size(); ++i) {
      for (std::size_t j = 0; j < i; ++j) {
        const ActionKind &a = p_.actions[i], &b = p_.actions[j];
        if (a.verb != b.verb || a.supply != b.supply || a.cover == b.cover) continue;
        const Step &cover = p_.step((a.cover ? a : b).steps.front()),
                   &timed = p_.step((a.cover ? b : a).steps.front());
        error(p_.step(a.steps.front()).mark,
              say("the same action would be a cover in {} and end by itself in {}; let both "
                  "be covers, or choose another verb for one",
                  named(p_, cover), named(p_, timed)));
      }
    }
  }

  template <class Thing, class IsUsed>
  void warn(const char* words, const std::vector<Thing>& things, IsUsed is_used) {
    for (std::size_t i = 0; i < things.size(); ++i) {
      const bool used = std::any_of(p_.steps.begin(), p_.steps.end(),
                                    [&](const Step& step) { return is_used(step, i); });
      if (!used) warning(things[i].mark, say(words, things[i].id));
    }
  }

  void warn_of_unused() {
    warn("person {} has nothing to do", p_.people, [](const Step& step, std::size_t i) {
      return std::find(step.by.begin(), step.by.end(), PersonIx{i}) != step.by.end();
    });
    warn("supply {} is never used", p_.supplies, [](const Step& step, std::size_t i) {
      return step.supply == SupplyIx{i} || needs_supply(step, SupplyIx{i});
    });
    for (std::size_t i = 0; i < p_.places.size(); ++i) {
      const auto is_kept_there = [&](const Supply& s) { return s.stored == PlaceIx{i}; };
      if (p_.places[i].inside &&
          std::none_of(p_.supplies.begin(), p_.supplies.end(), is_kept_there))
        warning(p_.places[i].mark, say("place {} is inside {}, but nothing is \"stored\" there",
                                       p_.places[i].id, p_.supply(p_.places[i].inside).id));
    }
    warn("signal {} changes nothing: no step has it in \"when\" or \"unless\"", p_.signals,
         [&](const Step& step, std::size_t i) { return depends_on(step, SignalIx{i}); });
    warn("phase {} has no steps", p_.phases,
         [](const Step& step, std::size_t i) { return step.phase == PhaseIx{i}; });
    warn("device {} is never used", p_.devices, [](const Step& step, std::size_t i) {
      return std::find(step.devices.begin(), step.devices.end(), DeviceIx{i}) != step.devices.end();
    });
  }

  const Procedure& p_;
  EventGraph graph_;
  std::vector<Problem> problems_;
};

}  // namespace

std::vector<Problem> check(const Procedure& p) { return Checks(p).run(); }

}  // namespace beforehand::procedure
