// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "procedure/parts.hpp"
#include "procedure/step.hpp"
#include "procedure/words.hpp"

// A procedure as plain data: what the scenario file says, plus what follows from it (see
// derive.hpp). Lists keep the file's order, which is the order a practised pair would work in; an
// Index is a position in such a list.

namespace beforehand::procedure {

/// One kind of action, a verb on a supply, that a person can choose. Its steps, in file order, form
/// the chain an action counts for: the first not yet done.
struct ActionKind {
  Verb verb = Verb::work;
  SupplyIx supply;
  bool cover = false;
  std::vector<StepIx> steps;
};

struct Weights {
  int anticipation = 45, idle = 20, sequence = 35;
};

/// What a trainee must have shown before a trainer's sign-off.
struct SignOffRule {
  int assessed_passes = 3;  ///< assessed drills of the whole procedure with the verdict ready
  Severity competent_from =
      Severity::critical;  ///< steps this severe or more must show evidence of competence
};

struct Procedure {
  int format = 1;
  std::string language = "en";           ///< what its texts are in, as in ISO 639-1
  std::string id, title, summary, plan;  ///< plan: what the clinician announces at the briefing
  std::string card, card_title;          ///< of the preference card laid over it, empty without one
  std::string materials, materials_title;  ///< of the materials file its times are from, or empty
  bool left_handed = false;                ///< the clinician: the room is the mirror image
  std::vector<std::string> cautions;
  Weights weights;
  SignOffRule sign_off;
  Ms patience{4000};    ///< standing still this long, the clinician asks aloud
  Ms self_help{12000};  ///< and this long, helps himself or herself
  Ms offer{10000};      ///< held in the transfer zone earlier than this it only blocks a hand
  std::vector<Person> people;
  std::vector<Place> places;
  std::vector<Device> devices;
  std::vector<Supply> supplies;
  std::vector<Signal> signals;
  std::vector<Phase> phases;
  std::vector<Step> steps;

  // Derived (derive.hpp).
  std::vector<ActionKind> actions;  ///< in order of first appearance
  std::vector<ActionIx> action_of;  ///< by step; none for work
  std::vector<std::vector<std::uint64_t>>
      before;                       ///< by step: bit set of the steps that must come before it
  std::vector<StepIx> topological;  ///< every step after those that must come before it
  std::uint64_t fingerprint = 0;    ///< fnv1a of the texts it was read from

  const Step& step(StepIx i) const { return steps[i.at()]; }
  const Supply& supply(SupplyIx i) const { return supplies[i.at()]; }
  const Person& person(PersonIx i) const { return people[i.at()]; }
  const Place& place(PlaceIx i) const { return places[i.at()]; }
  const Signal& signal(SignalIx i) const { return signals[i.at()]; }
  const ActionKind& action(ActionIx i) const { return actions[i.at()]; }

  /// True when `first` must come before `second` in every order the graph allows.
  bool precedes(StepIx first, StepIx second) const {
    return (before[second.at()][first.at() / 64] >> (first.at() % 64)) & 1u;
  }
  PersonIx who(Role role) const {
    for (std::size_t i = 0; i < people.size(); ++i) {
      if (people[i].role == role) return PersonIx{i};
    }
    return {};
  }
  bool may_do(PersonIx who, StepIx what) const {
    for (const auto p : step(what).by) {
      if (p == who) return true;
    }
    return false;
  }
};

/// The time a reach to a place of this motion class adds to an action: our own planning values
/// (invented), 0 s for classes I and II, 0.5 s for III, 1.5 s for IV, 3 s for V.
Ms reach_time(Motion);

}  // namespace beforehand::procedure
