// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "records/competence.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <map>

namespace beforehand::records {

double CompetenceTest::step(bool passed) const {
  assert(0 < adequate && adequate < inadequate && inadequate < 1);
  return passed ? std::log((1 - adequate) / (1 - inadequate)) : std::log(adequate / inadequate);
}

std::vector<double> competence_sums(std::string_view outcomes, const CompetenceTest& test) {
  std::vector<double> sums;
  double sum = 0;
  for (const char outcome : outcomes) {
    sum = std::max(0.0, sum + test.step(outcome == '1'));
    sums.push_back(sum);
    if (sum >= test.limit) break;
  }
  return sums;
}

// Since it was last at 0 the sum depends only on how many attempts were passed and failed, so those
// two numbers are the state, and no sum is ever compared with another.
double signal_chance(const CompetenceTest& test, double failure_rate, int attempts) {
  using State = std::pair<int, int>;
  std::map<State, double> now{{{0, 0}, 1.0}};
  double signalled = 0;
  const double up = test.step(true), down = test.step(false);
  for (int i = 0; i < attempts; ++i) {
    std::map<State, double> next;
    const auto go = [&](State to, double chance) {
      const double sum = to.first * up + to.second * down;
      if (sum >= test.limit) {
        signalled += chance;
      } else {
        next[sum <= 0 ? State{0, 0} : to] += chance;
      }
    };
    for (const auto& [at, chance] : now) {
      go({at.first + 1, at.second}, chance * (1 - failure_rate));
      go({at.first, at.second + 1}, chance * failure_rate);
    }
    now.swap(next);
  }
  return signalled;
}

FailureLimits failure_limits(double adequate, double inadequate, double false_alarm,
                             double missed) {
  assert(0 < adequate && adequate < inadequate && inadequate < 1);
  const double p = std::log(inadequate / adequate);
  const double q = std::log((1 - adequate) / (1 - inadequate));
  return {q / (p + q), -std::log((1 - false_alarm) / missed) / (p + q),
          std::log((1 - missed) / false_alarm) / (p + q)};
}

Standing standing(std::string_view outcomes, const CompetenceTest& test) {
  const auto limits =
      failure_limits(test.adequate, test.inadequate, relapse_false_alarm, relapse_missed);
  Standing s;
  double failures = 0;  // the CUSUM after the signal
  for (const char outcome : outcomes) {
    const bool passed = outcome == '1';
    ++s.attempts;
    s.passed += passed;
    if (s.competent()) {
      failures = std::max(0.0, failures + (passed ? 0 : 1) - limits.reference);
      if (failures < limits.upper) continue;
      s.lapsed_at = s.attempts;
      s.signal_at = 0;
      s.sum = failures = 0;
      continue;
    }
    s.sum = std::max(0.0, s.sum + test.step(passed));
    if (s.sum >= test.limit) s.signal_at = s.attempts;
  }
  return s;
}

int passes_to_signal(const Standing& s, const CompetenceTest& test) {
  if (s.competent()) return 0;
  return static_cast<int>(std::ceil((test.limit - s.sum) / test.step(true)));
}

}  // namespace beforehand::records
