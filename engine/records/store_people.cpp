// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include <fmt/format.h>

#include "base/text.hpp"
#include "records/names.hpp"
#include "records/passcode.hpp"
#include "records/store_state.hpp"

namespace beforehand::records {

using soci::into;
using soci::use;

std::string_view word(Person::Part part) {
  return part == Person::Part::trainee ? "trainee" : "trainer";
}

std::vector<std::pair<Person, std::string>> Store::State::passcodes(Person::Part part) {
  std::vector<std::pair<Person, std::string>> list;
  Person p;
  p.part = part;
  const std::string part_word(word(part));
  std::string hash;
  long long added = 0;
  soci::statement st = (sql().prepare << "SELECT id, name, added, passcode FROM person WHERE part "
                                         "= :p ORDER BY folded, id",
                        use(part_word), into(p.id), into(p.name), into(added), into(hash));
  st.execute();
  while (st.fetch()) {
    p.added = moment(added);
    p.locked = !hash.empty();
    list.emplace_back(p, hash);
  }
  return list;
}

std::vector<std::pair<Person, std::string>> Store::passcodes() const {
  return state_->read([&] {
    auto all = state_->passcodes(Person::Part::trainer);
    for (auto& p : state_->passcodes(Person::Part::trainee)) all.push_back(std::move(p));
    return all;
  });
}

std::vector<Person> Store::State::people(Person::Part part) {
  std::vector<Person> list;
  for (auto& [person, hash] : passcodes(part)) list.push_back(std::move(person));
  return list;
}

std::vector<Person> Store::people(Person::Part part) const {
  return state_->read([&] { return state_->people(part); });
}

Person Store::add_person(Person::Part part, const std::string& name, const std::string& passcode) {
  Person p;
  p.part = part;
  try {
    p.name = checked_name(name);
  } catch (const std::runtime_error& e) {
    State::refuse(e.what());
  }
  const std::string hash = passcode.empty() ? "" : hash_passcode(passcode);
  const std::string fold = folded(p.name), part_word(word(part));
  p.locked = !passcode.empty();
  p.id = state_->new_id();
  p.added = now();
  const long long added = count(p.added);
  state_->write([&] {
    int same = 0;
    state_->sql() << "SELECT count(*) FROM person WHERE part = :p AND folded = :f", use(part_word),
        use(fold), into(same);
    if (same > 0)
      State::refuse(fmt::format("there is a {} called {} already; add something to the name",
                                part_word, p.name));
    state_->sql() << "INSERT INTO person (id, part, name, folded, passcode, added) VALUES (:i, :p, "
                     ":n, :f, :c, :a)",
        use(p.id), use(part_word), use(p.name), use(fold), use(hash), use(added);
  });
  return p;
}

std::vector<Person> Store::State::people_like(Person::Part part, const std::string& id_or_name) {
  std::vector<Person> found;
  Person p;
  p.part = part;
  const std::string part_word(word(part)), fold = folded(id_or_name);
  std::string hash;
  long long added = 0;
  soci::statement st =
      (sql().prepare << "SELECT id, name, added, passcode FROM person WHERE part = :p AND (id = :i "
                        "OR folded = :f) ORDER BY id",
       use(part_word), use(id_or_name), use(fold), into(p.id), into(p.name), into(added),
       into(hash));
  st.execute();
  while (st.fetch()) {
    p.added = moment(added);
    p.locked = !hash.empty();
    found.push_back(p);
  }
  return found;
}

Person Store::person(Person::Part part, const std::string& id_or_name) const {
  const auto found = state_->read([&] { return state_->people_like(part, id_or_name); });
  std::vector<std::string> ids, names;
  for (const auto& p : found) {
    if (p.id == id_or_name) return p;
    ids.push_back(p.id);
  }
  if (found.size() > 1)
    State::refuse(fmt::format("there are several {}s called {}; give the id: {}", word(part),
                              id_or_name, list_text(ids)));
  if (found.size() == 1) return found.front();
  for (const auto& p : people(part)) names.push_back(p.name);
  const auto close = nearest(id_or_name, names);
  State::refuse(fmt::format("there is no {} called {}{}", word(part), id_or_name,
                            close ? "; did you mean " + *close + "?" : ""));
}

void Store::State::require_person(const Id& id, Person::Part part) {
  const std::string part_word(word(part));
  int known = 0;
  sql() << "SELECT count(*) FROM person WHERE id = :i AND part = :p", use(id), use(part_word),
      into(known);
  if (known == 0) refuse(fmt::format("the store has no {} with the id {}", part_word, id));
}

void Store::set_passcode(const Id& id, const std::string& passcode) {
  const auto hash = hash_passcode(passcode);
  state_->write([&] {
    state_->sql() << "UPDATE person SET passcode = :c, wrong = 0 WHERE id = :i", use(hash), use(id);
  });
}

Store::PasscodeAnswer Store::try_passcode(const Id& id, const std::string& passcode) {
  // Counted as wrong before it is looked at, so that a try that is broken off costs as much.
  std::string hash;
  PasscodeAnswer answer;
  const long long at = count(now());
  state_->write([&] {
    int wrong = 0;
    long long tried = 0;
    state_->sql() << "SELECT passcode, wrong, tried FROM person WHERE id = :i", use(id), into(hash),
        into(wrong), into(tried);
    const auto left = moment(tried) + wait_after(wrong) - moment(at);
    const bool jumped_back = at < tried;
    if (wait_after(wrong).count() > 0 && left > left.zero()) {
      answer.wait = jumped_back ? wait_after(wrong) : std::chrono::ceil<std::chrono::seconds>(left);
      return;
    }
    state_->sql() << "UPDATE person SET wrong = wrong + 1, tried = :t WHERE id = :i", use(at),
        use(id);
  });
  if (answer.wait.count() > 0) return answer;
  answer.right = is_passcode(hash, passcode);
  if (answer.right)
    state_->write([&] { state_->sql() << "UPDATE person SET wrong = 0 WHERE id = :i", use(id); });
  return answer;
}

}  // namespace beforehand::records
