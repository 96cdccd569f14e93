// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <array>
#include <bitset>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "base/index.hpp"
#include "base/problem.hpp"
#include "base/time.hpp"

// A procedure as plain data: what the scenario file says, plus what follows from it (see
// derive.hpp). Lists keep the file's order, which is the order a practised pair would work in; an
// Index is a position in such a list.

namespace beforehand::procedure {

enum class Role : std::uint8_t { clinician, assistant, second_assistant };

/// Classification of motion by the parts of the body it takes: I fingers, II wrist, III elbow, IV
/// whole arm, V turning the torso. The rules of four-handed work prefer I-III (trade convention).
enum class Motion : std::uint8_t { i = 1, ii, iii, iv, v };

/// Zones of activity by clock position (Finkbeiner 2000).
enum class Zone : std::uint8_t { operator_zone, assistant_zone, transfer_zone, static_zone };

/// What a place is for. `store` places are clean: a soiled glove must not reach in.
enum class PlaceKind : std::uint8_t {
  tray,
  counter,
  store,
  holder,
  patient,
  soiled,
  waste,
  sharps
};

/// What is done to a supply, or with it. `work` is the clinician's own work.
enum class Verb : std::uint8_t {
  set_out,    ///< stored -> set out at its place
  open,       ///< set out -> prepared; working time starts
  mix,        ///< set out -> prepared; working time starts
  load,       ///< set out -> prepared; working time starts
  pass,       ///< held ready in the transfer zone until the other takes it
  take_back,  ///< out of the other's hand, to where used things go
  place,      ///< onto the patient
  remove,     ///< off the patient
  use,        ///< does something with it; its state stays
  check,      ///< looks, reads, counts or asks
  suction,
  dry,
  light,
  hold,      ///< retracts, supports, shades
  wipe,      ///< used -> clean
  put_away,  ///< to where it ends: store, waste, sharps
  work,
};
inline constexpr std::size_t verb_count = 17;

/// The word used in scenario files and recordings: "set-out", "take-back", "work".
std::string_view word(Verb);
std::string_view word(Role);
std::string_view word(Zone);
std::string_view word(Motion);
std::string_view word(PlaceKind);

/// True for open, mix and load.
constexpr bool prepares(Verb v) { return v == Verb::open || v == Verb::mix || v == Verb::load; }
/// True where the verb changes nothing but the patient or the record: done out of turn it has no
/// effect.
constexpr bool acts_on_patient(Verb v) {
  return v == Verb::use || v == Verb::check || v == Verb::dry || v == Verb::light ||
         v == Verb::work;
}

/// How much a fault here matters; the weight is used in every weighted mean of the score.
enum class Severity : std::uint8_t { minor, major, critical };
std::string_view word(Severity);
constexpr int weight(Severity s) { return s == Severity::minor ? 1 : s == Severity::major ? 2 : 4; }

enum class Hazard : std::uint8_t { staining, caustic, hot, sharp, bright };
inline constexpr std::size_t hazard_count = 5;
std::string_view word(Hazard);

/// What can be seen at the tooth. Steps set and clear these; the close-up is drawn from them.
enum class Field : std::uint8_t {
  isolated,
  wet,
  bleeding,
  dyed,
  opened,
  matrixed,
  etched,
  primed,
  coated,
  filled,
  cured,
  contoured,
  shielded
};
inline constexpr std::size_t field_count = 13;
std::string_view word(Field);
using FieldSet = std::bitset<field_count>;

/// Three-point estimate; least <= usual <= most. Drawn from a triangular distribution (see
/// drill/durations.hpp).
struct Estimate {
  Ms least{0}, usual{0}, most{0};
};

struct Person {
  std::string id, name;
  Role role = Role::assistant;
  int hands = 2;
  Mark mark;
};

struct Place {
  std::string id, name;
  double clock_hour =
      3;  ///< position around the patient's mouth, 12 behind the head, for a right-handed operator
  Zone zone = Zone::assistant_zone;
  Motion motion = Motion::ii;  ///< what it takes the assistant to reach it
  PlaceKind kind = PlaceKind::tray;
  Mark mark;
};

/// Something there is one of, which two steps cannot use at once.
struct Device {
  std::string id, name;
  Mark mark;
};

/// What the instructions of a material give a time for.
enum class MaterialTime : std::uint8_t {
  mixing,
  working,  ///< from mixed or opened until it must be in its place
  acting,   ///< that it must be left to work: an etchant, a primer, a disinfectant
  setting,  ///< by itself
  curing,   ///< by light
};
inline constexpr std::size_t material_time_count = 5;
std::string_view word(MaterialTime);

/// Says that a step lasts as long as a material's instructions tell, `times` over.
struct TimedBy {
  MaterialTime time = MaterialTime::mixing;
  std::string material;  ///< id in a materials file; none: the times are the scenario's own
  int times = 1;
  Mark mark;
};

enum class AfterUse : std::uint8_t { soiled, reload, ready };
std::string_view word(AfterUse);
enum class SupplyState : std::uint8_t {
  stored,
  set_out,
  prepared,
  set,
  in_use,
  soiled,
  cleaned,
  discarded
};
std::string_view word(SupplyState);

struct Supply {
  std::string id, name, icon, caution;
  std::string material;      ///< whose working time it has, by id in a materials file; may be empty
  PlaceIx stored, at, ends;  ///< where it is kept, lies ready, and goes when put away
  SupplyState starts = SupplyState::stored;
  AfterUse after_use =
      AfterUse::soiled;  ///< what a use leaves: soiled, to be loaded again, or as ready as before
  Ms working_time = never;      ///< from prepared until it has set
  std::string sets_as = "set";  ///< how it spoils, for messages: "set", "dried out"
  std::bitset<hazard_count> hazards;
  bool cleans_hands = false;     ///< using it makes soiled gloves clean (hand rub, overgloves)
  bool needs_preparing = false;  ///< derived: some step opens, mixes or loads it
  Mark mark;
};

/// A signal another one makes likelier: the first surprise predicts the second.
struct Foretold {
  SignalIx by;
  int likely_percent = 100;
};

/// Something that changes what will be needed. Whether it happens is drawn, or chosen; it shows, or
/// is known not to come, `delay` after `after` has started or ended.
struct Signal {
  std::string id, title, cue, why;
  int likely_percent = 0;
  StepIx after;
  bool from_start = false;
  Ms delay{0};
  std::vector<Foretold>
      foretold;     ///< when one of these has happened, its percentage replaces likely_percent
  FieldSet leaves;  ///< what can be seen at the tooth once it has happened
  Mark mark;
};

struct Phase {
  std::string id, title;
  Mark mark;
};

enum class Anchor : std::uint8_t { start, end };
std::string_view word(Anchor);

/// Precedence with lags: this step starts at least / at most so long after `step`'s anchor.
struct Link {
  StepIx step;
  Anchor from = Anchor::end;
  Ms at_least{0};
  Ms at_most = never;
  bool unsafe = false;   ///< going before it is an unsafe act
  bool implied = false;  ///< derived, not written
  std::string if_late;   ///< the name of the error when at_most is overrun: "over-etched"
  std::string why;
  Mark mark;
};

/// What a step must have from somebody else before it can start.
struct Need {
  enum class Kind : std::uint8_t {
    supply,  ///< `supply` ready in the transfer zone, or still in the own hand and ready
    cover,   ///< the cover of step `from` going on
    done,    ///< step `from` done
  };
  Kind kind = Kind::supply;
  SupplyIx supply;
  StepIx from;  ///< who serves it: the pass, the cover, the other's step; none when kept in the own
                ///< hand
  StepIx prepared_by;  ///< the step whose opening, mixing or loading is used up here, if any
  Mark mark;
};

struct Step {
  std::string id, title, cue, why, caution;
  PhaseIx phase;
  std::vector<PersonIx> by;  ///< who may do it, the preferred one first; never empty
  Verb verb = Verb::work;
  SupplyIx supply;  ///< what the verb is done to; none for work
  Estimate takes;   ///< a cover has none of its own
  TimedBy timed_by;
  Ms reach{0};  ///< derived: added to `takes` for the reach to the supply's place
  std::vector<Link> after;
  std::vector<Need> needs;
  std::vector<SupplyIx> keeps;  ///< supplies that stay in the hand when the step ends
  std::vector<StepIx> covers;  ///< not empty: this is a cover, going on while each of these goes on
  std::vector<StepIx> covered_by;  ///< derived: the covers this step needs
  StepIx serves;                   ///< the step it makes something ready for, if it is one step's
  int hands = 1;
  bool attention = true;  ///< false: takes a hand only (a cover, holding the light)
  std::vector<DeviceIx> devices;
  std::vector<SignalIx> when,
      unless;  ///< applies when all of `when` and none of `unless` have happened
  Severity severity = Severity::minor;
  bool lapse = false;       ///< nothing can be needed meanwhile: the window may run it fast
  FieldSet leaves, clears;  ///< what its end does to the field; clears first
  std::string says;         ///< what the clinician says as it starts
  Mark mark;

  bool is_cover() const { return !covers.empty(); }
};

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
