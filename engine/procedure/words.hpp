// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <bitset>
#include <cstddef>
#include <cstdint>
#include <string_view>

// The words of a scenario: what can be said of people, places, supplies and steps, each with the
// word that scenario files and recordings use for it ("set-out", "take-back").

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

enum class Anchor : std::uint8_t { start, end };
std::string_view word(Anchor);

}  // namespace beforehand::procedure
