// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "drill/turnover.hpp"

#include <algorithm>
#include <initializer_list>
#include <optional>

namespace beforehand::drill {
namespace {

using procedure::PlaceKind;
using procedure::Supply;
using procedure::SupplyState;
using procedure::Verb;

std::vector<bool> used_in(const Procedure& p, const Session& session) {
  std::vector<bool> used(p.supplies.size());
  for (const auto& e : session.events) {
    const bool did = e.what == What::action_done || e.what == What::cover_started ||
                     (e.what == What::step_done && e.person) || e.what == What::need_met;
    if (!did) continue;
    if (e.supply) used[e.supply.at()] = true;
    if (e.action && p.action(e.action).supply) used[p.action(e.action).supply.at()] = true;
    if (e.step && p.step(e.step).supply) used[p.step(e.step).supply.at()] = true;
  }
  return used;
}

bool has_verb(const Procedure& p, SupplyIx supply, std::initializer_list<Verb> verbs) {
  return std::any_of(p.actions.begin(), p.actions.end(), [&](const auto& action) {
    return action.supply == supply &&
           std::find(verbs.begin(), verbs.end(), action.verb) != verbs.end();
  });
}

Leftover to(SupplyIx supply, ClearedBecause because, std::initializer_list<Destination> where) {
  Leftover left{supply, {}, because};
  for (const auto d : where) left.right.set(static_cast<std::size_t>(d));
  return left;
}

// Nothing when it is where it ends already, or when the scenario does not settle it.
std::optional<Leftover> leftover(const Procedure& p, const World& world, SupplyIx i) {
  using enum Destination;
  const auto& supply = p.supply(i);
  const auto& now = world.supply(i);
  const auto kind_of = [&](PlaceIx place) { return p.place(place).kind; };
  if (supply.at && kind_of(supply.at) == PlaceKind::patient) return std::nullopt;
  const bool gone = now.state == SupplyState::discarded || now.state == SupplyState::stored;
  if (supply.ends) {
    const auto ends = kind_of(supply.ends);
    const bool put = gone || now.place == supply.ends;
    if (ends == PlaceKind::store) return std::nullopt;
    if (ends == PlaceKind::sharps || ends == PlaceKind::waste || ends == PlaceKind::soiled) {
      if (put) return std::nullopt;
      return to(i, ClearedBecause::says,
                {ends == PlaceKind::sharps  ? sharps
                 : ends == PlaceKind::waste ? waste
                                            : soiled});
    }
    return to(i, ClearedBecause::touched, {wiped});
  }
  if (gone) return std::nullopt;
  if (supply.cleans_hands || has_verb(p, i, {Verb::light}))
    return to(i, ClearedBecause::touched, {wiped});
  if (has_verb(p, i, {Verb::suction})) return to(i, ClearedBecause::in_mouth, {waste, soiled});
  if (supply.after_use == procedure::AfterUse::soiled && has_verb(p, i, {Verb::place}))
    return to(i, ClearedBecause::on_patient, {wiped, soiled});
  if (now.state == SupplyState::soiled) return to(i, ClearedBecause::soiled, {soiled});
  return std::nullopt;
}

}  // namespace

std::string_view word(Destination destination) {
  static constexpr std::string_view words[] = {"sharps", "waste", "soiled", "wiped"};
  return words[static_cast<std::size_t>(destination)];
}

std::string_view word(ClearedBecause because) {
  static constexpr std::string_view words[] = {"says", "soiled", "in-mouth", "on-patient",
                                               "touched"};
  return words[static_cast<std::size_t>(because)];
}

std::vector<Leftover> leftovers(const Procedure& p, const World& world, const Session& session) {
  std::vector<Leftover> result;
  const bool somebody = std::any_of(p.places.begin(), p.places.end(), [](const auto& place) {
    return place.kind == PlaceKind::patient;
  });
  if (!somebody) return result;
  const auto used = used_in(p, session);
  for (std::size_t i = 0; i < p.supplies.size(); ++i)
    if (used[i])
      if (const auto left = leftover(p, world, SupplyIx{i})) result.push_back(*left);
  return result;
}

TurnoverCheck check_turnover(const std::vector<Leftover>& all,
                             const std::vector<Cleared>& cleared) {
  TurnoverCheck check;
  bool others = false;
  for (std::size_t i = 0; i < cleared.size(); ++i) {
    const auto& left = all[cleared[i].leftover];
    if (left.goes_to(cleared[i].to))
      ++check.right;
    else
      check.wrong.push_back(i);
    if (!left.goes_to(Destination::sharps))
      others = true;
    else if (others)
      check.sharps_late.push_back(i);
  }
  return check;
}

}  // namespace beforehand::drill
