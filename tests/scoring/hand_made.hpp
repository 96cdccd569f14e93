// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <string>
#include <string_view>

#include "procedure/reader.hpp"
#include "scoring/score.hpp"

// Sessions put together event by event, as a drill would leave them, so that what they must score
// is known beforehand.

namespace beforehand::scoring {

inline Ms sec(double seconds) { return Ms{std::llround(seconds * 1000)}; }

/// What stands above the steps of every procedure in these tests. Invented.
inline constexpr std::string_view room = R"(beforehand: 1
id: hand-made
title: Made for tests
summary: Made for tests.
plan: "As it comes."
cautions: ["Made up for tests: never a model for treating anybody."]
people:
  clinician: {role: clinician, name: Clinician}
  assistant: {role: assistant, name: Assistant}
places:
  tray: {name: Tray, clock: 3, zone: assistant, motion: II, kind: tray}
  used: {name: Tray for used things, clock: 2, zone: assistant, motion: II, kind: soiled}
supplies:
  liner: {name: Lining paste, icon: paste, at: tray, ends: used, working-time: 60 s}
  gauze: {name: Gauze, icon: gauze, at: tray, ends: used}
  lamp: {name: Lamp, icon: curing-light, at: tray, after-use: ready}
  tip: {name: Suction tip, icon: suction-tip, at: tray, after-use: ready}
)";

/// A lining in seven steps. Done in time: mix 5-15, pass 16-18, gauze 30-32, tidy 40-44.
inline constexpr std::string_view lining = R"(phases:
  all: {title: All of it}
steps:
  - {id: prepare, title: Prepares, phase: all, by: clinician, takes: 20 s}
  - {id: mix-liner, title: Mixes the paste, phase: all, by: assistant, does: mix, supply: liner, takes: 10 s,
     severity: major, why: "Mixed too early, it sets."}
  - {id: pass-liner, title: Passes the paste, phase: all, by: assistant, does: pass, supply: liner, for: apply,
     takes: 2 s, severity: major, cue: "The bur slows down."}
  - {id: apply, title: Lines the cavity, phase: all, by: clinician, takes: 15 s, needs: [liner], after: [prepare]}
  - {id: pass-gauze, title: Passes the gauze, phase: all, by: assistant, does: pass, supply: gauze, for: dab,
     takes: 2 s}
  - {id: dab, title: Dabs, phase: all, by: clinician, takes: 5 s, needs: [gauze], after: [apply]}
  - {id: tidy, title: Puts the gauze away, phase: all, by: assistant, does: put-away, supply: gauze, after: [dab],
     takes: 4 s}
)";

inline Procedure made_of(std::string_view parts, std::string_view top = room) {
  auto reading = procedure::read(std::string(top) + std::string(parts));
  std::string problems;
  for (const auto& problem : reading.problems)
    if (problem.kind == Problem::Kind::error) problems += problem.message.english() + "\n";
  if (!reading.procedure) throw std::runtime_error(problems);
  return *reading.procedure;
}

class HandMade {
 public:
  explicit HandMade(const Procedure& p) : p_(p) {}

  StepIx step(std::string_view id) const {
    for (std::size_t i = 0; i < p_.steps.size(); ++i)
      if (p_.steps[i].id == id) return StepIx{i};
    throw std::runtime_error("no step " + std::string(id));
  }
  PersonIx clinician() const { return p_.who(procedure::Role::clinician); }
  PersonIx assistant() const { return p_.who(procedure::Role::assistant); }

  HandMade& event(double at, drill::What what, PersonIx who = {}, StepIx step = {},
                  std::int64_t value = 0) {
    drill::Event e;
    e.at = sec(at);
    e.what = what;
    e.person = who;
    e.step = step;
    e.value = value;
    session_.events.push_back(e);
    return *this;
  }
  drill::Event& last() { return session_.events.back(); }

  /// A step of the clinician's; its needs are met from `since` on, one moment a need.
  HandMade& works(std::string_view id, double from, double to, std::vector<double> since = {}) {
    const StepIx s = step(id);
    for (std::size_t k = 0; k < since.size(); ++k) {
      event(from, drill::What::need_met, assistant(), s, static_cast<std::int64_t>(k));
      last().since = sec(since[k]);
    }
    event(from, drill::What::step_started, clinician(), s, sec(to - from).count());
    return event(to, drill::What::step_done, clinician(), s);
  }

  /// An action of the assistant's that counts for a step.
  HandMade& acts(std::string_view id, double from, double to, bool effect = true) {
    const StepIx s = step(id);
    action(from, drill::What::action_started, s);
    if (procedure::prepares(p_.step(s).verb)) {
      event(to, drill::What::prepared, assistant(), s);
      last().supply = p_.step(s).supply;
    }
    action(to, drill::What::action_done, s);
    last().value = effect ? 1 : 0;
    return effect ? event(to, drill::What::step_done, assistant(), s) : *this;
  }

  /// The same action when it counts for no step any more.
  HandMade& acts_in_vain(std::string_view id, double from, double to) {
    const StepIx s = step(id);
    action(from, drill::What::action_started, s).last().step = {};
    if (procedure::prepares(p_.step(s).verb)) {
      event(to, drill::What::prepared, assistant(), s);
      last().supply = p_.step(s).supply;
    }
    action(to, drill::What::action_done, s).last().step = {};
    last().value = 1;
    return *this;
  }

  HandMade& action(double at, drill::What what, StepIx s) {
    event(at, what, assistant(), s);
    last().action = p_.action_of[s.at()];
    last().supply = p_.step(s).supply;
    return *this;
  }
  HandMade& covers(std::string_view id, double from, double to) {
    action(from, drill::What::cover_started, step(id));
    return action(to, drill::What::cover_stopped, step(id));
  }
  HandMade& misses(std::string_view id, double at, std::int64_t need = 0) {
    return event(at, drill::What::need_arose, clinician(), step(id), need);
  }
  HandMade& asks(std::string_view id, double at, std::int64_t need = 0) {
    return event(at, drill::What::asked, clinician(), step(id), need);
  }
  HandMade& before(std::string_view id, std::string_view cause, double at, bool unsafe = false) {
    action(at, drill::What::unready_start, step(id));
    last().cause = step(cause);
    last().value = unsafe ? 1 : 0;
    return *this;
  }
  HandMade& sets(std::string_view supply, double at) {
    event(at, drill::What::has_set);
    for (std::size_t i = 0; i < p_.supplies.size(); ++i)
      if (p_.supplies[i].id == supply) last().supply = SupplyIx{i};
    return *this;
  }

  Session ends(double at, std::int64_t how = 0) {
    std::stable_sort(session_.events.begin(), session_.events.end(),
                     [](const auto& a, const auto& b) { return a.at < b.at; });
    event(at, drill::What::ended, {}, {}, how);
    return session_;
  }

  Score score(double at, std::int64_t how = 0) {
    return scoring::score(p_, ends(at, how), assistant(), Reference{sec(40), false});
  }

 private:
  const Procedure& p_;
  Session session_;
};

/// The lining done in time.
inline HandMade in_time(const Procedure& p) {
  HandMade h(p);
  h.works("prepare", 0, 20).acts("mix-liner", 5, 15).acts("pass-liner", 16, 18);
  h.works("apply", 20, 35, {18}).acts("pass-gauze", 30, 32);
  h.works("dab", 35, 40, {32}).acts("tidy", 40, 44);
  return h;
}

/// The lining with the paste passed `late` seconds after it should have been.
inline Score passed_late(const Procedure& p, double late) {
  HandMade h(p);
  const double ready = 20 + late;
  h.works("prepare", 0, 20).acts("mix-liner", 5, 15).acts("pass-liner", ready - 2, ready);
  if (late > 0) h.misses("apply", 20);
  const double start = std::max(20.0, ready);
  h.works("apply", start, start + 15, {ready});
  h.acts("pass-gauze", start + 10, start + 12).works("dab", start + 15, start + 20, {start + 12});
  h.acts("tidy", start + 20, start + 24);
  return h.score(start + 24);
}

inline const Error* find_error(const Score& s, ErrorKind kind) {
  for (const auto& e : s.errors)
    if (e.kind == kind) return &e;
  return nullptr;
}

}  // namespace beforehand::scoring
