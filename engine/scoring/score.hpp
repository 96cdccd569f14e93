// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "drill/session.hpp"
#include "procedure/procedure.hpp"

// What a session was worth. Every formula, its source and its limits: docs/scoring.md.

namespace beforehand::scoring {

using drill::Session;
using procedure::Procedure;
using procedure::Severity;

/// One thing the clinician needed from somebody else at one step.
struct NeedScore {
  StepIx step;
  std::uint8_t need = 0;  ///< position in the step's needs
  StepIx from;            ///< the step that serves it
  Ms need_at{0};          ///< when the clinician would have started
  Ms due_at{
      0};  ///< need_at, or the soonest everything the step needs could have been ready, if later
  Ms ready_at = never;  ///< when it was ready; never: it had to be helped out
  Ms asked_at = never;  ///< when the clinician asked aloud; never: did not have to
  Ms wait{0};           ///< how long the clinician was held up by it
  bool requested = false;
  bool helped = false;  ///< the clinician got, held or did it alone
  double credit = 0;    ///< 0..1
  Severity severity = Severity::minor;
  Ms lead() const { return ready_at == never ? -wait : due_at - ready_at; }
};

/// How one person spent the chair time; the five add up to it.
struct TimeSplit {
  Ms work{0}, cover{0}, waiting{0}, standby{0}, avoidable{0};
  Ms total() const { return work + cover + waiting + standby + avoidable; }
  /// Work and cover over all, 0..1.
  double utilisation() const;
};

/// A stretch of one person's time, for the chart. A person's stretches follow one another without
/// gap.
struct Stretch {
  enum class Kind : std::uint8_t { work, cover, waiting, standby, avoidable } kind = Kind::work;
  PersonIx person;
  Ms from{0}, to{0};
  StepIx step;  ///< what was done, waited for, or (avoidable) could have been done
  ActionIx action;
  friend bool operator==(const Stretch&, const Stretch&) = default;
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
  unsafe,
  uncovered,  ///< a cover given up while what it covers still went on
};
inline constexpr std::size_t error_kind_count = 11;
std::string_view word(ErrorKind);

/// Why something came late; `none` for other errors, and for what set without making anybody wait.
enum class Cause : std::uint8_t {
  none,
  stood_by,      ///< it could have been begun, and was not
  let_go,        ///< a cover that had been begun, and was let go before it was wanted
  busy,          ///< the trainee was at something else
  hand_full,     ///< no hand was free for it
  not_prepared,  ///< not opened, mixed or loaded by then
  not_set_out,   ///< not within reach by then
  had_set,       ///< what was ready had set: of the error that it set
};
inline constexpr std::size_t cause_count = 8;

struct Error {
  ErrorKind kind = ErrorKind::extra;
  Cause late_because = Cause::none;
  StepIx step;  ///< none for an extra action outside the graph
  ActionIx action;
  StepIx cause;  ///< the step before which it came, or after which it came too late
  Ms at{0};
  Severity severity = Severity::minor;
  std::string what;                 ///< one sentence: what happened
  std::string why;                  ///< why it matters, from the scenario where it says so
  std::string instead;              ///< what to do instead
  std::vector<StepIx> followed_by;  ///< steps that went wrong only because of this
};

/// Alignment of what was done to the partial order of what was to be done (alignment.hpp).
struct Order {
  int actions = 0, steps = 0, kept = 0;
  int cost = 0;
  double fitness = 1;
};

enum class Verdict : std::uint8_t { ready, nearly, practise, repeat };
std::string_view word(Verdict);
inline constexpr double ready_from = 85;  ///< points; with less nobody is ready

/// The chair time to measure against.
struct Reference {
  Ms chair_time{0};
  bool proven = false;  ///< by a plan proven best; else a lower bound
};

struct Score {
  double total = 0;         ///< 0..100
  double anticipation = 1;  ///< the three parts, each 0..1
  double idle = 1;
  double sequence = 1;
  Verdict verdict = Verdict::practise;
  Ms chair_time{0};
  Ms reference_chair_time{0};
  bool reference_proven = false;
  std::vector<NeedScore> needs;    ///< in order of the procedure's steps
  std::vector<TimeSplit> time;     ///< by person
  std::vector<Stretch> stretches;  ///< by person, then time
  Ms both_idle{0};                 ///< everybody neither working nor covering
  Order order;
  std::vector<Error> errors;      ///< by time
  double anticipation_ratio = 1;  ///< needs met unasked over all needs
  double inconvenience = 0;       ///< needs at which the clinician was held up over all needs
  int requests = 0;
  Ms clinician_wait{0};
};

/// Scores a session from its events alone. `whom` is the trainee. Works on an incomplete session up
/// to where it goes. Who scores many sessions of one procedure keeps a Scorer (scorer.hpp).
Score score(const Procedure&, const Session&, PersonIx whom, Reference);

/// The same against the earliest possible finish for the signals that occurred, which is not
/// proven.
Score score(const Procedure&, const Session&, PersonIx whom);

/// The signals that occurred, in the procedure's order.
std::vector<SignalIx> signals_shown(const Session&);

}  // namespace beforehand::scoring
