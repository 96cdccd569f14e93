// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// Measures a large store: bench_store ADDRESS SCENARIO.yaml [SESSIONS [TRAINEES]]. An empty store
// is filled with synthetic rows first: one real drill's evidence again and again under other ids
// and figures, made inside the database. Its chain is not one, so it is of use for nothing else.
#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <functional>
#include <vector>

#include "drill/cast.hpp"
#include "drill/recording.hpp"
#include "procedure/reader.hpp"
#include "records/database.hpp"
#include "records/ids.hpp"
#include "records/packing.hpp"
#include "records/save.hpp"
#include "records/store.hpp"

namespace beforehand::bench {
namespace {

using records::Store;
using Steady = std::chrono::steady_clock;

records::Moment wall() {
  return std::chrono::floor<std::chrono::milliseconds>(std::chrono::system_clock::now());
}

double median_ms(int times, const std::function<void()>& work) {
  std::vector<double> all;
  for (int i = 0; i < times; ++i) {
    const auto begun = Steady::now();
    work();
    all.push_back(std::chrono::duration<double, std::milli>(Steady::now() - begun).count());
  }
  std::sort(all.begin(), all.end());
  fmt::print("median {:8.2f} ms   least {:8.2f}   most {:8.2f}   ({} times)\n", all[all.size() / 2],
             all.front(), all.back(), times);
  std::fflush(stdout);
  return all[all.size() / 2];
}

struct Played {
  procedure::Procedure procedure;
  std::string text;
};

records::NewSession play(const Played& played, const records::Id& trainee, std::uint64_t seed) {
  static records::IdMaker ids;
  drill::Setup setup;
  setup.seed = seed;
  setup.level = drill::Level::assessed;
  setup.assistant = "human";
  drill::Run run(played.procedure, setup);
  cast(run, drill::habit_from("late:2"));
  run.play_out();
  const auto at = wall();
  return records::new_session(played.procedure, run.session(),
                              {ids.make(at), trainee, at, at, drill::program_version, played.text});
}

std::string number(const std::string& n) {
  return "substr(CAST(1000000000000 + " + n + " AS TEXT), 2)";
}

// Everything of one row comes from its number n, counted from 0.
void fill(records::Database& db, const records::NewSession& model, int sessions, int trainees) {
  auto& sql = db.sql();
  const auto& r = model.record;
  const std::string series = fmt::format(
      "WITH RECURSIVE s (n) AS (SELECT CAST(0 AS BIGINT) UNION ALL SELECT n + 1 FROM s WHERE n + 1 "
      "< {})",
      sessions);
  const std::string people = fmt::format(
      "WITH RECURSIVE s (n) AS (SELECT CAST(0 AS BIGINT) UNION ALL SELECT n + 1 FROM s WHERE n + 1 "
      "< {})",
      trainees);
  const std::string session_id = "'01900000-0000-7000-8000-' || " + number("n");
  const std::string trainee_id =
      "'01800000-0000-7000-8000-' || " + number(fmt::format("n % {}", trainees));
  const std::string scenario = fmt::format("'scenario-' || CAST((n / {}) % 10 AS TEXT)", trainees);
  const auto recording = records::squeeze(model.evidence.recording);
  const auto needs = records::squeeze(records::pack(model.evidence.needs));
  const auto outcomes = records::pack(r.outcomes);
  sql << "BEGIN";
  sql << people + " INSERT INTO person (id, part, name, folded, passcode, added) SELECT " +
             "'01800000-0000-7000-8000-' || " + number("n") + ", 'trainee', 'Trainee ' || " +
             number("n") + ", 'trainee ' || " + number("n") + ", '', 0 FROM s";
  sql << "INSERT INTO scenario (hash, id, title, text) VALUES ('synthetic', 'x', 'x', '')";
  sql << series +
             fmt::format(
                 " INSERT INTO session (id, trainee, scenario, scenario_hash, program, level, "
                 "phase, assistant, seed, started, ended, complete, total, anticipation, idle, "
                 "sequence, verdict, chair_time, reference, proven, waited, requests, errors, "
                 "unsafe, outcomes) SELECT {}, {}, {}, 'synthetic', '0', 'assessed', '', 'human', "
                 "'1', 1700000000000 + n * 60000, 1700000500000 + n * 60000, 1, 60000 + n * 7919 % "
                 "40000, 900000, 900000, 900000, 'nearly', 700000, 690000, 1, 1000, 0, 1, 0, '{}' "
                 "FROM s",
                 session_id, trainee_id, scenario, outcomes);
  sql << series + " INSERT INTO evidence (session, recording, needs) SELECT " + session_id + ", '" +
             recording + "', '" + needs + "' FROM s";
  const std::string hash(64, 'f');
  sql << series + " INSERT INTO link (position, kind, record, content, hash) SELECT n + 1, " +
             "'session', " + session_id + ", '" + hash + "', '" + hash + "' FROM s";
  sql << fmt::format("UPDATE head SET position = {}, hash = '{}'", sessions, hash);
  sql << "INSERT INTO summary (scenario, trainee, sessions, completed, passes, unsafe, last_at, "
         "last, best, first, trend, last_verdict, signed_off) SELECT scenario, trainee, count(*), "
         "count(*), 0, 0, max(started), max(total), max(total), min(total), 500, 'nearly', 0 FROM "
         "session GROUP BY scenario, trainee";
  std::vector<records::StepHistory> history;
  for (const auto& o : r.outcomes) history.push_back({o.step, std::string(10, '1')});
  sql << "INSERT INTO history (scenario, trainee, steps) SELECT scenario, trainee, '" +
             records::pack(history) + "' FROM summary";
  sql << "COMMIT";
  sql << "ANALYZE";
}

double size_of(records::Database& db) {
  double bytes = 0;
  if (db.server()) {
    db.sql() << "SELECT pg_database_size(current_database())", soci::into(bytes);
  } else {
    double pages = 0, page = 0;
    db.sql() << "PRAGMA page_count", soci::into(pages);
    db.sql() << "PRAGMA page_size", soci::into(page);
    bytes = pages * page;
  }
  return bytes;
}

void measure(Store& store, const Played& played, int sessions) {
  std::size_t rows = 0;
  const auto cohort = [&](bool history) {
    records::SummaryQuery q;
    q.scenario = "scenario-3";
    q.order = records::SummaryQuery::Order::last;
    q.with_history = history;
    rows = store.summaries(q).size();
  };
  fmt::print("cohort table, one scenario, everybody, sorted   ");
  median_ms(15, [&] { cohort(false); });
  fmt::print("the same with every step's outcomes (heat map)  ");
  median_ms(7, [&] { cohort(true); });
  fmt::print("cohort table, all scenarios, a page of 200      ");
  median_ms(15, [&] {
    records::SummaryQuery q;
    q.limit = 200;
    q.offset = 5000;
    store.summaries(q);
  });
  fmt::print("cohort table, a name searched                   ");
  median_ms(15, [&] {
    records::SummaryQuery q;
    q.search = "004321";
    store.summaries(q);
  });
  const auto people = store.people(records::Person::Part::trainee);
  std::size_t at = 0;
  fmt::print("one trainee: standing, sessions, sign-offs      ");
  median_ms(50, [&] {
    const auto& who = people[(at += 137) % people.size()].id;
    records::SummaryQuery q;
    q.trainee = who;
    q.with_history = true;
    store.summaries(q);
    records::SessionQuery s;
    s.trainee = who;
    store.sessions(s);
    store.sign_offs(who);
    store.notes(who);
  });
  fmt::print("saving a drill                                  ");
  std::vector<records::NewSession> fresh;
  for (std::uint64_t i = 0; i < 60; ++i)
    fresh.push_back(play(played, people[i * 97 % people.size()].id, i + 1));
  std::size_t next = 0;
  median_ms(60, [&] { store.save(fresh[next++]); });
  fmt::print("opening the store                               ");
  median_ms(5, [&] { Store::open(store.address(), wall); });
  fmt::print("{} people, {} rows in the cohort table, {} sessions filled in\n", people.size(), rows,
             sessions);
}

int run(const std::vector<std::string>& args) {
  const int sessions = args.size() > 3 ? std::stoi(args[3]) : 1'000'000;
  const int trainees = args.size() > 4 ? std::stoi(args[4]) : 10'000;
  Played played;
  played.text = procedure::load_text(args[2]);
  auto reading = procedure::read(played.text);
  if (!reading.procedure) throw std::runtime_error(args[2] + " cannot be read");
  played.procedure = std::move(*reading.procedure);
  auto store = Store::open(args[1], wall);
  if (store.head().position == 0) {
    records::Database db(args[1]);
    const double before = size_of(db);
    const auto begun = Steady::now();
    fill(db, play(played, "01800000-0000-7000-8000-000000000000", 1), sessions, trainees);
    fmt::print("filled in {:.0f} s\n",
               std::chrono::duration<double>(Steady::now() - begun).count());
    fmt::print("store size: {:.0f} bytes a session, {:.2f} GB in all\n",
               (size_of(db) - before) / sessions, size_of(db) / 1e9);
  }
  measure(store, played, sessions);
  return 0;
}

}  // namespace
}  // namespace beforehand::bench

int main(int argc, char** argv) {
  if (argc < 3) {
    std::fprintf(stderr, "usage: bench_store ADDRESS SCENARIO.yaml [SESSIONS [TRAINEES]]\n");
    return 2;
  }
  try {
    return beforehand::bench::run({argv, argv + argc});
  } catch (const std::exception& e) {
    std::fprintf(stderr, "%s\n", e.what());
    return 1;
  }
}
