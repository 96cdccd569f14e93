// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "study/step_shares.hpp"

#include <algorithm>
#include <cmath>

namespace beforehand::study {

StepShares::StepShares(const Procedure& a, const Procedure& b) : a_(&a), b_(&b) {
  for (std::size_t i = 0; i < a.steps.size(); ++i)
    sums_.push_back({a.steps[i].id, a.steps[i].title, i, none, {}, {}});
  for (std::size_t i = 0; i < b.steps.size(); ++i) {
    const auto same = std::find_if(sums_.begin(), sums_.end(),
                                   [&](const Sum& s) { return s.id == b.steps[i].id; });
    if (same != sums_.end())
      same->b = i;
    else
      sums_.push_back({b.steps[i].id, b.steps[i].title, none, i, {}, {}});
  }
  sums_.push_back({"", "", a.steps.size(), b.steps.size(), {}, {}});
}

void StepShares::read(const Procedure& p, const Player& player, std::vector<Part>& parts) {
  parts.assign(p.steps.size() + 1, {});
  const auto clinician = p.who(procedure::Role::clinician);
  Ms last{0};
  std::vector<Ms> started(p.steps.size(), never);
  for (const auto& e : player.session().events) {
    if (e.person != clinician || !e.step) continue;
    if (e.what == drill::What::step_started) started[e.step.at()] = e.at;
    if (e.what != drill::What::step_done) continue;
    Part& part = parts[e.step.at()];
    part.all += (e.at - last).count();
    part.before += std::max(Ms{0}, std::min(started[e.step.at()], e.at) - last).count();
    last = e.at;
  }
  parts.back() = {(player.score().chair_time - last).count(), 0};
}

void StepShares::add(const Player& a, const Player& b) {
  read(*a_, a, parts_a_);
  read(*b_, b, parts_b_);
  for (Sum& s : sums_) {
    const Part in_a = s.a == none ? Part{} : parts_a_[s.a];
    const Part in_b = s.b == none ? Part{} : parts_b_[s.b];
    const auto difference = in_b.all - in_a.all;
    s.in_a.all += in_a.all;
    s.in_a.before += in_a.before;
    s.in_b.all += in_b.all;
    s.in_b.before += in_b.before;
    s.difference += difference;
    s.square += difference * difference;
  }
}

void StepShares::add(const StepShares& other) {
  for (std::size_t i = 0; i < sums_.size(); ++i) {
    Sum& s = sums_[i];
    const Sum& o = other.sums_[i];
    s.in_a.all += o.in_a.all;
    s.in_a.before += o.in_a.before;
    s.in_b.all += o.in_b.all;
    s.in_b.before += o.in_b.before;
    s.difference += o.difference;
    s.square += o.square;
  }
}

std::vector<StepShare> StepShares::shares(std::size_t pairs) const {
  std::vector<StepShare> out;
  if (pairs == 0) return out;
  const auto n = static_cast<double>(pairs);
  const double t = pairs > 1 ? student_quantile(0.975, n - 1) : 0;
  const auto mean = [&](std::int64_t ms) { return static_cast<double>(ms) / 1000 / n; };
  for (const Sum& s : sums_) {
    if (s.in_a.all == 0 && s.in_b.all == 0) continue;  // not the clinician's
    const double difference = mean(s.difference);
    const double squares = static_cast<double>(s.square) / 1e6 - n * difference * difference;
    const double half = pairs > 1 ? t * std::sqrt(std::max(0.0, squares) / (n - 1) / n) : 0;
    out.push_back({s.id,
                   s.title,
                   s.a != none,
                   s.b != none,
                   mean(s.in_a.all),
                   mean(s.in_b.all),
                   mean(s.in_a.before),
                   mean(s.in_b.before),
                   difference,
                   {difference - half, difference + half}});
  }
  std::stable_sort(out.begin(), out.end(), [](const StepShare& x, const StepShare& y) {
    return std::abs(x.b_less_a_s) > std::abs(y.b_less_a_s);
  });
  return out;
}

}  // namespace beforehand::study
