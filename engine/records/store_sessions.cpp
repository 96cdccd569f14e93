// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include <fmt/format.h>

#include <charconv>

#include "records/chain.hpp"
#include "records/packing.hpp"
#include "records/store_state.hpp"

namespace beforehand::records {
namespace {

using soci::into;
using soci::use;

// One row of the table, as SOCI reads and writes it.
struct Row {
  std::string level, seed, verdict, outcomes;
  long long started = 0, ended = 0, total = 0, anticipation = 0, idle = 0, sequence = 0,
            chair_time = 0, reference = 0, waited = 0;
  int complete = 0, proven = 0, unsafe = 0;
};

// Every column with where its value is: of the record itself, or of the row where SOCI needs
// another type.
template <class Record, class R, class F>
void each_column(Record& s, R& r, F take) {
  take("id", s.id);
  take("trainee", s.trainee);
  take("scenario", s.scenario);
  take("scenario_hash", s.scenario_hash);
  take("program", s.program);
  take("level", r.level);
  take("phase", s.phase);
  take("assistant", s.assistant);
  take("seed", r.seed);
  take("started", r.started);
  take("ended", r.ended);
  take("complete", r.complete);
  take("total", r.total);
  take("anticipation", r.anticipation);
  take("idle", r.idle);
  take("sequence", r.sequence);
  take("verdict", r.verdict);
  take("chair_time", r.chair_time);
  take("reference", r.reference);
  take("proven", r.proven);
  take("waited", r.waited);
  take("requests", s.requests);
  take("errors", s.errors);
  take("unsafe", r.unsafe);
  take("outcomes", r.outcomes);
}

// "id, trainee, ...", or with a colon before each name, as SOCI marks a value.
std::string columns(const char* before = "") {
  SessionRecord s;
  Row r;
  std::string all;
  each_column(s, r, [&](const char* name, const auto&) {
    all.append(all.empty() ? "" : ", ").append(before).append(name);
  });
  return all;
}

Row row_of(const SessionRecord& s) {
  Row r;
  r.level = drill::word(s.level);
  r.seed = std::to_string(s.seed);
  r.verdict = scoring::word(s.verdict);
  r.outcomes = pack(s.outcomes);
  r.started = count(s.started);
  r.ended = count(s.ended);
  r.total = thousandths(s.total);
  r.anticipation = millionths(s.anticipation);
  r.idle = millionths(s.idle);
  r.sequence = millionths(s.sequence);
  r.chair_time = s.chair_time.count();
  r.reference = s.reference.chair_time.count();
  r.waited = s.clinician_wait.count();
  r.complete = s.complete;
  r.proven = s.reference.proven;
  r.unsafe = s.unsafe;
  return r;
}

template <class E>
E from_word(const std::string& text, int values) {
  for (int i = 0; i < values; ++i) {
    if (word(static_cast<E>(i)) == text) return static_cast<E>(i);
  }
  throw StoreError(StoreError::Kind::damaged,
                   fmt::format("a session in the store says '{}', which this program does not "
                               "know; run records verify",
                               text));
}

void take(const Row& r, SessionRecord& s) {
  s.level = from_word<drill::Level>(r.level, 3);
  s.verdict = from_word<scoring::Verdict>(r.verdict, 4);
  std::from_chars(r.seed.data(), r.seed.data() + r.seed.size(), s.seed);
  s.outcomes = unpack_outcomes(r.outcomes);
  s.started = moment(r.started);
  s.ended = moment(r.ended);
  s.total = from_thousandths(r.total);
  s.anticipation = from_millionths(r.anticipation);
  s.idle = from_millionths(r.idle);
  s.sequence = from_millionths(r.sequence);
  s.chair_time = Ms{r.chair_time};
  s.reference = {Ms{r.reference}, r.proven != 0};
  s.clinician_wait = Ms{r.waited};
  s.complete = r.complete != 0;
  s.unsafe = r.unsafe != 0;
}

// Runs a query that has the columns above, with what `bind` adds to it, row by row.
template <class Bind, class Take>
void select(soci::session& sql, const std::string& rest, Bind bind, Take take_row) {
  SessionRecord s;
  Row r;
  auto prepared = (sql.prepare << fmt::format("SELECT {} FROM session {}", columns(), rest));
  each_column(s, r, [&](const char*, auto& value) { prepared, into(value); });
  bind(prepared);
  soci::statement st(prepared);
  st.execute();
  while (st.fetch()) {
    take(r, s);
    take_row(s);
  }
}

void insert(soci::session& sql, const SessionRecord& s, const Evidence& e) {
  const Row r = row_of(s);
  {
    auto insertion =
        sql << fmt::format("INSERT INTO session ({}) VALUES ({})", columns(), columns(":"));
    each_column(s, r, [&](const char*, const auto& value) { insertion, use(value); });
  }  // done here
  const auto recording = squeeze(e.recording), needs = squeeze(pack(e.needs));
  const auto around = pack(e.around);
  sql << "INSERT INTO evidence (session, recording, needs, around) VALUES (:s, :r, :n, :a)",
      use(s.id), use(recording), use(needs), use(around);
}

void keep(soci::session& sql, const ScenarioVersion& v) {
  int known = 0;
  sql << "SELECT count(*) FROM scenario WHERE hash = :h", use(v.hash), into(known);
  if (known > 0) return;
  const auto text = squeeze(v.text);
  sql << "INSERT INTO scenario (hash, id, title, text) VALUES (:h, :i, :t, :x)", use(v.hash),
      use(v.id), use(v.title), use(text);
}

}  // namespace

bool Store::State::save(const NewSession& n) {
  const auto& s = n.record;
  int known = 0;
  sql() << "SELECT count(*) FROM session WHERE id = :i", use(s.id), into(known);
  if (known > 0) return false;
  require_person(s.trainee, Person::Part::trainee);
  keep(sql(), n.scenario);
  insert(sql(), s, n.evidence);
  chain("session", s.id, content_of(s, n.evidence));
  summarise(s.trainee, s.scenario);
  return true;
}

bool Store::save(const NewSession& n) {
  if (!is_id(n.record.id) || n.scenario.hash != n.record.scenario_hash)
    State::refuse("a session needs an id of its own and the scenario it was played with");
  return state_->write([&] { return state_->save(n); });
}

std::vector<SessionRecord> Store::sessions(const SessionQuery& q) const {
  std::string where = "WHERE 1 = 1";
  if (!q.trainee.empty()) where += " AND trainee = :t";
  if (!q.scenario.empty()) where += " AND scenario = :c";
  const char* way = q.oldest_first ? "ASC" : "DESC";
  where += fmt::format(" ORDER BY started {}, id {} LIMIT :l OFFSET :o", way, way);
  return state_->read([&] {
    std::vector<SessionRecord> list;
    select(
        state_->sql(), where,
        [&](auto& st) {
          if (!q.trainee.empty()) st, use(q.trainee);
          if (!q.scenario.empty()) st, use(q.scenario);
          st, use(q.limit), use(q.offset);
        },
        [&](const SessionRecord& s) { list.push_back(s); });
    return list;
  });
}

std::optional<SessionRecord> Store::session(const Id& id) const {
  return state_->read([&] {
    std::optional<SessionRecord> found;
    select(
        state_->sql(), "WHERE id = :i", [&](auto& st) { st, use(id); },
        [&](const SessionRecord& s) { found = s; });
    return found;
  });
}

Evidence Store::evidence(const Id& session) const {
  std::string recording, needs, around;
  state_->read([&] {
    state_->sql() << "SELECT recording, needs, around FROM evidence WHERE session = :s",
        use(session), into(recording), into(needs), into(around);
  });
  if (recording.empty())
    State::refuse(fmt::format("the store has no recording of a session {}", session));
  try {
    return {expand(recording), unpack_needs(expand(needs)), unpack_around(around)};
  } catch (const std::exception& e) {
    throw StoreError(
        StoreError::Kind::damaged,
        fmt::format("the recording of session {} cannot be read: {}", session, e.what()));
  }
}

ScenarioVersion Store::scenario(const std::string& hash) const {
  ScenarioVersion v;
  std::string text;
  state_->read([&] {
    state_->sql() << "SELECT hash, id, title, text FROM scenario WHERE hash = :h", use(hash),
        into(v.hash), into(v.id), into(v.title), into(text);
  });
  if (v.hash.empty()) State::refuse(fmt::format("the store has no scenario text {}", hash));
  try {
    v.text = expand(text);
  } catch (const std::exception& e) {
    throw StoreError(StoreError::Kind::damaged, fmt::format("the text of the scenario {} cannot be "
                                                            "read: {}",
                                                            v.id, e.what()));
  }
  return v;
}

std::vector<ScenarioVersion> Store::scenarios() const {
  return state_->read([&] {
    std::vector<ScenarioVersion> list;
    ScenarioVersion v;
    soci::statement st =
        (state_->sql().prepare << "SELECT hash, id, title FROM scenario ORDER BY id, hash",
         into(v.hash), into(v.id), into(v.title));
    st.execute();
    while (st.fetch()) list.push_back(v);
    return list;
  });
}

}  // namespace beforehand::records
