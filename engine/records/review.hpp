// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "procedure/procedure.hpp"
#include "records/competence.hpp"
#include "records/intervals.hpp"
#include "records/learning_curve.hpp"
#include "records/practise_next.hpp"
#include "records/record.hpp"

// What a reviewer looks at, worked out from records: the same for the window, the terminal and the
// report. Nothing here opens a store.

namespace beforehand::records {

/// How far somebody is in a scenario. Evidence of competence in this drill and no more: only a
/// trainer's sign-off makes it `signed_off`.
enum class Readiness : std::uint8_t {
  none,  ///< nothing played to the end yet
  practising,
  evidence,  ///< every critical step (without one: every step) has signalled
  signed_off,
};
std::string_view word(Readiness);

/// `critical`: the ids of the steps that must have signalled; empty: all that were ever met.
Readiness readiness(const Summary&, const std::vector<std::string>& critical = {});

/// The ids of the trainee's steps in which the scenario asks for evidence before a sign-off: what
/// the criterion of competence (sign_off.hpp) counts.
std::vector<std::string> critical_steps(const procedure::Procedure&);

/// When to play it again: 7 days after the last drill while practising, 30 with the evidence there,
/// 90 signed off. Our own settings.
Moment due(const Summary&, Readiness);

/// One step over one trainee's attempts.
struct StepReview {
  std::string id, title;
  procedure::Severity severity = procedure::Severity::minor;
  Standing standing;
  Interval share;  ///< of passes, 95 % (Wilson), over the last `looked_back`
  int recent = 0, recent_passed = 0;
};

/// One trainee in one scenario.
struct ScenarioReview {
  std::string scenario, title;
  std::vector<SessionRecord> sessions;  ///< oldest first, all of them
  std::vector<SessionRecord> counted;   ///< whole procedures played to the end, oldest first
  std::optional<LearningCurve> curve;   ///< over `counted`
  Standing whole;                       ///< `ready` in each drill counted that was not guided
  std::vector<StepReview> steps;        ///< the trainee's, in the procedure's order
  std::vector<PracticePart> next;
  Readiness readiness = Readiness::none;
};

/// Sessions of one trainee and scenario, oldest first.
ScenarioReview review(const procedure::Procedure&, std::vector<SessionRecord> sessions,
                      bool signed_off, Moment now);

/// Steps (down) by trainees (across): the last attempts of each.
struct HeatMap {
  struct Cell {
    int attempts = 0, passed = 0;  ///< of the last `looked_back`
    bool competent = false;
  };
  std::vector<std::string> steps;        ///< ids, in the order they were first met
  std::vector<std::string> trainees;     ///< names
  std::vector<std::vector<Cell>> cells;  ///< by step, then trainee
};
/// Summaries of one scenario, with their history.
HeatMap heat_map(const std::vector<Summary>&);

/// The same need in two sessions.
struct NeedPair {
  std::string step, from, need;
  std::optional<NeedRecord> first, second;
};
/// In the first session's order, then what only the second had.
std::vector<NeedPair> side_by_side(const std::vector<NeedRecord>& first,
                                   const std::vector<NeedRecord>& second);

/// "2026-03-02", "2026-03-02 09:05" (UTC), and ISO 8601 with milliseconds:
/// "2026-03-02T09:05:00.000Z".
std::string day_text(Moment);
std::string minute_text(Moment);
std::string iso_text(Moment);

}  // namespace beforehand::records
