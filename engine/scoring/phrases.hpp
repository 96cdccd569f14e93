// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <fmt/format.h>

#include <array>
#include <string>
#include <string_view>

#include "procedure/procedure.hpp"
#include "scoring/score.hpp"

// What is said of a drill, in the language of the scenario's own texts, which the sentences quote.

namespace beforehand::scoring {

/// The sentences of one language. Where one speaks of an error, {0} is its step, {1} the step it
/// came before or after, {2} the supply and {3} how that spoils; other places say what they take.
struct Phrases {
  std::string_view title;   ///< {0}: of a step, as quoted
  std::string_view supply;  ///< {0}: its name
  bool small_letters;       ///< a supply's name begins with one inside a sentence
  std::string_view a_step, it, something, something_clean, set;
  std::string_view action;  ///< {0}: the verb, {1}: the supply's name
  std::array<std::string_view, procedure::verb_count> verbs;

  // what happened
  std::string_view left_to_clinician, left_to_others, left_out, extra, repeated, before_it_began,
      before_it_was_done;
  std::string_view kept;  ///< {0}: what was kept
  std::string_view too_early, expired, soiled_passed, soiled_gloves, uncovered;
  std::string_view overrun;  ///< {2}: what comes of it, in brackets, or nothing
  /// {2}: how late; {3}: because. After `missed`: what the clinician did about it.
  std::string_view late, missed, fetched, managed, taken_over;
  std::string_view stood_by, had_let_go, busy, hand_full, not_prepared,
      not_set_out;                           ///< {0}: the supply
  std::string_view made_again, got_another;  ///< after what had set; {0}: how late

  std::array<std::string_view, error_kind_count> why;  ///< where the scenario is silent

  // what to do instead
  std::string_view in_its_place, with_cue;  ///< {0}: what to do, {1}: the cue
  std::string_view keep_free, let_go, once, first_then, lay_out,
      lay_out_until;  ///< {0}: the moment
  std::string_view all_else_first, free_a_hand, ready_before, set_out_before, begin_by, begin_first;
  std::string_view before_it_ends, within_the_limit, clean_hands, keep_going;

  // the habits to change, by kind of error and, for what was late, by cause
  std::array<std::string_view, error_kind_count> habits;
  std::array<std::string_view, cause_count> late_habits;
  std::string_view use_quiet_moments;
  std::string_view stood_by_while;  ///< {0}: for how long, {1}: the step
  std::string_view holds_up_the_rest;
  std::string_view begin_here;  ///< {0}: the step

  // what went well
  std::string_view all_in_time, some_in_time, in_a_row, critical_in_time;  ///< {0} of {1}
  std::string_view all_in_place, all_done, some_in_place, never_idle, seldom_idle, saw_it_all;

  std::array<std::string_view, 4> verdicts;
};

template <class... Fillings>
std::string filled(std::string_view phrase, const Fillings&... fillings) {
  return fmt::format(fmt::runtime(phrase), fillings...);
}

/// By ISO 639-1; English where there is no such language.
const Phrases& phrases(std::string_view language);

}  // namespace beforehand::scoring
