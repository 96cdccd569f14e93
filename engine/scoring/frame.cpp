// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "scoring/trace.hpp"

#include <algorithm>

namespace beforehand::scoring {

Frame::Frame(const Procedure& p, PersonIx trainee) : procedure(p), whom(trainee) {
  const std::size_t n = p.steps.size();
  words = std::max<std::size_t>(1, (n + 63) / 64);
  followers.assign(n * words, 0);
  kind_of.resize(n);
  std::uint32_t total = 0;
  for (std::size_t s = 0; s < n; ++s) {
    first_need.push_back(total);
    total += static_cast<std::uint32_t>(p.steps[s].needs.size());
    if (s < p.action_of.size()) kind_of[s] = p.action_of[s];
    for (std::size_t q = 0; q < n; ++q)
      if (p.precedes(StepIx{q}, StepIx{s}))
        followers[q * words + s / 64] |= std::uint64_t{1} << (s % 64);
  }
  first_need.push_back(total);
}

bool in_scope(const Procedure& p, const Session& session, StepIx s) {
  const PhaseIx drilled = session.setup.phase;
  const auto& step = p.step(s);
  if (!drilled || step.phase == drilled) return true;
  return step.phase < drilled && step.serves && p.step(step.serves).phase >= drilled;
}

bool Trace::applies(const Frame& frame, const Session& session, StepIx s) const {
  const auto& step = frame.procedure.step(s);
  if (steps[s.at()].skipped || !in_scope(frame.procedure, session, s)) return false;
  return std::all_of(step.when.begin(), step.when.end(),
                     [&](SignalIx i) { return shown[i.at()]; }) &&
         std::none_of(step.unless.begin(), step.unless.end(),
                      [&](SignalIx i) { return shown[i.at()]; });
}

Ms Trace::known_at(const Procedure& procedure, StepIx s) const {
  Ms at{0};
  for (const auto i : procedure.step(s).when) at = std::max(at, known_at(procedure, i));
  for (const auto i : procedure.step(s).unless) at = std::max(at, decided[i.at()]);
  return at;
}

Ms Trace::known_at(const Procedure& procedure, SignalIx i) const {
  Ms at = decided[i.at()];
  for (const auto& foretold : procedure.signal(i).foretold)
    if (foretold.likely_percent == 100 && shown[foretold.by.at()])
      at = std::min(at, decided[foretold.by.at()]);
  return at;
}

}  // namespace beforehand::scoring
