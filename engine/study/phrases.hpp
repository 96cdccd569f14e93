// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <string_view>

#include "scoring/phrases.hpp"

// What studies say, in the language of the scenario's own texts, which the sentences quote.

namespace beforehand::study {

using scoring::filled;

/// The sentences of one language. Steps are quoted by them.
struct Phrases {
  // Other ways of working. {0}: who, or the step; {1}: the step, or another; {2}: who not.
  std::string_view other_first, other_too, other_caution;
  std::string_view beforehand, keeps_that_long, keep_covered;
  std::string_view earlier, keeps_until_used;
  std::string_view nearer_supply;  ///< {0}: supply, {1} {2}: place and its class, {3} {4}: now
  std::string_view nearer_supply_caution;
  std::string_view nearer_place;  ///< {0}: place, {1}: its class
  std::string_view nearer_place_caution;

  // What the clinician could change, and when the others' mistake was seen first.
  std::string_view begin_sooner;         ///< {0}: when, {1}: the step, {2}: how much later
  std::string_view say_ahead;            ///< {0}: how often, {1}: the first step
  std::string_view let_the_other;        ///< {0}: how often
  std::string_view once, times;          ///< {0}: how often
  std::string_view change_with_example;  ///< {0}: what to change, {1}: when, {2}: the example
};

/// By ISO 639-1; English where there is no such language.
const Phrases& phrases(std::string_view language);

}  // namespace beforehand::study
