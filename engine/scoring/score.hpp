// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "drill/session.hpp"
#include "procedure/procedure.hpp"

namespace beforehand::scoring {

using drill::Session;
using procedure::Procedure;
using procedure::Severity;

/// One thing the clinician needed from somebody else at one step.
struct NeedScore {
  StepIx step;
  std::uint8_t need = 0;  ///< position in the step's needs
  Ms need_at{0};          ///< when the clinician would have started
  Ms ready_at = never;    ///< when it was ready; never: it had to be helped out
  Ms wait{0};             ///< how long the clinician stood still for it
  bool requested = false;
  bool helped = false;  ///< the clinician got, held or did it alone
  double credit = 0;    ///< 0..1
  Severity severity = Severity::minor;
  Ms lead() const { return ready_at == never ? -wait : need_at - ready_at; }
};

/// How one person spent the chair time; the five add up to it.
struct TimeSplit {
  Ms work{0}, cover{0}, waiting{0}, standby{0}, avoidable{0};
};

/// A stretch of one person's time, for the chart.
struct Stretch {
  enum class Kind : std::uint8_t { work, cover, waiting, standby, avoidable } kind = Kind::work;
  PersonIx person;
  Ms from{0}, to{0};
  StepIx step;  ///< what was done, waited for, or (avoidable) could have been done
  ActionIx action;
};

enum class ErrorKind : std::uint8_t {
  omitted,
  extra,
  repeated,
  out_of_order,
  too_early,
  late,
  expired,
  overrun,
  contaminated,
  unsafe
};
std::string_view word(ErrorKind);

struct Error {
  ErrorKind kind = ErrorKind::extra;
  StepIx step;  ///< none for an extra action outside the graph
  ActionIx action;
  StepIx cause;  ///< the step before which it came, or after which it came too late
  Ms at{0};
  Severity severity = Severity::minor;
  std::string what;  ///< one sentence: what happened
  std::string why;   ///< why it matters, from the scenario where it says so
};

/// Alignment of what was done to the partial order of what was to be done (alignment.hpp).
struct Order {
  int actions = 0, steps = 0, kept = 0;
  int cost = 0;
  double fitness = 1;
};

enum class Verdict : std::uint8_t { ready, nearly, practise, repeat };
std::string_view word(Verdict);

struct Score {
  double total = 0;         ///< 0..100
  double anticipation = 0;  ///< the three parts, each 0..1
  double idle = 0;
  double sequence = 0;
  Verdict verdict = Verdict::practise;
  Ms chair_time{0};
  Ms reference_chair_time{0};
  bool reference_proven = false;
  std::vector<NeedScore> needs;
  std::vector<TimeSplit> time;     ///< by person
  std::vector<Stretch> stretches;  ///< by person, then time
  Ms both_idle{0};
  Order order;
  std::vector<Error> errors;      ///< by time
  double anticipation_ratio = 0;  ///< needs met unasked over all needs
  int requests = 0;
  Ms clinician_wait{0};
};

/// Scores a session from its events alone. `whom` is the trainee. Works on an incomplete session up
/// to where it goes.
Score score(const Procedure&, const Session&, PersonIx whom);

}  // namespace beforehand::scoring
