// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "procedure/relations.hpp"

#include <algorithm>

namespace beforehand::procedure {
namespace {

template <class T>
bool contains(const std::vector<T>& list, const T& item) {
  return std::find(list.begin(), list.end(), item) != list.end();
}

template <class T>
bool has_all(const std::vector<T>& list, const std::vector<T>& wanted) {
  return std::all_of(wanted.begin(), wanted.end(), [&](const T& w) { return contains(list, w); });
}

template <class T>
bool has_any(const std::vector<T>& list, const std::vector<T>& wanted) {
  return std::any_of(wanted.begin(), wanted.end(), [&](const T& w) { return contains(list, w); });
}

}  // namespace

std::vector<std::vector<StepIx>> lives(const Procedure& p) {
  std::vector<std::vector<StepIx>> out(p.supplies.size());
  for (std::size_t i = 0; i < p.steps.size(); ++i) {
    const Step& step = p.steps[i];
    if (step.supply) out[step.supply.at()].push_back(StepIx{i});
    for (const Need& need : step.needs) {
      if (need.kind != Need::Kind::supply || need.supply == step.supply) continue;
      auto& life = out[need.supply.at()];
      if (life.empty() || life.back() != StepIx{i}) life.push_back(StepIx{i});
    }
  }
  return out;
}

std::vector<SupplyIx> in_order_of_use(const Procedure& p) {
  const auto uses = lives(p);
  const auto first = [&](SupplyIx s) {
    const auto& life = uses[s.at()];
    return life.empty() ? p.steps.size() : life.front().at();
  };
  std::vector<SupplyIx> order;
  for (std::size_t i = 0; i < p.supplies.size(); ++i) order.emplace_back(i);
  std::stable_sort(order.begin(), order.end(),
                   [&](SupplyIx a, SupplyIx b) { return first(a) < first(b); });
  return order;
}

bool is_conditional(const Step& step) { return !step.when.empty() || !step.unless.empty(); }

bool applies_whenever(const Step& step, const Step& other) {
  return has_all(other.when, step.when) && has_all(other.unless, step.unless);
}

bool can_both_apply(const Step& a, const Step& b) {
  return !has_any(a.when, b.unless) && !has_any(b.when, a.unless);
}

bool needs_supply(const Step& step, SupplyIx supply) {
  return std::any_of(step.needs.begin(), step.needs.end(), [&](const Need& need) {
    return need.kind == Need::Kind::supply && need.supply == supply;
  });
}

bool keeps(const Step& step, SupplyIx supply) { return contains(step.keeps, supply); }

bool start_suffices(const Step& step, const Need& need) {
  return need.kind == Need::Kind::done &&
         std::none_of(step.after.begin(), step.after.end(), [&](const Link& link) {
           return link.step == need.from && link.from == Anchor::end;
         });
}

SupplyIx comes_out_of(const Procedure& p, const Step& step) {
  if (step.verb != Verb::set_out || !step.supply) return {};
  const PlaceIx place = p.supply(step.supply).stored;
  const SupplyIx outer = place ? p.place(place).inside : SupplyIx{};
  return outer && p.supply(outer).starts == SupplyState::stored ? outer : SupplyIx{};
}

Said line_in(const Procedure& p, Mark mark) {
  const auto line = say("line {}", mark.line);
  if (p.card.empty()) return line;
  return say(mark.file == 0 ? "{} of the scenario" : "{} of the card", line);
}

Said named(const Procedure& p, const Step& step) {
  return say("{} ({})", step.id, line_in(p, step.mark));
}

}  // namespace beforehand::procedure
