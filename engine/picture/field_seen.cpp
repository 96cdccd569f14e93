// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "picture/field_seen.hpp"

#include <algorithm>
#include <optional>
#include <string>

#include "picture/supply_tile.hpp"
#include "procedure/relations.hpp"

namespace beforehand::picture {
namespace {

using drill::Doing;
using drill::StepState;
using drill::World;
using procedure::Field;
using procedure::FieldSet;
using procedure::Procedure;
using procedure::Step;
using procedure::Verb;

constexpr std::size_t bit(Field field) { return static_cast<std::size_t>(field); }

std::string icon_of(const Procedure& p, SupplyIx index) {
  const auto& supply = p.supply(index);
  return icon_for(supply.icon, supply.id, supply.name);
}

FieldSet there_before(const Procedure& p) {
  FieldSet cleared, left;
  for (const Step& step : p.steps) cleared |= step.clears, left |= step.leaves;
  for (const auto& signal : p.signals) left |= signal.leaves;
  return cleared & ~left;
}

/// What is not wiped, rinsed or cured away, but taken off by hand.
FieldSet taken_off_by_hand() {
  FieldSet fields;
  fields.set(bit(Field::isolated)).set(bit(Field::matrixed));
  return fields;
}

bool is_half_done(const Doing& doing, Ms now) {
  return doing.ends != never && now - doing.started > (doing.ends - doing.started) / 2;
}

/// Whether a supply has been handed to the clinician and used, or put or held there.
bool was_used(const Procedure& p, const World& w, SupplyIx supply) {
  for (std::size_t i = 0; i < p.steps.size(); ++i) {
    if (w.steps[i].state != StepState::done) continue;
    const Step& step = p.steps[i];
    const bool there = step.verb == Verb::place || step.verb == Verb::hold;
    if (procedure::needs_supply(step, supply) || (there && step.supply == supply)) return true;
  }
  return false;
}

/// What is counted once it is out is out when it may be counted.
bool counted_out(const Procedure& p, const World& w, StepIx laid, SupplyIx supply) {
  for (std::size_t i = 0; i < p.steps.size(); ++i) {
    const Step& count = p.steps[i];
    if (count.verb != Verb::check || count.supply != supply || !p.precedes(laid, StepIx{i}))
      continue;
    return std::all_of(count.after.begin(), count.after.end(),
                       [&](const procedure::Link& link) { return w.finished(link.step); });
  }
  return false;
}

/// What shows that a thing with this icon is on; nothing for one that never stays.
std::optional<Field> shown_by(const std::string& icon) {
  if (icon == "cotton-roll" || icon == "dam-clamp" || icon == "dam-frame" || icon == "dam-sheet")
    return Field::isolated;
  if (icon == "matrix-band" || icon == "wedge") return Field::matrixed;
  if (icon == "light-shield") return Field::shielded;
  return std::nullopt;
}

}  // namespace

FieldSet seen_at_tooth(const Procedure& p, const World& w) {
  FieldSet before = there_before(p), taken;
  for (std::size_t i = 0; i < p.steps.size(); ++i)
    if (w.steps[i].state == StepState::done) before &= ~p.steps[i].clears;
  for (const auto& person : w.people)
    for (const Doing& doing : person.doing)
      if (doing.step && !doing.helping && is_half_done(doing, w.now))
        taken |= p.step(doing.step).clears & taken_off_by_hand();
  return (w.field | before) & ~taken;
}

bool cord_lies(const Procedure& p, const World& w) {
  bool lies = false;
  for (std::size_t i = 0; i < p.steps.size(); ++i) {
    if (w.steps[i].state != StepState::done) continue;
    for (const auto& need : p.steps[i].needs)
      if (need.kind == procedure::Need::Kind::supply && icon_of(p, need.supply) == "cord")
        lies = !counted_out(p, w, StepIx{i}, need.supply);
  }
  return lies;
}

Fixed fixed_on_patient(const Procedure& p, const World& w, const FieldSet& seen, SupplyIx supply) {
  const auto icon = icon_of(p, supply);
  const bool cord = icon == "cord";
  const auto field = shown_by(icon);
  if (!cord && !field) return Fixed::never;
  const bool already = field && there_before(p).test(bit(*field));
  if (!already && !was_used(p, w, supply)) return Fixed::not_yet;
  return (cord ? cord_lies(p, w) : seen.test(bit(*field))) ? Fixed::on : Fixed::off;
}

}  // namespace beforehand::picture
