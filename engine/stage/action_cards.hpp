// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/strings.hpp"
#include "drill/world.hpp"
#include "procedure/title.hpp"
#include "stage/key_map.hpp"

namespace beforehand::stage {

/// Where an action happens, which is where its card stands.
enum class Corner { make_ready, hand_over, at_patient, clear_away };
inline constexpr std::size_t corner_count = 4;
Corner corner_of(procedure::Verb);

/// An action as the trainee can choose it. Place and keys stay the same for the whole scenario.
struct ActionCard {
  ActionIx action;
  Corner corner = Corner::make_ready;
  std::string keys;   ///< one letter or digit, or two to be typed one after the other; lower case
  std::string title;  ///< "Pass: Etching gel"
  std::string label;  ///< the same without the verb where the corner's heading says it
};

/// The keys of each corner, nearest first.
using KeyRows = std::array<std::string_view, corner_count>;

/// One card for each action that a step of the person needs, corner by corner. The four rows of the
/// keyboard belong to the four corners; what finds no room in its row takes a free key of another,
/// and past 36 cards two keys, the first being the last letter of the last row.
std::vector<ActionCard> action_cards(const procedure::Procedure&, PersonIx whom, const Strings&,
                                     const KeyRows& = rows_of(Letters::qwerty));

/// What was typed towards a card so far.
class Typing {
 public:
  /// The card whose keys are complete with this one; none while another has to follow, or when it
  /// means nothing.
  std::optional<ActionIx> type(const std::vector<ActionCard>& cards, char symbol);
  const std::string& begun() const { return begun_; }
  void clear() { begun_.clear(); }

 private:
  std::string begun_;
};

/// What a card shows now.
struct CardNow {
  drill::Reason reason = drill::Reason::none;  ///< why not; none or busy: it can be chosen
  bool going_on = false;                       ///< being done, or a cover held
  bool held = false;                           ///< going on, and choosing it again stops it
  bool offered = false;                        ///< held out; choosing it again puts it back
  bool lined_up = false;

  bool possible() const {
    return held || reason == drill::Reason::none || reason == drill::Reason::busy;
  }
};
CardNow card_now(const procedure::Procedure&, const drill::World&, PersonIx whom, ActionIx);

}  // namespace beforehand::stage
