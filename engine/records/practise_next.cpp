// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "records/practise_next.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "base/text.hpp"

namespace beforehand::records {
namespace {

using procedure::Procedure;

WeakStep judged(const Procedure& p, StepIx step, const std::vector<Attempt>& attempts, Moment now,
                const Forgetting& forgetting) {
  WeakStep w;
  w.step = step;
  const auto from = attempts.size() - std::min<std::size_t>(attempts.size(), looked_back);
  for (auto i = from; i < attempts.size(); ++i) {
    ++w.attempts;
    w.passed += attempts[i].passed;
  }
  w.known = posterior(attempts, now, forgetting);
  w.priority = (1 - w.known.mean() + w.known.spread()) * procedure::weight(p.step(step).severity);
  return w;
}

bool more_urgent(const WeakStep& a, const WeakStep& b) { return a.priority > b.priority; }

std::string about(const Procedure& p, const WeakStep& w) {
  const auto& step = p.step(w.step);
  const auto grave = step.severity == procedure::Severity::minor
                         ? std::string{}
                         : fmt::format(" ({})", procedure::word(step.severity));
  if (w.attempts == 0) return fmt::format("\"{}\"{} has not been tried yet", step.title, grave);
  if (w.passed == w.attempts)
    return fmt::format("\"{}\"{} was right every time, but too seldom or too long ago to be sure",
                       step.title, grave);
  return fmt::format("\"{}\"{} was right and ready {} of the last {} times", step.title, grave,
                     w.passed, w.attempts);
}

}  // namespace

double Posterior::mean() const { return passes / (passes + failures); }

double Posterior::spread() const {
  const double n = passes + failures;
  return std::sqrt(passes * failures / (n * n * (n + 1)));
}

Posterior posterior(const std::vector<Attempt>& attempts, Moment now,
                    const Forgetting& forgetting) {
  Posterior known;
  double later = 1;
  for (auto i = attempts.rbegin(); i != attempts.rend(); ++i) {
    const auto age = std::max(now - i->at, Moment::duration{0});
    const double half_lives = std::chrono::duration<double>(age) / forgetting.half_life;
    const double counts = later * std::exp2(-half_lives);
    (i->passed ? known.passes : known.failures) += counts;
    later *= forgetting.per_attempt;
  }
  return known;
}

bool WeakStep::weak() const { return 1 - known.mean() + known.spread() > 0.25; }

std::vector<std::vector<Attempt>> attempts_by_step(const Procedure& p,
                                                   const std::vector<SessionRecord>& sessions) {
  std::map<std::string, std::size_t> where;
  for (std::size_t i = 0; i < p.steps.size(); ++i) where[p.steps[i].id] = i;
  std::vector<std::vector<Attempt>> all(p.steps.size());
  for (const auto& s : sessions) {
    for (const auto& o : s.outcomes) {
      const auto at = where.find(o.step);  // another version of the scenario may have other steps
      if (at != where.end()) all[at->second].push_back({s.started, o.passed});
    }
  }
  return all;
}

std::vector<PracticePart> practise_next(const Procedure& p,
                                        const std::vector<SessionRecord>& sessions, Moment now,
                                        const Forgetting& forgetting) {
  const auto trainee = p.who(procedure::Role::assistant);
  const auto attempts = attempts_by_step(p, sessions);
  std::vector<PracticePart> parts;
  for (std::size_t i = 0; i < p.phases.size(); ++i) parts.push_back({PhaseIx{i}, 0, {}});
  for (std::size_t i = 0; i < p.steps.size(); ++i) {
    const auto& step = p.steps[i];
    if (!step.phase || step.by.front() != trainee) continue;
    if (!step.when.empty() && attempts[i].empty()) continue;
    parts[step.phase.at()].steps.push_back(judged(p, StepIx{i}, attempts[i], now, forgetting));
  }
  std::erase_if(parts, [](const PracticePart& part) {
    return std::none_of(part.steps.begin(), part.steps.end(),
                        [](const WeakStep& w) { return w.weak(); });
  });
  for (auto& part : parts) {
    std::stable_sort(part.steps.begin(), part.steps.end(), more_urgent);
    part.priority = part.steps.front().priority;
  }
  std::stable_sort(parts.begin(), parts.end(), [](const PracticePart& a, const PracticePart& b) {
    return a.priority > b.priority;
  });
  return parts;
}

std::string reason(const Procedure& p, const PracticePart& part) {
  std::vector<std::string> named;
  for (const auto& w : part.steps) {
    if (w.weak() && named.size() < 2) named.push_back(about(p, w));
  }
  return list_text(named) + ".";
}

}  // namespace beforehand::records
