// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include "records/database.hpp"
#include "records/ids.hpp"

// What the store's .cpp files share. Functions here expect to be inside a transaction.

namespace beforehand::records {

struct Store::State {
  State(const std::string& address, Clock clock, std::chrono::milliseconds patience)
      : db(address, patience), now(std::move(clock)) {}

  Database db;
  Clock now;
  IdMaker ids;

  soci::session& sql() { return db.sql(); }
  Id new_id() { return ids.make(now()); }
  template <class F>
  auto read(F work) {
    return within(db, Transaction::Kind::read, work);
  }
  template <class F>
  auto write(F work) {
    return within(db, Transaction::Kind::write, work);
  }

  /// Throws `refused`, with these words.
  [[noreturn]] static void refuse(const std::string& message);
  void require_person(const Id&, Person::Part);
  /// Appends a link for a record.
  void chain(const std::string& kind, const Id& record, const std::string& content);
  /// Makes the summary and history of one trainee in one scenario anew from the sessions.
  void summarise(const Id& trainee, const std::string& scenario);
  std::vector<Summary> wrong_summaries();

  /// By name, with the hash of the passcode.
  std::vector<std::pair<Person, std::string>> passcodes(Person::Part);
  std::vector<Person> people(Person::Part);
  /// By id or by name in any case.
  std::vector<Person> people_like(Person::Part, const std::string& id_or_name);
  std::vector<Erasure> erasures();
  bool save(const NewSession&);
  /// Adds a sign-off made elsewhere, or what is new of it; says whether anything was.
  bool take(const SignOff&);
  bool take(const Note&);
  void revoke(const SignOff&);  ///< writes the fields of the revocation
  /// The hash of a record's first link, or empty.
  std::string content_here(const Id& record);
};

inline std::int64_t count(Moment t) { return t.time_since_epoch().count(); }
inline Moment moment(long long ms) { return Moment{std::chrono::milliseconds{ms}}; }

}  // namespace beforehand::records
