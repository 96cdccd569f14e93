// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <string_view>
#include <vector>

// Whether a run of attempts is evidence that somebody can do a thing in this drill. Outcomes are
// written oldest first, '1' done right and '0' not. Evidence only: a trainer signs off.

namespace beforehand::records {

/// The LC-CUSUM of Biau and Porcher (Statistics in Medicine 2010;29:1901): tests "still inadequate"
/// again at each attempt, and signals once that can no longer be held.
struct CompetenceTest {
  double adequate = 0.05, inadequate = 0.30;  ///< failure rates, 0 < adequate < inadequate < 1
  double limit = 4.0;                         ///< of the sum, in natural logarithms of likelihood

  /// What an attempt adds to the sum, which never falls below 0.
  double step(bool passed) const;
};

/// The sum after each attempt, up to and including the one that signals.
std::vector<double> competence_sums(std::string_view outcomes, const CompetenceTest& = {});

/// The chance that somebody who fails at this rate signals within so many attempts: exactly, from
/// the Markov chain of the sum.
double signal_chance(const CompetenceTest&, double failure_rate, int attempts);

/// The limits of Wald's sequential test (1945) as a CUSUM of failures uses them: `reference` is
/// taken off at each attempt, 1 is added at each failure; at `upper` the failure rate is taken to
/// be the inadequate one, at `lower` the adequate one.
struct FailureLimits {
  double reference = 0, lower = 0, upper = 0;
};
/// `false_alarm` and `missed`: the chances of an error of the first and the second kind.
FailureLimits failure_limits(double adequate, double inadequate, double false_alarm, double missed);

/// One percent false alarms: about three failures close together.
inline constexpr double relapse_false_alarm = 0.01, relapse_missed = 0.1;

/// What the attempts say so far. After the signal failures are watched by a CUSUM; when that
/// reaches its upper limit the evidence has lapsed, and the test begins anew.
struct Standing {
  int attempts = 0, passed = 0;
  double sum = 0;     ///< of the test since it last began
  int signal_at = 0;  ///< the attempt, counted from 1, that signalled; 0: none stands
  int lapsed_at = 0;  ///< the attempt at which evidence was last lost; 0: never
  bool competent() const { return signal_at > 0; }
};
Standing standing(std::string_view outcomes, const CompetenceTest& = {});

/// How many attempts done right in a row it still takes to signal; 0 when it has.
int passes_to_signal(const Standing&, const CompetenceTest& = {});

}  // namespace beforehand::records
