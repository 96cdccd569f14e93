// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "drill/set_up.hpp"

#include <algorithm>
#include <set>

#include "base/random.hpp"

namespace beforehand::drill {
namespace {

using procedure::Need;
using procedure::PlaceKind;
using procedure::Procedure;
using procedure::Step;
using procedure::Supply;
using procedure::SupplyState;
using procedure::Verb;

constexpr std::size_t strangers = 4;  // things from elsewhere in the cabinet

bool uses(const Step& step, SupplyIx supply) {
  return step.supply == supply ||
         std::any_of(step.needs.begin(), step.needs.end(), [&](const Need& need) {
           return need.kind == Need::Kind::supply && need.supply == supply;
         });
}

// The steps of the part that use it, in the order in which a practised pair works.
std::vector<StepIx> uses_of(const Procedure& p, PhaseIx part, SupplyIx supply) {
  std::vector<StepIx> steps;
  for (std::size_t i = 0; i < p.steps.size(); ++i)
    if ((!part || p.steps[i].phase == part) && uses(p.steps[i], supply)) steps.push_back(StepIx{i});
  return steps;
}

PlaceKind kind_at(const Procedure& p, const Supply& supply) {
  return supply.at ? p.place(supply.at).kind : PlaceKind::store;
}

bool has_patient(const Procedure& p) {
  return std::any_of(p.places.begin(), p.places.end(),
                     [](const auto& place) { return place.kind == PlaceKind::patient; });
}

// A place whose first use is that something is fetched to it: what lies there comes with that.
bool comes_later(const Procedure& p, PlaceIx place) {
  for (const auto& step : p.steps)
    if (step.supply && p.supply(step.supply).at == place) return step.verb == Verb::set_out;
  return false;
}

Belongs belongs(const Procedure& p, const Supply& supply, const std::vector<StepIx>& steps) {
  if (steps.empty()) return Belongs::nowhere;
  if (supply.starts == SupplyState::stored || comes_later(p, supply.at)) return Belongs::store;
  if (kind_at(p, supply) != PlaceKind::tray) return Belongs::counter;
  const bool only_if =
      std::all_of(steps.begin(), steps.end(), [&](StepIx s) { return !p.step(s).when.empty(); });
  return only_if ? Belongs::back_up : Belongs::tray;
}

bool stands_to_choose(const Procedure& p, const Supply& supply) {
  const auto kind = kind_at(p, supply);
  return kind == PlaceKind::tray || kind == PlaceKind::counter || kind == PlaceKind::store;
}

// A thing of another procedure that cannot be mistaken for one of this: neither name nor icon.
void add_strangers(const Procedure& p, const std::vector<const Procedure*>& others,
                   std::uint64_t seed, std::vector<SetUpItem>& items) {
  std::set<std::string> names, icons;
  for (const auto& supply : p.supplies) names.insert(supply.name), icons.insert(supply.icon);
  std::vector<SetUpItem> found;
  for (const auto* other : others)
    for (const auto& supply : other->supplies)
      if (has_patient(*other) && kind_at(*other, supply) == PlaceKind::tray &&
          !comes_later(*other, supply.at) && names.insert(supply.name).second &&
          icons.insert(supply.icon).second)
        found.push_back({{}, supply.name, supply.icon, Belongs::nowhere, {}});
  for (std::size_t i = 0; i < strangers && !found.empty(); ++i) {
    const auto which = keyed_bits({seed, fnv1a("stranger"), i}) % found.size();
    items.push_back(std::move(found[which]));
    found.erase(found.begin() + static_cast<std::ptrdiff_t>(which));
  }
}

}  // namespace

std::vector<SetUpItem> set_up_of(const Procedure& p, PhaseIx part,
                                 const std::vector<const Procedure*>& others, std::uint64_t seed) {
  std::vector<SetUpItem> items;
  if (!has_patient(p)) return items;
  for (std::size_t i = 0; i < p.supplies.size(); ++i) {
    const auto& supply = p.supplies[i];
    if (!stands_to_choose(p, supply)) continue;
    const auto steps = uses_of(p, part, SupplyIx{i});
    items.push_back({SupplyIx{i}, supply.name, supply.icon, belongs(p, supply, steps),
                     steps.empty() ? StepIx{} : steps.front()});
  }
  const bool any = std::any_of(items.begin(), items.end(),
                               [](const auto& item) { return item.belongs == Belongs::tray; });
  if (!any) return {};
  add_strangers(p, others, seed, items);
  std::stable_sort(items.begin(), items.end(),
                   [](const auto& a, const auto& b) { return a.name < b.name; });
  return items;
}

namespace {

// Positions in `order` of a longest non-decreasing subsequence.
std::vector<bool> longest_in_order(const std::vector<std::size_t>& order) {
  const auto n = order.size();
  std::vector<std::size_t> length(n, 1), from(n, n);
  std::size_t best = n;
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t k = 0; k < i; ++k)
      if (order[k] <= order[i] && length[k] + 1 > length[i]) length[i] = length[k] + 1, from[i] = k;
    if (best == n || length[i] > length[best]) best = i;
  }
  std::vector<bool> kept(n);
  for (auto i = best; i < n; i = from[i]) kept[i] = true;
  return kept;
}

SetUpFault fault_of(Belongs belongs) {
  if (belongs == Belongs::counter) return SetUpFault::from_counter;
  return belongs == Belongs::store ? SetUpFault::too_soon : SetUpFault::superfluous;
}

}  // namespace

std::string_view word(SetUpFault fault) {
  static constexpr std::string_view words[] = {"missing", "superfluous", "from-counter", "too-soon",
                                               "out-of-order"};
  return words[static_cast<std::size_t>(fault)];
}

SetUpCheck check_set_up(const std::vector<SetUpItem>& items, const std::vector<std::size_t>& laid) {
  SetUpCheck check;
  std::vector<bool> lies(items.size());
  std::vector<std::size_t> ordered, order;  // things with a place in the order, and that place
  for (const auto i : laid) {
    const auto& item = items[i];
    lies[i] = true;
    if (item.belongs == Belongs::tray) {
      ordered.push_back(i);
      order.push_back(item.first_use.at());
    } else if (item.belongs == Belongs::back_up) {
      ++check.right;
    } else {
      check.findings.push_back({fault_of(item.belongs), i, 0});
    }
  }
  for (std::size_t i = 0; i < items.size(); ++i) {
    const bool wanted = items[i].belongs == Belongs::tray || items[i].belongs == Belongs::back_up;
    check.wanted += wanted ? 1 : 0;
    if (wanted && !lies[i]) check.findings.push_back({SetUpFault::missing, i, 0});
  }
  const auto kept = longest_in_order(order);
  for (std::size_t k = 0; k < ordered.size(); ++k) {
    if (kept[k]) {
      ++check.right;
      continue;
    }
    // What is kept and used next after it, beside which it belongs.
    std::size_t before = ordered[k];
    for (std::size_t m = 0; m < ordered.size(); ++m)
      if (kept[m] && order[m] > order[k] &&
          (before == ordered[k] || order[m] < items[before].first_use.at()))
        before = ordered[m];
    check.findings.push_back({SetUpFault::out_of_order, ordered[k], before});
  }
  return check;
}

}  // namespace beforehand::drill
