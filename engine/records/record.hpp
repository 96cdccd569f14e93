// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <chrono>
#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "base/time.hpp"
#include "drill/session.hpp"
#include "scoring/score.hpp"

// What the store keeps, as plain values. Texts are UTF-8; ids of steps, needs and phases are the
// scenario's own, so that a record can be read without it.

namespace beforehand::records {

/// A moment of the calendar, UTC. The engine has none; who opens a store passes the clock in.
using Moment = std::chrono::sys_time<std::chrono::milliseconds>;
using Clock = std::function<Moment()>;

/// Names a record everywhere: a version 7 UUID (RFC 9562, 2024) in its usual text form, so ids
/// order by the time they were made and records of two stores can be put together. ids.hpp makes
/// them.
using Id = std::string;

/// Somebody the store knows: who practises, or who signs off.
struct Person {
  enum class Part : std::uint8_t { trainee, trainer };
  Id id;
  std::string name;
  Part part = Part::trainee;
  Moment added{};
  bool locked = false;  ///< has a passcode
};
std::string_view word(Person::Part);

/// One need of a session as it was scored (scoring::NeedScore), with names instead of positions.
struct NeedRecord {
  std::string step, from;  ///< the step that needed it, and the step that serves it
  std::string need;        ///< the supply, else the serving step
  Ms due_at{0};
  Ms ready_at = never;  ///< never: it had to be helped out
  Ms wait{0};
  bool requested = false, helped = false;
  double credit = 0;  ///< 0..1, exact to a millionth
  Ms lead() const { return ready_at == never ? -wait : due_at - ready_at; }
  friend bool operator==(const NeedRecord&, const NeedRecord&) = default;
};

/// Whether a step of the trainee's was done right: the right step, ready before it was needed, no
/// error, no hint. Success and failure of the competence charts.
struct StepOutcome {
  std::string step;
  bool passed = false;
  friend bool operator==(const StepOutcome&, const StepOutcome&) = default;
};

/// One drill. Figures are those of scoring::Score, kept exact to a thousandth of a point (total)
/// and a millionth (shares).
struct SessionRecord {
  Id id;
  Id trainee;
  std::string scenario;       ///< id
  std::string scenario_hash;  ///< of its text: which version was played
  std::string program;        ///< version
  drill::Level level = drill::Level::unaided;
  std::string phase;      ///< id; empty: the whole procedure
  std::string assistant;  ///< "human", "invented" in a demo class, or the bot's name
  std::uint64_t seed = 0;
  Moment started{}, ended{};
  bool complete = false;  ///< false: interrupted
  double total = 0, anticipation = 0, idle = 0, sequence = 0;
  scoring::Verdict verdict = scoring::Verdict::practise;
  Ms chair_time{0};
  scoring::Reference reference;
  Ms clinician_wait{0};
  int requests = 0, errors = 0;
  bool unsafe = false;                ///< an unsafe act was done
  std::vector<StepOutcome> outcomes;  ///< none for a guided drill: its windows are hints
};

/// Whether a session counts for anybody's standing: a bot's is kept and listed, and counts for
/// nothing.
inline bool counts_for_standing(std::string_view assistant) {
  return assistant == "human" || assistant == "invented";
}

/// A task beside a drill, apart from its score.
struct TaskRecord {
  int right = 0, of = 0;
  Ms took{0};
  /// What was to be changed, as drill::word() names it, and what it was about: supplies by their
  /// names as they were shown, destinations by drill::word().
  struct Fault {
    std::string kind;
    std::vector<std::string> about;
    friend bool operator==(const Fault&, const Fault&) = default;
  };
  std::vector<Fault> faults;
  friend bool operator==(const TaskRecord&, const TaskRecord&) = default;
};

/// The tray laid before a drill and the room cleared up after it, where that was done.
struct Around {
  std::optional<TaskRecord> set_up, turnover;
  bool empty() const { return !set_up && !turnover; }
  friend bool operator==(const Around&, const Around&) = default;
};

/// What a session's figures can be traced to.
struct Evidence {
  std::string recording;  ///< JSON Lines, as drill::from_text() reads it
  std::vector<NeedRecord> needs;
  Around around{};  ///< hashed with the rest; no recording tells it again
};

/// A scenario as it was played.
struct ScenarioVersion {
  std::string hash, id, title, text;
};

/// A session on its way into the store.
struct NewSession {
  SessionRecord record;
  Evidence evidence;
  ScenarioVersion scenario;
};

/// The outcomes of one step over one trainee's sessions, oldest first: '1' passed, '0' not.
struct StepHistory {
  std::string step;
  std::string outcomes;
};

/// One point of a learning curve.
struct Point {
  Moment at{};
  double total = 0;
};

/// One trainee's standing in one scenario. Kept up to date by the store at every save, from whole
/// procedures (no single phases) that were played to the end.
struct Summary {
  Id trainee;
  std::string trainee_name;
  std::string scenario;
  int sessions = 0;         ///< all, interrupted ones and single phases included
  int completed = 0;        ///< those that count here
  int assessed_passes = 0;  ///< assessed level, verdict ready
  int unsafe_acts = 0;      ///< sessions with one, at any level
  Moment last_at{};
  double last = 0, best = 0, first = 0;
  double trend = 0;  ///< points a session: least-squares slope over the last eight totals
  scoring::Verdict last_verdict = scoring::Verdict::practise;
  bool signed_off = false;           ///< a sign-off stands, not revoked
  std::vector<StepHistory> history;  ///< empty unless asked for
};

/// A trainer's word that a trainee is ready in a scenario.
struct SignOff {
  Id id, trainee, trainer;
  std::string trainer_name;
  std::string scenario, scenario_hash;
  Moment at{};
  std::string criteria;  ///< what was met and what was not at that moment, as text
  std::string note;
  Moment revoked_at{};  ///< zero: it stands
  Id revoked_by;
  std::string revoked_why;
  bool stands() const { return revoked_at == Moment{}; }
};

/// Something a trainer wrote down about a trainee, or about one session.
struct Note {
  Id id, trainee, trainer;
  Id session;  ///< may be empty
  Moment at{};
  std::string text;
};

struct SessionQuery {
  Id trainee;            ///< empty: everybody's
  std::string scenario;  ///< empty: every
  bool oldest_first = false;
  int limit = 200, offset = 0;
};

struct SummaryQuery {
  enum class Order : std::uint8_t { name, last, best, trend, last_at };
  Id trainee;            ///< empty: everybody
  std::string scenario;  ///< empty: every
  std::string search;    ///< part of the trainee's name, in any case; taken literally
  Order order = Order::name;
  bool descending = false;
  int limit = 20'000, offset = 0;
  bool with_history = false;
};

}  // namespace beforehand::records
