// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <string>
#include <vector>

#include "study/simulation.hpp"

namespace beforehand::study {

/// One measure of A and of B, and B less A run by run.
struct Difference {
  Measure measure = Measure::chair_time;
  Summary a, b, b_less_a;
  double b_better = 0.5;  ///< share of the runs in which B is better, ties counting half
  Interval b_better_sure;
};

/// What a step of the clinician adds to the chair time: from the end of the clinician's step before
/// it to its own end. These sum up to the chair time.
struct StepShare {
  std::string step;  ///< id; empty: from the clinician's last step to the end
  std::string title;
  bool in_a = false, in_b = false;
  double a_s = 0, b_s = 0;                ///< means
  double a_before_s = 0, b_before_s = 0;  ///< of it before the step began: standing still, or apart
  double b_less_a_s = 0;
  Interval sure;  ///< of the mean of B less A
};

struct Comparison {
  std::size_t runs = 0, wanted = 0;     ///< fewer than wanted when stopped
  bool close_enough = false;            ///< `within_s` was reached
  std::vector<Difference> differences;  ///< by measure
  std::vector<StepShare> steps;         ///< the most difference first

  const Difference& operator[](Measure m) const { return differences[static_cast<std::size_t>(m)]; }
};

struct CompareRequest {
  Runs runs;            ///< at most so many
  double within_s = 0;  ///< stop when the mean difference in chair time is known within -+ so many
                        ///< seconds, 95 % sure; looked at every thousand runs. 0: play them all
};

/// Plays both with the same bot and the same clinicians, run by run: the random numbers are keyed
/// by seed, step id and occurrence, so that a step that both have takes equally long in both
/// (common random numbers). Same result on any number of threads. A and B should share their steps'
/// ids.
Comparison compare(const Procedure& a, const Procedure& b, const drill::Habit&,
                   const CompareRequest&);

}  // namespace beforehand::study
