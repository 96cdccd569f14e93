// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "procedure/procedure.hpp"
#include "procedure/yaml_tree.hpp"

namespace beforehand::procedure {

// How the values of a scenario are written. Form<T>::read gives the value of a node, or reports
// what is wrong with it and gives nothing. The tags below are kinds of value that share a type.

struct Id {};          ///< small letters, digits and hyphens
struct Language {};    ///< two small letters, as in ISO 639-1
struct Title {};       ///< one line for a narrow place
struct Prose {};       ///< a sentence or two
struct Percent {};     ///< "30 %"
struct Clock {};       ///< an hour on the clock face, 12 and "12.5" included
struct Irradiance {};  ///< "1000 mW/cm2"
struct Exposure {};    ///< "16 J/cm2", in mJ/cm2
struct Count {};       ///< a whole number from 0

template <class T>
struct Form;

inline constexpr std::size_t longest_id = 40, longest_title = 80, longest_prose = 400;

/// True when `text` may be an id; reports it otherwise.
bool check_id(const Node& node, Report& report);

/// The text of a node, if it is one; reports it otherwise, `wanted` saying what should stand there.
const std::string* text_of(const Node& node, const Said& wanted, Report& report);

template <>
struct Form<Id> {
  static std::optional<std::string> read(const Node& node, Report& report);
};
template <>
struct Form<Language> {
  static std::optional<std::string> read(const Node& node, Report& report);
};
template <>
struct Form<Title> {
  static std::optional<std::string> read(const Node& node, Report& report);
};
template <>
struct Form<Prose> {
  static std::optional<std::string> read(const Node& node, Report& report);
};
template <>
struct Form<bool> {
  static std::optional<bool> read(const Node& node, Report& report);
};
template <>
struct Form<Count> {
  static std::optional<int> read(const Node& node, Report& report);
};
template <>
struct Form<Percent> {
  static std::optional<int> read(const Node& node, Report& report);
};
template <>
struct Form<Clock> {
  static std::optional<double> read(const Node& node, Report& report);
};
/// "15 s", "2 min", "1 min 30 s", "2.5 s", "500 ms"; at most three hours.
template <>
struct Form<Ms> {
  static std::optional<Ms> read(const Node& node, Report& report);
};

template <>
struct Form<Irradiance> {
  static std::optional<int> read(const Node& node, Report& report);
};
template <>
struct Form<Exposure> {
  static std::optional<int> read(const Node& node, Report& report);
};
/// "mixing of two-part-adhesive", "2 x curing of composite".
template <>
struct Form<TimedBy> {
  static std::optional<TimedBy> read(const Node& node, Report& report);
};

/// "16 J/cm2" for 16000 mJ/cm2.
std::string exposure_text(int millijoules);

/// Which of `words` a node says, by position; `kind` names them in the message.
std::optional<std::size_t> choice(const Node& node, const std::vector<std::string>& words,
                                  const char* kind, Report& report);

/// The words of an enumeration, the first `count` from `first` on.
template <class E>
std::vector<std::string> words_of(std::size_t count, std::size_t first = 0) {
  std::vector<std::string> words;
  for (std::size_t i = 0; i < count; ++i) words.emplace_back(word(static_cast<E>(first + i)));
  return words;
}

template <class E, std::size_t count, std::size_t first = 0>
struct ChoiceForm {
  static std::optional<E> read_as(const char* kind, const Node& node, Report& report) {
    static const auto words = words_of<E>(count, first);
    const auto i = choice(node, words, kind, report);
    if (!i) return std::nullopt;
    return static_cast<E>(*i + first);
  }
};

template <>
struct Form<Role> {
  static auto read(const Node& n, Report& r) { return ChoiceForm<Role, 3>::read_as("role", n, r); }
};
template <>
struct Form<Motion> {
  static auto read(const Node& n, Report& r) {
    return ChoiceForm<Motion, 5, 1>::read_as("motion class", n, r);
  }
};
template <>
struct Form<Zone> {
  static auto read(const Node& n, Report& r) { return ChoiceForm<Zone, 4>::read_as("zone", n, r); }
};
template <>
struct Form<PlaceKind> {
  static auto read(const Node& n, Report& r) {
    return ChoiceForm<PlaceKind, 8>::read_as("kind of place", n, r);
  }
};
template <>
struct Form<Verb> {
  static auto read(const Node& n, Report& r) {
    return ChoiceForm<Verb, verb_count>::read_as("verb", n, r);
  }
};
template <>
struct Form<Severity> {
  static auto read(const Node& n, Report& r) {
    return ChoiceForm<Severity, 3>::read_as("severity", n, r);
  }
};
template <>
struct Form<Hazard> {
  static auto read(const Node& n, Report& r) {
    return ChoiceForm<Hazard, hazard_count>::read_as("hazard", n, r);
  }
};
template <>
struct Form<Field> {
  static auto read(const Node& n, Report& r) {
    return ChoiceForm<Field, field_count>::read_as("word for the field", n, r);
  }
};
template <>
struct Form<AfterUse> {
  static auto read(const Node& n, Report& r) {
    return ChoiceForm<AfterUse, 3>::read_as("state after use", n, r);
  }
};
template <>
struct Form<Anchor> {
  static auto read(const Node& n, Report& r) {
    return ChoiceForm<Anchor, 2>::read_as("moment of a step", n, r);
  }
};
/// A supply can start stored, set out or prepared.
template <>
struct Form<SupplyState> {
  static auto read(const Node& n, Report& r) {
    return ChoiceForm<SupplyState, 3>::read_as("state to start in", n, r);
  }
};

}  // namespace beforehand::procedure
