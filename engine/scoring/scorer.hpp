// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <memory>

#include "scoring/score.hpp"

namespace beforehand::scoring {

/// Scores any number of sessions of one procedure; keeps what does not change, and its memory.
class Scorer {
 public:
  /// `procedure` must outlive the scorer. `whom` is the trainee.
  Scorer(const Procedure& procedure, PersonIx whom);
  ~Scorer();
  Scorer(Scorer&&) noexcept;
  Scorer& operator=(Scorer&&) noexcept;

  /// The score is the scorer's, and good until its next call.
  const Score& score(const Session&, Reference);

  /// Against the earliest possible finish for the signals that occurred, which is not proven.
  const Score& score(const Session&);

 private:
  struct State;
  std::unique_ptr<State> state_;
};

/// The shares that make the total: 100 * sum of weight * part / sum of weights.
double total_of(const procedure::Weights&, double anticipation, double idle, double sequence);

/// `repeat` after an unsafe act; `ready` from 85 on unless an error bars_ready(); `nearly` from 70
/// on; else `practise`.
Verdict verdict_of(double total, const std::vector<Error>&);

}  // namespace beforehand::scoring
