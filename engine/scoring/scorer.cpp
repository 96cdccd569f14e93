// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "scoring/scorer.hpp"

#include <algorithm>
#include <map>

#include "scoring/anticipation.hpp"
#include "scoring/errors.hpp"
#include "scoring/sequence.hpp"
#include "scoring/time_use.hpp"
#include "timing/windows.hpp"

namespace beforehand::scoring {

struct Scorer::State {
  State(const Procedure& procedure, PersonIx whom) : frame(procedure, whom) {}

  Frame frame;
  Trace trace;
  std::vector<HindsightStep> hindsight;
  AvoidableIdle avoidable;
  Aligner aligner;
  Score result;
  std::map<std::pair<PhaseIx, std::vector<bool>>, Ms> earliest_finish;  ///< by signals shown

  void measure(const Session& session);
  void sum_up();
  void refer_to(Reference reference) {
    result.reference_chair_time = reference.chair_time;
    result.reference_proven = reference.proven;
  }
};

void Scorer::State::measure(const Session& session) {
  Score& s = result;
  trace.read(frame, session);
  look_back(frame, session, trace, hindsight);
  find_needs(frame, session, trace, hindsight, s.needs);
  split_time(frame, trace, avoidable.find(frame, trace, hindsight), s.stretches, s.time);
  const Alignment& alignment = aligner.align(frame, session, trace);
  const Findings findings{frame, session, trace, hindsight, alignment, s.needs};
  find_errors(findings, s.errors);
  for (Error& e : s.errors) describe(findings, e);
  s.anticipation = mean_credit(s.needs);
  s.idle = idle_score(s.time[frame.whom.at()]);
  s.sequence = sequence_score(alignment, faults(s.errors));
  s.order = alignment.order;
  sum_up();
}

void Scorer::State::sum_up() {
  Score& s = result;
  s.total = total_of(frame.procedure.weights, s.anticipation, s.idle, s.sequence);
  s.verdict = verdict_of(s.total, s.errors);
  s.chair_time = trace.end;
  s.both_idle = trace.both_idle;
  const auto all = static_cast<double>(s.needs.size());
  const auto count = [&](auto&& is) {
    return static_cast<double>(std::count_if(s.needs.begin(), s.needs.end(), is));
  };
  s.requests = static_cast<int>(count([](const NeedScore& n) { return n.requested; }) +
                                std::count_if(s.errors.begin(), s.errors.end(), is_kept));
  s.anticipation_ratio =
      all == 0 ? 1 : count([](const auto& n) { return !n.requested && !n.helped; }) / all;
  s.inconvenience =
      all == 0 ? 0 : count([](const auto& n) { return -n.lead() > allowance || n.helped; }) / all;
  const PersonIx clinician = frame.procedure.who(procedure::Role::clinician);
  s.clinician_wait = clinician ? s.time[clinician.at()].waiting : Ms{0};
}

Scorer::Scorer(const Procedure& procedure, PersonIx whom)
    : state_(std::make_unique<State>(procedure, whom)) {}
Scorer::~Scorer() = default;
Scorer::Scorer(Scorer&&) noexcept = default;
Scorer& Scorer::operator=(Scorer&&) noexcept = default;

const Score& Scorer::score(const Session& session, Reference reference) {
  state_->measure(session);
  state_->refer_to(reference);
  return state_->result;
}

const Score& Scorer::score(const Session& session) {
  state_->measure(session);
  const PhaseIx phase = session.setup.phase;
  const auto [known, fresh] =
      state_->earliest_finish.try_emplace(std::pair{phase, state_->trace.shown});
  if (fresh)
    known->second = timing::earliest_finish(state_->frame.procedure, signals_shown(session), phase);
  state_->refer_to({known->second, false});
  return state_->result;
}

double total_of(const procedure::Weights& w, double anticipation, double idle, double sequence) {
  const int sum = w.anticipation + w.idle + w.sequence;
  return sum == 0
             ? 0.0
             : 100 * (w.anticipation * anticipation + w.idle * idle + w.sequence * sequence) / sum;
}

Verdict verdict_of(double total, const std::vector<Error>& errors) {
  const bool unsafe = std::any_of(errors.begin(), errors.end(),
                                  [](const Error& e) { return e.kind == ErrorKind::unsafe; });
  if (unsafe) return Verdict::repeat;
  const bool barred = std::any_of(errors.begin(), errors.end(), bars_ready);
  if (total >= ready_from && !barred) return Verdict::ready;
  return total >= 70 ? Verdict::nearly : Verdict::practise;
}

std::vector<SignalIx> signals_shown(const Session& session) {
  std::vector<SignalIx> shown;
  for (const auto& e : session.events)
    if (e.what == drill::What::signal_shown) shown.push_back(e.signal);
  std::sort(shown.begin(), shown.end());
  return shown;
}

Score score(const Procedure& procedure, const Session& session, PersonIx whom,
            Reference reference) {
  return Scorer(procedure, whom).score(session, reference);
}

Score score(const Procedure& procedure, const Session& session, PersonIx whom) {
  return Scorer(procedure, whom).score(session);
}

}  // namespace beforehand::scoring
