// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include <fmt/format.h>

#include <set>

#include "records/chain.hpp"
#include "records/names.hpp"
#include "records/store_state.hpp"

// Erasing one person, and putting two stores together.

namespace beforehand::records {
namespace {

using soci::into;
using soci::use;

constexpr int batch = 200;  // links looked at in one transaction

// The positions of a trainee's links, and those links emptied.
std::string empty_links(soci::session& sql, const Id& trainee) {
  const std::string theirs =
      "record IN (SELECT id FROM session WHERE trainee = :t UNION ALL SELECT id FROM sign_off "
      "WHERE "
      "trainee = :u)";
  std::string positions;
  long long position = 0;
  soci::statement st =
      (sql.prepare << "SELECT position FROM link WHERE " + theirs + " ORDER BY position",
       use(trainee), use(trainee), into(position));
  st.execute();
  while (st.fetch()) positions += (positions.empty() ? "" : " ") + std::to_string(position);
  sql << "UPDATE link SET erased = 1 WHERE " + theirs, use(trainee), use(trainee);
  return positions;
}

}  // namespace

void Store::erase(const Id& trainee) {
  const long long at = count(now());
  state_->write([&] {
    auto& sql = state_->sql();
    state_->require_person(trainee, Person::Part::trainee);
    const Erasure e{trainee, moment(at), empty_links(sql, trainee)};
    sql << "DELETE FROM evidence WHERE session IN (SELECT id FROM session WHERE trainee = :t)",
        use(trainee);
    for (const auto* table : {"note", "sign_off", "summary", "history", "session"})
      sql << fmt::format("DELETE FROM {} WHERE trainee = :t", table), use(trainee);
    sql << "DELETE FROM person WHERE id = :t", use(trainee);
    sql << "INSERT INTO erased (person, at, positions) VALUES (:t, :a, :p)", use(trainee), use(at),
        use(e.positions);
    state_->chain("erasure", trainee, content_of(e));
  });
  // What was deleted is overwritten in the file; it must not stay in the log beside it either.
  if (!state_->db.server()) try {
      state_->sql() << "PRAGMA wal_checkpoint(TRUNCATE)";
    } catch (const soci::soci_error& e) {
      throw translate(e, address());
    }
}

std::vector<Erasure> Store::State::erasures() {
  std::vector<Erasure> list;
  Erasure e;
  long long at = 0;
  soci::statement st = (sql().prepare << "SELECT person, at, positions FROM erased ORDER BY person",
                        into(e.person), into(at), into(e.positions));
  st.execute();
  while (st.fetch()) {
    e.at = moment(at);
    list.push_back(e);
  }
  return list;
}

std::vector<Erasure> Store::erasures() const {
  return state_->read([&] { return state_->erasures(); });
}

std::string Store::State::content_here(const Id& record) {
  std::string content;
  sql() << "SELECT content FROM link WHERE record = :r ORDER BY position LIMIT 1", use(record),
      into(content);
  return content;
}

// Puts one store's records into another, piece by piece; each piece can be done again.
class Store::Merge {
 public:
  Merge(Store& here, const Store& there) : here_(*here.state_), there_(there) {}

  MergeResult run() {
    people();
    for (std::int64_t after = 0;;) {
      const auto links = there_.chain(after, batch);
      if (links.empty()) break;
      sessions(links);
      after = links.back().position;
    }
    words();
    return result_;
  }

 private:
  void people() {
    const auto passcodes = there_.passcodes();
    here_.write([&] {
      for (const auto& e : here_.erasures()) gone_.insert(e.person);
      for (const auto& p : passcodes) {
        if (!gone_.contains(p.first.id)) result_.people += person(p.first, p.second);
      }
      for (const auto& e : there_.erasures()) {
        for (const auto& p : here_.people(Person::Part::trainee))
          if (p.id == e.person) result_.erased_there.push_back(p);
      }
    });
  }

  bool person(const Person& p, const std::string& hash) {
    int known = 0;
    here_.sql() << "SELECT count(*) FROM person WHERE id = :i", use(p.id), into(known);
    if (known > 0) return false;
    const std::string part(word(p.part)), fold = folded(p.name);
    const std::string kept = p.part == Person::Part::trainer ? "" : hash;
    const long long added = count(p.added);
    here_.sql() << "INSERT INTO person (id, part, name, folded, passcode, added) VALUES (:i, :p, "
                   ":n, :f, :c, :a)",
        use(p.id), use(part), use(p.name), use(fold), use(kept), use(added);
    return true;
  }

  void sessions(const std::vector<Link>& links) {
    std::vector<NewSession> found;
    for (const auto& l : links) {
      if (l.kind != "session" || l.erased) continue;
      const auto ours = here_.read([&] { return here_.content_here(l.record); });
      if (!ours.empty()) {
        if (ours != l.content) result_.differing.push_back(l.record);
      } else if (auto s = sound(l)) {
        if (!gone_.contains(s->record.trainee)) found.push_back(std::move(*s));
      } else {
        result_.damaged.push_back(l.record);
      }
    }
    here_.write([&] {
      for (const auto& n : found) result_.sessions += here_.save(n);
    });
  }

  // The session of a link there, if it is what the link says.
  std::optional<NewSession> sound(const Link& l) const {
    try {
      auto record = there_.session(l.record);
      if (!record) return std::nullopt;
      NewSession n{*record, there_.evidence(l.record), there_.scenario(record->scenario_hash)};
      const bool holds = content_of(n.record, n.evidence) == l.content &&
                         digest(n.scenario.text) == n.scenario.hash;
      return holds ? std::optional(std::move(n)) : std::nullopt;
    } catch (const StoreError& e) {
      if (e.kind == StoreError::Kind::damaged || e.kind == StoreError::Kind::refused)
        return std::nullopt;
      throw;
    }
  }

  void words() {
    const auto sign_offs = there_.sign_offs({});
    const auto notes = there_.notes({});
    here_.write([&] {
      for (const auto& s : sign_offs)
        if (!gone_.contains(s.trainee)) result_.sign_offs += here_.take(s);
      for (const auto& n : notes)
        if (!gone_.contains(n.trainee)) result_.notes += here_.take(n);
    });
  }

  State& here_;
  const Store& there_;
  std::set<Id> gone_;
  MergeResult result_;
};

MergeResult Store::merge(const Store& other) { return Merge(*this, other).run(); }

}  // namespace beforehand::records
