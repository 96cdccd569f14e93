// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "records/save.hpp"

#include <algorithm>

#include "drill/recording.hpp"
#include "procedure/title.hpp"
#include "records/chain.hpp"
#include "records/packing.hpp"

namespace beforehand::records {
namespace {

using drill::What;
using procedure::Procedure;
using scoring::Score;

// Who did each step, and which steps were passed over; by step.
struct Course {
  std::vector<PersonIx> by;
  std::vector<bool> done, skipped;
};

Course course_of(const Procedure& p, const drill::Session& s) {
  const auto n = p.steps.size();
  Course c{std::vector<PersonIx>(n), std::vector<bool>(n), std::vector<bool>(n)};
  for (const auto& e : s.events) {
    if (!e.step) continue;
    if (e.what == What::step_skipped) c.skipped[e.step.at()] = true;
    if (e.what == What::step_done) {
      c.done[e.step.at()] = true;
      c.by[e.step.at()] = e.person;
    }
  }
  return c;
}

bool went_wrong(const Score& score, StepIx step) {
  const auto concerns = [&](const scoring::Error& e) {
    return e.step == step ||
           std::find(e.followed_by.begin(), e.followed_by.end(), step) != e.followed_by.end();
  };
  const auto missed = [&](const scoring::NeedScore& n) {
    return n.from == step && (n.requested || n.helped || n.credit < 1);
  };
  return std::any_of(score.errors.begin(), score.errors.end(), concerns) ||
         std::any_of(score.needs.begin(), score.needs.end(), missed);
}

// Broken off by a person, or cut off, is not played to the end.
bool played_to_end(const drill::Session& s) { return s.complete() && s.events.back().value != 2; }

double exact(double share) { return from_millionths(millionths(share)); }

}  // namespace

std::string scenario_hash(const std::string& text) { return digest(text); }

std::vector<NeedRecord> needs_of(const Procedure& p, const Score& score) {
  std::vector<NeedRecord> list;
  for (const auto& n : score.needs) {
    const auto& need = p.step(n.step).needs[n.need];
    const auto from = n.from ? p.step(n.from).id : std::string{};
    list.push_back({p.step(n.step).id, from, need.supply ? p.supply(need.supply).id : from,
                    n.due_at, n.ready_at, n.wait, n.requested, n.helped, exact(n.credit)});
  }
  return list;
}

std::vector<StepOutcome> outcomes_of(const Procedure& p, const drill::Session& session,
                                     const Score& score, PersonIx trainee) {
  std::vector<StepOutcome> list;
  if (session.setup.level == drill::Level::guided) return list;
  const auto course = course_of(p, session);
  const bool whole = played_to_end(session);
  for (std::size_t i = 0; i < p.steps.size(); ++i) {
    const auto& step = p.steps[i];
    const bool mine = step.by.front() == trainee && !course.skipped[i];
    const bool in_part = !session.setup.phase || step.phase == session.setup.phase;
    if (!mine || !in_part || !(whole || course.done[i])) continue;
    const bool done = course.done[i] && course.by[i] == trainee;
    list.push_back({step.id, done && !went_wrong(score, StepIx{i})});
  }
  return list;
}

NewSession new_session(const Procedure& p, const drill::Session& session, const Sitting& sitting,
                       std::optional<scoring::Reference> reference) {
  const auto trainee = p.who(procedure::Role::assistant);
  const auto score = reference ? scoring::score(p, session, trainee, *reference)
                               : scoring::score(p, session, trainee);
  NewSession n;
  n.scenario = {scenario_hash(sitting.scenario_text), p.id, procedure::full_title(p),
                sitting.scenario_text};
  n.evidence = {drill::to_text(p, session), needs_of(p, score), sitting.around};
  auto& r = n.record;
  r.id = sitting.id;
  r.trainee = sitting.trainee;
  r.scenario = p.id;
  r.scenario_hash = n.scenario.hash;
  r.program = sitting.program;
  r.level = session.setup.level;
  if (session.setup.phase) r.phase = p.phases[session.setup.phase.at()].id;
  r.assistant = session.setup.assistant;
  r.seed = session.setup.seed;
  r.started = sitting.started;
  r.ended = sitting.ended;
  r.complete = played_to_end(session);
  r.total = from_thousandths(thousandths(score.total));
  r.anticipation = exact(score.anticipation);
  r.idle = exact(score.idle);
  r.sequence = exact(score.sequence);
  r.verdict = score.verdict;
  r.chair_time = score.chair_time;
  r.reference = {score.reference_chair_time, score.reference_proven};
  r.clinician_wait = score.clinician_wait;
  r.requests = score.requests;
  r.errors = static_cast<int>(score.errors.size());
  r.unsafe = std::any_of(score.errors.begin(), score.errors.end(), [](const scoring::Error& e) {
    return e.kind == scoring::ErrorKind::unsafe;
  });
  r.outcomes = outcomes_of(p, session, score, trainee);
  return n;
}

}  // namespace beforehand::records
