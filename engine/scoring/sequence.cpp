// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "scoring/sequence.hpp"

#include <algorithm>

namespace beforehand::scoring {
namespace {

bool counts(const Action& a) { return a.outcome != Action::Outcome::broken; }

bool before_something_begun(const Frame& f, const Trace& t, StepIx s) {
  for (std::size_t i = 0; i < t.steps.size(); ++i)
    if (t.steps[i].started != never && f.procedure.precedes(s, StepIx{i})) return true;
  return false;
}

}  // namespace

const Alignment& Aligner::align(const Frame& f, const Session& session, const Trace& t) {
  expect(f, session, t);
  choose_candidates(f, t);
  Order& order = result_.order;
  if (any_conflict(f, t)) {
    keep_antichain(f, t);
  } else {
    order.kept = static_cast<int>(candidates_.size());
    result_.weighed_kept = 0;
    for (std::size_t c = 0; c < candidates_.size(); ++c) {
      result_.kept[candidates_[c]] = true;
      result_.weighed_kept += weights_[c];
    }
  }
  order.cost = (order.actions - order.kept) + (order.steps - order.kept);
  const int all = order.actions + order.steps;
  order.fitness = all == 0 ? 1 : 1 - static_cast<double>(order.cost) / all;
  return result_;
}

/// Of a drill broken off, only what was done or should have been done by then is expected.
void Aligner::expect(const Frame& f, const Session& session, const Trace& t) {
  const std::size_t n = f.procedure.steps.size();
  result_.expected.assign(n, false);
  result_.order.steps = result_.weighed_steps = 0;
  for (std::size_t i = 0; i < n; ++i) {
    const StepIx s{i};
    const bool theirs = f.prefers_trainee(s) || t.steps[i].by_trainee;
    if (!theirs || !t.applies(f, session, s)) continue;
    if (!t.whole && !t.steps[i].by_trainee && !before_something_begun(f, t, s)) continue;
    result_.expected[i] = true;
    result_.order.steps += 1;
    result_.weighed_steps += weight(f.procedure.steps[i].severity);
  }
}

/// An action can be kept only when it counts for a step, did something that lasted until its use,
/// and did not come before a step of somebody else's that must precede it: those stand where they
/// stood.
void Aligner::choose_candidates(const Frame& f, const Trace& t) {
  candidates_.clear();
  weights_.clear();
  result_.kept.assign(t.actions.size(), false);
  result_.order.actions = result_.weighed_actions = 0;
  for (std::size_t i = 0; i < t.actions.size(); ++i) {
    const Action& a = t.actions[i];
    if (!counts(a)) continue;
    const int w = a.step ? weight(f.procedure.step(a.step).severity) : weight(Severity::minor);
    result_.order.actions += 1;
    result_.weighed_actions += w;
    if (!a.step || a.too_soon || a.spent || a.outcome == Action::Outcome::nothing) continue;
    if (!result_.expected[a.step.at()]) continue;
    candidates_.push_back(i);
    weights_.push_back(w);
  }
}

bool Aligner::any_conflict(const Frame& f, const Trace& t) {
  seen_.assign(f.words, 0);
  for (const std::size_t c : candidates_) {
    const StepIx s = t.actions[c].step;
    const std::uint64_t own = std::uint64_t{1} << (s.at() % 64);
    if ((seen_[s.at() / 64] & own) != 0) return true;
    for (std::size_t w = 0; w < f.words; ++w)
      if ((seen_[w] & f.followers_of(s)[w]) != 0) return true;
    seen_[s.at() / 64] |= own;
  }
  return false;
}

void Aligner::relate(const Frame& f, const Trace& t) {
  poset_.reset(candidates_.size());
  for (std::size_t j = 0; j < candidates_.size(); ++j)
    for (std::size_t i = 0; i < j; ++i) {
      const StepIx first = t.actions[candidates_[i]].step, second = t.actions[candidates_[j]].step;
      if (first == second || f.procedure.precedes(second, first)) poset_.set_below(i, j);
    }
}

void Aligner::keep_antichain(const Frame& f, const Trace& t) {
  relate(f, t);
  result_.order.kept = finder_.largest(poset_, kept_);
  result_.weighed_kept = finder_.heaviest(poset_, weights_, kept_);
  for (std::size_t c = 0; c < candidates_.size(); ++c) result_.kept[candidates_[c]] = kept_[c];
}

double sequence_score(const Alignment& a, int faults) {
  const int all = a.weighed_actions + a.weighed_steps;
  const int cost = all - 2 * a.weighed_kept + faults;
  return all == 0 ? 1.0 : std::max(0.0, 1 - static_cast<double>(cost) / all);
}

}  // namespace beforehand::scoring
