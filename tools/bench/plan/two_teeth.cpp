// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "two_teeth.hpp"

#include <algorithm>
#include <map>
#include <random>
#include <utility>

namespace beforehand::bench {

namespace {

using procedure::Estimate;
using procedure::Procedure;
using procedure::Step;

class Doubling {
 public:
  Doubling(const Procedure& p, const std::vector<std::string>& phases) : old_(p), out_(p) {
    for (const auto& phase : p.phases) {
      doubled_.push_back(std::find(phases.begin(), phases.end(), phase.id) != phases.end());
    }
    out_.steps.clear();
    first_.resize(p.steps.size());
    second_.resize(p.steps.size());
  }

  // In the file's order, the second tooth's steps after the last doubled phase.
  Procedure run() {
    std::size_t last = 0;
    for (std::size_t i = 0; i < old_.steps.size(); ++i) {
      if (is_doubled(StepIx{i})) last = i;
    }
    for (std::size_t i = 0; i < old_.steps.size(); ++i) {
      first_[i] = append(old_.steps[i]);
      for (std::size_t k = 0; i == last && k <= last; ++k) {
        if (is_doubled(StepIx{k})) second_[k] = append(old_.steps[k]);
      }
    }
    for (std::size_t i = 0; i < old_.steps.size(); ++i) {
      link(out_.steps[first_[i].at()], false);
      if (second_[i]) link(out_.steps[second_[i].at()], true);
    }
    return std::move(out_);
  }

 private:
  bool is_doubled(StepIx i) const { return doubled_[old_.step(i).phase.at()]; }

  StepIx append(const Step& step) {
    out_.steps.push_back(step);
    return StepIx{out_.steps.size() - 1};
  }

  StepIx mapped(StepIx old, bool second) const {
    if (!old) return old;
    return second && second_[old.at()] ? second_[old.at()] : first_[old.at()];
  }

  SupplyIx mapped(SupplyIx old, bool second) {
    if (!old || !second) return old;
    auto& copy = supplies_.try_emplace(old, SupplyIx{}).first->second;
    if (!copy) {
      out_.supplies.push_back(old_.supply(old));
      copy = SupplyIx{out_.supplies.size() - 1};
    }
    return copy;
  }

  // Refers to what is at the same tooth; what is done once comes after both teeth.
  void link(Step& step, bool second) {
    const bool once = !doubled_[step.phase.at()];
    auto after = std::exchange(step.after, {});
    for (auto& l : after) {
      const auto old = l.step;
      l.step = mapped(old, second);
      step.after.push_back(l);
      if (!once || !second_[old.at()]) continue;
      l.step = second_[old.at()];
      step.after.push_back(l);
    }
    for (auto& need : step.needs) {
      need.supply = mapped(need.supply, second);
      need.from = mapped(need.from, second);
      need.prepared_by = mapped(need.prepared_by, second);
    }
    step.supply = mapped(step.supply, second);
    for (auto& s : step.keeps) s = mapped(s, second);
    for (auto* list : {&step.covers, &step.covered_by}) {
      for (auto& s : *list) s = mapped(s, second);
    }
    step.serves = mapped(step.serves, second);
  }

  const Procedure& old_;
  Procedure out_;
  std::vector<bool> doubled_;
  std::vector<StepIx> first_, second_;
  std::map<SupplyIx, SupplyIx> supplies_;
};

void jitter(Estimate& takes, std::mt19937& random) {
  constexpr std::int64_t half_second = 500;
  const auto share = static_cast<std::int64_t>(random() % 201) - 100;  // thousandths
  const auto changed = takes.usual.count() * (1000 + share) / 1000;
  const Ms usual{std::max(half_second, changed / half_second * half_second)};
  takes.least = std::min(takes.least, usual);
  takes.most = std::max(takes.most, usual);
  takes.usual = usual;
}

}  // namespace

Procedure two_teeth(const Procedure& p, const std::vector<std::string>& phases, unsigned seed) {
  auto out = Doubling(p, phases).run();
  std::mt19937 random(seed);
  for (auto& step : out.steps) {
    if (!step.is_cover()) jitter(step.takes, random);
  }
  return out;
}

}  // namespace beforehand::bench
