// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/action_cards.hpp"

#include <algorithm>
#include <array>

namespace beforehand::stage {
namespace {

using procedure::Verb;

std::string take(std::string& keys) {
  if (keys.empty()) return {};
  const std::string key(1, keys.front());
  keys.erase(0, 1);
  return key;
}

// A row of the keyboard for each corner. Where keys run out, the last letter of the last row begins
// those of two.
void give_keys(std::vector<ActionCard>& cards, const KeyRows& key_rows) {
  const char more = key_rows.back().back();
  std::size_t single = 0;
  std::array<std::string, corner_count> rows;
  for (std::size_t i = 0; i < corner_count; ++i) {
    rows[i] = key_rows[i];
    single += rows[i].size();
  }
  const bool two_needed = cards.size() > single;
  if (two_needed) std::erase(rows.back(), more);
  for (auto& card : cards) card.keys = take(rows[static_cast<std::size_t>(card.corner)]);
  std::string free = rows[0] + rows[1] + rows[2] + rows[3], second;
  for (const auto row : key_rows) second += row;
  for (auto& card : cards) {
    if (card.keys.empty()) card.keys = take(free);
    if (card.keys.empty() && !second.empty()) card.keys = more + take(second);
  }
}

bool is_for(const procedure::Procedure& procedure, const procedure::ActionKind& kind,
            PersonIx whom) {
  return std::any_of(kind.steps.begin(), kind.steps.end(),
                     [&](StepIx step) { return procedure.may_do(whom, step); });
}

ActionCard card_for(const procedure::Procedure& procedure, ActionIx action, const Strings& t) {
  const auto& kind = procedure.action(action);
  ActionCard card{action, corner_of(kind.verb), {}, title_of(procedure, action, t), {}};
  const bool said_above = kind.verb == Verb::pass || kind.verb == Verb::put_away;
  card.label = said_above && kind.supply ? procedure.supply(kind.supply).name : card.title;
  return card;
}

}  // namespace

Corner corner_of(Verb verb) {
  switch (verb) {
    case Verb::set_out:
    case Verb::open:
    case Verb::mix:
    case Verb::load:
      return Corner::make_ready;
    case Verb::pass:
    case Verb::take_back:
      return Corner::hand_over;
    case Verb::wipe:
    case Verb::put_away:
      return Corner::clear_away;
    default:
      return Corner::at_patient;
  }
}

std::vector<ActionCard> action_cards(const procedure::Procedure& procedure, PersonIx whom,
                                     const Strings& t, const KeyRows& keys) {
  std::vector<ActionCard> cards;
  for (std::size_t i = 0; i < procedure.actions.size(); ++i) {
    const auto& kind = procedure.actions[i];
    if (is_for(procedure, kind, whom)) cards.push_back(card_for(procedure, ActionIx{i}, t));
  }
  std::stable_sort(cards.begin(), cards.end(),
                   [](const ActionCard& a, const ActionCard& b) { return a.corner < b.corner; });
  give_keys(cards, keys);
  return cards;
}

std::optional<ActionIx> Typing::type(const std::vector<ActionCard>& cards, char symbol) {
  const std::string typed = begun_ + symbol;
  begun_.clear();
  for (const auto& card : cards) {
    if (card.keys == typed) return card.action;
    if (card.keys.size() > typed.size() && card.keys.compare(0, typed.size(), typed) == 0)
      begun_ = typed;
  }
  return std::nullopt;
}

CardNow card_now(const procedure::Procedure& procedure, const drill::World& world, PersonIx whom,
                 ActionIx action) {
  CardNow now;
  const auto& person = world.person(whom);
  for (const auto& doing : person.doing) {
    if (doing.action != action || doing.helping) continue;
    now.going_on = true;
    now.held = doing.cover;
  }
  const auto& kind = procedure.action(action);
  now.offered = kind.verb == Verb::pass && kind.supply && world.supply(kind.supply).offered &&
                world.supply(kind.supply).holder == whom;
  now.held = now.held || now.offered;
  now.lined_up =
      person.lined_up && person.lined_up->op == drill::Op::act && person.lined_up->action == action;
  if (!now.held) now.reason = drill::may_i(procedure, world, whom, action);
  return now;
}

}  // namespace beforehand::stage
