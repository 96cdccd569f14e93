// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <vector>

#include "scoring/hindsight.hpp"
#include "scoring/score.hpp"

namespace beforehand::scoring {

/// The part of the trainee's idle time that was avoidable: when a step of the trainee's came more
/// than the allowance late, the last seconds stood by since it could have been begun (the allowance
/// after that) with the hands it takes free, at most as many as it came late. No second counts
/// twice.
class AvoidableIdle {
 public:
  /// Ordered by time, without overlap; `step` is what could have been begun.
  const std::vector<Stretch>& find(const Frame&, const Trace&, const std::vector<HindsightStep>&);

 private:
  void count_back(const Frame&, const Trace&, const HindsightStep&, StepIx);
  void merge();
  std::vector<Stretch> found_;
};

/// Every person's stretches, one list after the other, the trainee's idle time cut at the avoidable
/// parts; and their sums by person.
void split_time(const Frame&, const Trace&, const std::vector<Stretch>& avoidable,
                std::vector<Stretch>& stretches, std::vector<TimeSplit>& sums);

/// 1 - avoidable / (avoidable + work + cover); 1 when there was nothing of these.
double idle_score(const TimeSplit&);

}  // namespace beforehand::scoring
