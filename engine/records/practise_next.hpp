// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <chrono>
#include <string>
#include <vector>

#include "procedure/procedure.hpp"
#include "records/record.hpp"

// What a trainee should practise next, from what was done right and wrong, and how long ago.

namespace beforehand::records {

struct Attempt {
  Moment at{};
  bool passed = false;
};

/// How fast old attempts stop counting: each later attempt and each half-life take their share. Our
/// own settings, no published figures.
struct Forgetting {
  double per_attempt = 0.9;
  std::chrono::days half_life{60};
};

/// What is known of the share that somebody does right: a Beta distribution.
struct Posterior {
  double passes = 1, failures = 1;  ///< with the one of each that a uniform prior brings
  double mean() const;
  double spread() const;  ///< its standard deviation
};

/// Attempts oldest first.
Posterior posterior(const std::vector<Attempt>&, Moment now, const Forgetting& = {});

struct WeakStep {
  StepIx step;
  int attempts = 0, passed = 0;  ///< of the last `looked_back`
  Posterior known;
  double priority = 0;  ///< (1 - mean + spread) times the weight of the step's severity
  bool weak() const;
};
inline constexpr int looked_back = 8;

/// One phase of the scenario to play by itself.
struct PracticePart {
  PhaseIx phase;
  double priority = 0;          ///< of its first step
  std::vector<WeakStep> steps;  ///< the trainee's, most urgent first
};

/// Every attempt at each of the procedure's steps, oldest first; sessions oldest first.
std::vector<std::vector<Attempt>> attempts_by_step(const procedure::Procedure&,
                                                   const std::vector<SessionRecord>&);

/// Phases with a weak step, the most urgent first. A step that only some signal calls for counts
/// once it has been met.
std::vector<PracticePart> practise_next(const procedure::Procedure&,
                                        const std::vector<SessionRecord>&, Moment now,
                                        const Forgetting& = {});

/// Why this phase, in a sentence or two.
std::string reason(const procedure::Procedure&, const PracticePart&);

}  // namespace beforehand::records
