// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <string>
#include <vector>

#include "study/statistics.hpp"
#include "study/timed_case.hpp"

namespace beforehand::study {

/// One duration of a step as it was seen.
struct SeenDuration {
  std::string in_case;
  Ms takes{0};
  bool outlier = false;  ///< outside Tukey's fences; shown, and counted all the same
};

/// What several cases say of one step.
struct ObservedStep {
  StepIx step;
  std::vector<SeenDuration> seen;  ///< the shortest first
  procedure::Estimate estimate;    ///< shortest, median, longest
  Interval usual_sure_s;           ///< of the median, from the ranks
  double usual_confidence = 0;     ///< the exact confidence of that interval, 95 % if it can be had
  double next_within = 0;          ///< chance that the next one lies from shortest to longest
};

/// The interval of the median of `n` independent values, as ranks from 0: the narrowest symmetric
/// one whose confidence, 1 - 2 I(X < low), X binomial with n and 1/2, is at least 95 %, else from
/// the first to the last value.
struct RankInterval {
  std::size_t low = 0, high = 0;
  double confidence = 0;
};
RankInterval median_ranks(std::size_t n);

/// The share of the population that lies from the smallest to the largest of `n` independent values
/// with that confidence; it is distributed as Beta(n - 1, 2) (Wilks 1941). 0 below two values.
double share_within(std::size_t n, double confidence);

/// By step of the protocol, those that were seen and have a duration of their own. Outliers are
/// told from four values on: beyond 1.5 times the middle half's width from the quartiles (Tukey
/// 1977).
std::vector<ObservedStep> observed(const std::vector<CaseFigures>&,
                                   const std::vector<std::string>& names,
                                   const procedure::Procedure&);

/// The scenario's text with these durations for its own, and above each step a remark of where they
/// come from; every other byte stays. The reach that the program adds is taken off. `origin` says
/// what was observed ("3 cases timed"). Throws procedure::EditError.
std::string with_observed(std::string yaml, const procedure::Procedure&,
                          const std::vector<ObservedStep>&, const std::string& origin);

}  // namespace beforehand::study
