// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "procedure/words.hpp"

#include <array>

#include "procedure/procedure.hpp"

namespace beforehand::procedure {
namespace {

template <class E, std::size_t N>
std::string_view in(const std::array<std::string_view, N>& words, E e) {
  return words[static_cast<std::size_t>(e)];
}

constexpr std::array<std::string_view, verb_count> verbs{
    "set-out", "open",    "mix", "load",  "pass", "take-back", "place",    "remove", "use",
    "check",   "suction", "dry", "light", "hold", "wipe",      "put-away", "work"};
constexpr std::array<std::string_view, 3> roles{"clinician", "assistant", "second-assistant"};
constexpr std::array<std::string_view, 4> zones{"operator", "assistant", "transfer", "static"};
constexpr std::array<std::string_view, 8> place_kinds{"tray",    "counter", "store", "holder",
                                                      "patient", "soiled",  "waste", "sharps"};
constexpr std::array<std::string_view, 3> severities{"minor", "major", "critical"};
constexpr std::array<std::string_view, hazard_count> hazards{"staining", "caustic", "hot", "sharp",
                                                             "bright"};
constexpr std::array<std::string_view, field_count> fields{
    "isolated", "wet",    "bleeding", "dyed",  "opened",    "matrixed", "etched",
    "primed",   "coated", "filled",   "cured", "contoured", "shielded"};
constexpr std::array<std::string_view, material_time_count> material_times{
    "mixing", "working", "acting", "setting", "curing"};
constexpr std::array<std::string_view, 3> after_uses{"soiled", "reload", "ready"};
constexpr std::array<std::string_view, 2> anchors{"start", "end"};
// Motion counts from 1.
constexpr std::array<std::string_view, 6> motions{"", "I", "II", "III", "IV", "V"};
constexpr std::array<std::string_view, 8> states{"stored", "set-out", "prepared", "set",
                                                 "in-use", "soiled",  "cleaned",  "discarded"};

}  // namespace

std::string_view word(Verb v) { return in(verbs, v); }
std::string_view word(Role r) { return in(roles, r); }
std::string_view word(Zone z) { return in(zones, z); }
std::string_view word(PlaceKind k) { return in(place_kinds, k); }
std::string_view word(Severity s) { return in(severities, s); }
std::string_view word(Hazard h) { return in(hazards, h); }
std::string_view word(Field f) { return in(fields, f); }
std::string_view word(MaterialTime t) { return in(material_times, t); }
std::string_view word(AfterUse a) { return in(after_uses, a); }
std::string_view word(Anchor a) { return in(anchors, a); }
std::string_view word(Motion m) { return in(motions, m); }
std::string_view word(SupplyState s) { return in(states, s); }

Ms reach_time(Motion m) {
  constexpr std::array<Ms, 6> times{Ms{0}, Ms{0}, Ms{0}, Ms{500}, Ms{1500}, Ms{3000}};
  return times[static_cast<std::size_t>(m)];
}

}  // namespace beforehand::procedure
