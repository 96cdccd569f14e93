// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "records/schema.hpp"

#include <fmt/format.h>

#include <filesystem>

namespace beforehand::records {
namespace {

namespace fs = std::filesystem;
using Kind = StoreError::Kind;

// Times are Unix milliseconds; texts are never null; figures are whole thousandths or millionths.
const std::vector<std::string> version_1 = {
    "CREATE TABLE store (name TEXT PRIMARY KEY, value TEXT NOT NULL)",
    "CREATE TABLE head (one INTEGER PRIMARY KEY, position BIGINT NOT NULL, hash TEXT NOT NULL)",
    "INSERT INTO head (one, position, hash) VALUES (1, 0, '')",
    "CREATE TABLE link (position BIGINT PRIMARY KEY, kind TEXT NOT NULL, record TEXT NOT NULL, "
    "content TEXT NOT NULL, hash TEXT NOT NULL, erased INTEGER NOT NULL DEFAULT 0)",
    "CREATE INDEX link_by_record ON link (record)",
    "CREATE TABLE person (id TEXT PRIMARY KEY, part TEXT NOT NULL, name TEXT NOT NULL, "
    "folded TEXT NOT NULL, passcode TEXT NOT NULL, wrong INTEGER NOT NULL DEFAULT 0, "
    "tried BIGINT NOT NULL DEFAULT 0, added BIGINT NOT NULL)",
    "CREATE INDEX person_by_name ON person (part, folded)",
    "CREATE TABLE erased (person TEXT PRIMARY KEY, at BIGINT NOT NULL, positions TEXT NOT NULL)",
    "CREATE TABLE scenario (hash TEXT PRIMARY KEY, id TEXT NOT NULL, title TEXT NOT NULL, "
    "text TEXT NOT NULL)",
    "CREATE TABLE session (id TEXT PRIMARY KEY, trainee TEXT NOT NULL REFERENCES person (id), "
    "scenario TEXT NOT NULL, scenario_hash TEXT NOT NULL REFERENCES scenario (hash), "
    "program TEXT NOT NULL, level TEXT NOT NULL, phase TEXT NOT NULL, assistant TEXT NOT NULL, "
    "seed TEXT NOT NULL, started BIGINT NOT NULL, ended BIGINT NOT NULL, "
    "complete INTEGER NOT NULL, total BIGINT NOT NULL, anticipation BIGINT NOT NULL, "
    "idle BIGINT NOT NULL, sequence BIGINT NOT NULL, verdict TEXT NOT NULL, "
    "chair_time BIGINT NOT NULL, reference BIGINT NOT NULL, proven INTEGER NOT NULL, "
    "waited BIGINT NOT NULL, requests INTEGER NOT NULL, errors INTEGER NOT NULL, "
    "unsafe INTEGER NOT NULL, outcomes TEXT NOT NULL) @clustered",
    "CREATE INDEX session_by_trainee ON session (trainee, started)",
    "CREATE INDEX session_by_time ON session (started)",
    "CREATE TABLE evidence (session TEXT PRIMARY KEY REFERENCES session (id), "
    "recording TEXT NOT NULL, needs TEXT NOT NULL)",
    "CREATE TABLE summary (scenario TEXT NOT NULL, trainee TEXT NOT NULL REFERENCES person (id), "
    "sessions INTEGER NOT NULL, completed INTEGER NOT NULL, passes INTEGER NOT NULL, "
    "unsafe INTEGER NOT NULL, last_at BIGINT NOT NULL, last BIGINT NOT NULL, best BIGINT NOT NULL, "
    "first BIGINT NOT NULL, trend BIGINT NOT NULL, last_verdict TEXT NOT NULL, "
    "signed_off INTEGER NOT NULL, PRIMARY KEY (scenario, trainee)) @clustered",
    "CREATE INDEX summary_by_trainee ON summary (trainee)",
    // Apart from the summary, whose rows stay short for the table of a whole cohort.
    "CREATE TABLE history (scenario TEXT NOT NULL, trainee TEXT NOT NULL REFERENCES person (id), "
    "steps TEXT NOT NULL, PRIMARY KEY (scenario, trainee)) @clustered",
    "CREATE TABLE sign_off (id TEXT PRIMARY KEY, trainee TEXT NOT NULL REFERENCES person (id), "
    "trainer TEXT NOT NULL REFERENCES person (id), scenario TEXT NOT NULL, "
    "scenario_hash TEXT NOT NULL, at BIGINT NOT NULL, criteria TEXT NOT NULL, note TEXT NOT NULL, "
    "revoked_at BIGINT NOT NULL DEFAULT 0, revoked_by TEXT NOT NULL DEFAULT '', "
    "revoked_why TEXT NOT NULL DEFAULT '')",
    "CREATE INDEX sign_off_by_trainee ON sign_off (trainee)",
    "CREATE TABLE note (id TEXT PRIMARY KEY, trainee TEXT NOT NULL REFERENCES person (id), "
    "trainer TEXT NOT NULL REFERENCES person (id), session TEXT NOT NULL, at BIGINT NOT NULL, "
    "text TEXT NOT NULL)",
    "CREATE INDEX note_by_trainee ON note (trainee)",
};

// The newest drill of a scenario is looked up for every screen and report.
const std::vector<std::string> version_2 = {
    "CREATE INDEX session_by_scenario ON session (scenario, started)",
};

// The tray laid before a drill and the room cleared after it.
const std::vector<std::string> version_3 = {
    "ALTER TABLE evidence ADD COLUMN around TEXT NOT NULL DEFAULT ''",
};

const std::vector<std::string> tables = {"store",   "head",     "link",     "person",
                                         "erased",  "scenario", "session",  "evidence",
                                         "summary", "history",  "sign_off", "note"};

// A store up to this size is checked whole each time it is opened; a larger one by `verify` alone.
constexpr std::uintmax_t checked_at_start = 64u << 20;

std::string for_this(Database& db, std::string statement) {
  const std::string mark = "@clustered";
  const auto at = statement.find(mark);
  if (at != std::string::npos)
    statement.replace(at, mark.size(), db.server() ? "" : "WITHOUT ROWID");
  return statement;
}

bool has_table(Database& db, const std::string& name) {
  int count = 0;
  const std::string query =
      db.server() ? "SELECT count(*) FROM information_schema.tables WHERE table_name = :n AND "
                    "table_schema = current_schema()"
                  : "SELECT count(*) FROM sqlite_master WHERE type = 'table' AND name = :n";
  db.sql() << query, soci::use(name), soci::into(count);
  return count > 0;
}

bool has_any_table(Database& db) {
  int count = 0;
  db.sql() << (db.server() ? "SELECT count(*) FROM information_schema.tables WHERE table_schema = "
                             "current_schema()"
                           : "SELECT count(*) FROM sqlite_master"),
      soci::into(count);
  return count > 0;
}

void check_sound(Database& db) {
  std::error_code failed;
  if (db.server() || fs::file_size(db.address(), failed) > checked_at_start) return;
  std::string found;
  db.sql() << "PRAGMA quick_check(1)", soci::into(found);
  if (found == "ok") return;
  throw StoreError(Kind::damaged,
                   fmt::format("the store {} is damaged ({}). Nothing was overwritten; move the "
                               "file away and put the newest backup in its place",
                               db.address(), found));
}

void check_ours(Database& db, int version, int newest) {
  const auto at = shown(db.address());
  if (version == 0 && has_any_table(db) && !db.server())
    throw StoreError(Kind::damaged, fmt::format("{} is a database of another program. Nothing was "
                                                "changed; name another file",
                                                at));
  if (version > newest)
    throw StoreError(
        Kind::newer,
        fmt::format("the store {} was made by a newer version of this program (its tables are of "
                    "version {}, this program knows {}). Nothing was changed; update this program",
                    at, version, newest));
}

std::string backup_name(const Database& db, int version) {
  const auto stem = fmt::format("{}.before-version-{}", db.address(), version);
  auto name = stem;
  for (int i = 2; fs::exists(name); ++i) name = fmt::format("{}.{}", stem, i);
  return name;
}

void backup_on_server(Database& db, int version) {
  const auto schema = fmt::format("before_version_{}", version);
  db.sql() << "CREATE SCHEMA " + schema;
  for (const auto& table : tables) {
    if (has_table(db, table))
      db.sql() << fmt::format("CREATE TABLE {}.{} AS TABLE {}", schema, table, table);
  }
}

void apply(Database& db, const Migration& m, const Id& store_id) {
  for (const auto& statement : m.statements) db.sql() << for_this(db, statement);
  const auto version = std::to_string(m.to);
  db.sql() << "DELETE FROM store WHERE name = 'version'";
  db.sql() << "INSERT INTO store (name, value) VALUES ('version', :v)", soci::use(version);
  if (m.to == 1)
    db.sql() << "INSERT INTO store (name, value) VALUES ('id', :i)", soci::use(store_id);
}

// `copied`: the store was there before, and is copied first.
void migrate(Database& db, const Migration& m, const Id& store_id, bool copied) {
  const int from = m.to - 1;
  if (copied && !db.server()) copy_file_store(db, backup_name(db, m.to));
  within(db, Transaction::Kind::migrate, [&] {
    // Two programs may open a new store at once: the second waits here, and finds it done.
    if (db.server()) db.sql() << "SELECT pg_advisory_xact_lock(20874)";
    if (schema_version(db) != from) return;
    if (copied && db.server()) backup_on_server(db, m.to);
    apply(db, m, store_id);
  });
}

}  // namespace

const std::vector<Migration>& migrations() {
  static const std::vector<Migration> all = {{1, version_1}, {2, version_2}, {3, version_3}};
  return all;
}

int schema_version(Database& db) {
  if (!has_table(db, "store") || !has_table(db, "head")) return 0;
  std::string value = "0";
  db.sql() << "SELECT value FROM store WHERE name = 'version'", soci::into(value);
  return std::stoi(value);
}

void copy_file_store(Database& db, const std::string& file) {
  db.sql() << "VACUUM INTO :f", soci::use(file);
}

void bring_up_to_date(Database& db, const std::vector<Migration>& list, const Id& store_id) {
  try {
    check_sound(db);
    const int version = schema_version(db);
    check_ours(db, version, list.back().to);
    if (!db.server()) {
      std::string mode;
      db.sql() << "PRAGMA journal_mode = WAL", soci::into(mode);
      db.sql() << "PRAGMA synchronous = FULL";  // a saved drill survives the power going
      db.sql() << "PRAGMA foreign_keys = ON";
      db.sql() << "PRAGMA secure_delete = ON";  // who is erased is not to be found in the file
    }
    for (const auto& m : list) {
      if (m.to > version) migrate(db, m, store_id, version > 0);
    }
  } catch (const soci::soci_error& e) {
    throw translate(e, db.address());
  }
}

}  // namespace beforehand::records
