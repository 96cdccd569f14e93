// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "scoring/anticipation.hpp"

#include <algorithm>

namespace beforehand::scoring {
namespace {

using procedure::Need;

/// The clinician got as far as this step, and it was not the trainee who did it.
bool clinician_wanted(const Frame& f, const Trace& t, StepIx s) {
  const PersonIx clinician = f.procedure.who(procedure::Role::clinician);
  return t.steps[s.at()].wanted() != never && !t.steps[s.at()].by_trainee && clinician &&
         f.procedure.may_do(clinician, s);
}

/// The clinician did it as a step of his or her own, which two roles may do.
bool taken_over(const Trace& t, const Need& need) {
  const StepTrace& serving = t.steps[need.from.at()];
  return serving.by && !serving.by_trainee && serving.started != never;
}

bool trainees_to_serve(const Frame& f, const Session& session, const Trace& t, const Need& need,
                       const NeedTrace& was) {
  return need.from && t.applies(f, session, need.from) &&
         (f.prefers_trainee(need.from) || was.by == f.whom);
}

NeedScore measure(const Frame& f, const Trace& t, const HindsightStep& hindsight, StepIx s,
                  std::size_t k) {
  const StepTrace& step = t.steps[s.at()];
  const NeedTrace& was = t.needs[f.need_index(s, k)];
  const Need& need = f.procedure.step(s).needs[k];
  NeedScore score;
  score.step = s;
  score.need = static_cast<std::uint8_t>(k);
  score.from = need.from;
  score.severity = std::max(f.procedure.step(s).severity, f.procedure.step(need.from).severity);
  score.need_at = step.wanted();
  score.due_at = std::max(score.need_at, hindsight.wanted);
  score.asked_at = was.asked;
  score.requested = was.asked != never;
  const bool started = step.started != never;
  const bool taken = taken_over(t, need);
  score.helped = was.helping != never || taken;
  if (started && !score.helped) score.ready_at = was.since != never ? was.since : step.started;
  const Ms until = score.ready_at != never ? score.ready_at : started ? step.started : t.end;
  score.wait = std::max(Ms{0}, until - score.need_at);
  if (score.helped && need.kind == Need::Kind::cover) score.wait += step.paused;
  if (taken)  // having to do it oneself comes to the same as having to ask
    score.credit = 0.5;
  else if (!score.helped)
    score.credit = credit(until - score.due_at, f.procedure.patience, score.requested);
  return score;
}

}  // namespace

double credit(Ms lateness, Ms patience, bool asked) {
  const double late = to_seconds(lateness), limit = to_seconds(patience);
  const double free = to_seconds(allowance);
  double worth = 0;
  if (lateness <= allowance)
    worth = 1;
  else if (lateness < patience)
    worth = 1 - 0.5 * (late - free) / (limit - free);
  else if (lateness < 3 * patience)
    worth = 0.5 * (3 * limit - late) / (2 * limit);
  return asked ? std::min(worth, 0.5) : worth;
}

void find_needs(const Frame& f, const Session& session, const Trace& t,
                const std::vector<HindsightStep>& hindsight, std::vector<NeedScore>& out) {
  out.clear();
  for (std::size_t i = 0; i < f.procedure.steps.size(); ++i) {
    const StepIx s{i};
    const auto& needs = f.procedure.steps[i].needs;
    if (needs.empty() || !clinician_wanted(f, t, s)) continue;
    const bool undecided = t.steps[i].started == never && t.end - t.steps[i].arose <= allowance;
    if (undecided) continue;
    for (std::size_t k = 0; k < needs.size(); ++k) {
      const NeedTrace& was = t.needs[f.need_index(s, k)];
      if (trainees_to_serve(f, session, t, needs[k], was))
        out.push_back(measure(f, t, hindsight[i], s, k));
    }
  }
}

double mean_credit(const std::vector<NeedScore>& needs) {
  double sum = 0;
  int weights = 0;
  for (const auto& need : needs) {
    sum += procedure::weight(need.severity) * need.credit;
    weights += procedure::weight(need.severity);
  }
  return weights == 0 ? 1 : sum / weights;
}

}  // namespace beforehand::scoring
