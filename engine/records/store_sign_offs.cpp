// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include <fmt/format.h>

#include "records/chain.hpp"
#include "records/store_state.hpp"

namespace beforehand::records {
namespace {

using soci::into;
using soci::use;

std::vector<SignOff> select(soci::session& sql, const std::string& where, const std::string& key) {
  std::vector<SignOff> list;
  SignOff s;
  long long at = 0, revoked_at = 0;
  auto prepared =
      (sql.prepare << "SELECT o.id, o.trainee, o.trainer, p.name, o.scenario, o.scenario_hash, "
                      "o.at, o.criteria, o.note, o.revoked_at, o.revoked_by, o.revoked_why FROM "
                      "sign_off o JOIN person p ON p.id = o.trainer " +
                          where + " ORDER BY o.at, o.id",
       into(s.id), into(s.trainee), into(s.trainer), into(s.trainer_name), into(s.scenario),
       into(s.scenario_hash), into(at), into(s.criteria), into(s.note), into(revoked_at),
       into(s.revoked_by), into(s.revoked_why));
  if (!key.empty()) prepared, use(key);
  soci::statement st(prepared);
  st.execute();
  while (st.fetch()) {
    s.at = moment(at);
    s.revoked_at = moment(revoked_at);
    list.push_back(s);
  }
  return list;
}

void insert(soci::session& sql, const Note& n) {
  const long long at = count(n.at);
  sql << "INSERT INTO note (id, trainee, trainer, session, at, text) VALUES (:i, :t, :r, :s, :a, "
         ":x)",
      use(n.id), use(n.trainee), use(n.trainer), use(n.session), use(at), use(n.text);
}

void insert(soci::session& sql, const SignOff& s) {
  const long long at = count(s.at), revoked_at = count(s.revoked_at);
  sql << "INSERT INTO sign_off (id, trainee, trainer, scenario, scenario_hash, at, criteria, note, "
         "revoked_at, revoked_by, revoked_why) VALUES (:i, :t, :r, :c, :h, :a, :k, :n, :v, :b, :w)",
      use(s.id), use(s.trainee), use(s.trainer), use(s.scenario), use(s.scenario_hash), use(at),
      use(s.criteria), use(s.note), use(revoked_at), use(s.revoked_by), use(s.revoked_why);
}

}  // namespace

SignOff Store::sign(SignOff s) {
  s.id = state_->new_id();
  s.at = now();
  s.revoked_at = {};
  state_->write([&] {
    state_->require_person(s.trainee, Person::Part::trainee);
    state_->require_person(s.trainer, Person::Part::trainer);
    insert(state_->sql(), s);
    state_->chain("sign-off", s.id, content_of(s));
    state_->summarise(s.trainee, s.scenario);
  });
  return s;
}

void Store::State::revoke(const SignOff& s) {
  const long long at = count(s.revoked_at);
  sql() << "UPDATE sign_off SET revoked_at = :a, revoked_by = :b, revoked_why = :w WHERE id = :i",
      use(at), use(s.revoked_by), use(s.revoked_why), use(s.id);
  chain("revocation", s.id, revocation_of(s));
  summarise(s.trainee, s.scenario);
}

void Store::revoke(const Id& sign_off, const Id& trainer, const std::string& why) {
  const auto at = now();
  state_->write([&] {
    state_->require_person(trainer, Person::Part::trainer);
    auto found = select(state_->sql(), "WHERE o.id = :i", sign_off);
    if (found.empty()) State::refuse("the store has no sign-off with the id " + sign_off);
    auto& s = found.front();
    if (!s.stands()) State::refuse("this sign-off was revoked before");
    s.revoked_at = at;
    s.revoked_by = trainer;
    s.revoked_why = why;
    state_->revoke(s);
  });
}

bool Store::State::take(const SignOff& s) {
  const auto found = select(sql(), "WHERE o.id = :i", s.id);
  if (found.empty()) {
    auto as_signed = s;
    as_signed.revoked_at = {};
    as_signed.revoked_by = as_signed.revoked_why = {};
    insert(sql(), as_signed);
    chain("sign-off", s.id, content_of(s));
    summarise(s.trainee, s.scenario);
  }
  const bool revoked = !s.stands() && (found.empty() || found.front().stands());
  if (revoked) revoke(s);
  return found.empty() || revoked;
}

bool Store::State::take(const Note& n) {
  int known = 0;
  sql() << "SELECT count(*) FROM note WHERE id = :i", use(n.id), into(known);
  if (known == 0) insert(sql(), n);
  return known == 0;
}

std::vector<SignOff> Store::sign_offs(const Id& trainee) const {
  return state_->read([&] {
    return select(state_->sql(), trainee.empty() ? "" : "WHERE o.trainee = :t", trainee);
  });
}

Note Store::add_note(Note n) {
  n.id = state_->new_id();
  n.at = now();
  state_->write([&] {
    state_->require_person(n.trainee, Person::Part::trainee);
    state_->require_person(n.trainer, Person::Part::trainer);
    insert(state_->sql(), n);
  });
  return n;
}

std::vector<Note> Store::notes(const Id& trainee) const {
  return state_->read([&] {
    std::vector<Note> list;
    Note n;
    long long at = 0;
    const std::string where = trainee.empty() ? "" : "WHERE trainee = :t ";
    auto prepared =
        (state_->sql().prepare << "SELECT id, trainee, trainer, session, at, text FROM note " +
                                      where + "ORDER BY at, id",
         into(n.id), into(n.trainee), into(n.trainer), into(n.session), into(at), into(n.text));
    if (!trainee.empty()) prepared, use(trainee);
    soci::statement st(prepared);
    st.execute();
    while (st.fetch()) {
      n.at = moment(at);
      list.push_back(n);
    }
    return list;
  });
}

}  // namespace beforehand::records
