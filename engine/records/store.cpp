// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "records/store.hpp"

#include <fmt/format.h>
#include <sodium.h>

#include <cstdlib>

#include "records/chain.hpp"
#include "records/schema.hpp"
#include "records/store_state.hpp"

namespace beforehand::records {

using soci::into;
using soci::use;

Store::Store(std::unique_ptr<State> state) : state_(std::move(state)) {}
Store::Store(Store&&) noexcept = default;
Store& Store::operator=(Store&&) noexcept = default;
Store::~Store() = default;

Store Store::open(const std::string& address, Clock now, std::chrono::milliseconds patience) {
  if (sodium_init() < 0) throw std::runtime_error("libsodium cannot find a source of randomness");
  auto state = std::make_unique<State>(address, std::move(now), patience);
  bring_up_to_date(state->db, migrations(), state->new_id());
  return Store(std::move(state));
}

const std::string& Store::address() const { return state_->db.address(); }
Moment Store::now() const { return state_->now(); }

void Store::State::refuse(const std::string& message) {
  throw StoreError(StoreError::Kind::refused, message);
}

void Store::State::chain(const std::string& kind, const Id& record, const std::string& content) {
  Link link;
  std::string previous;
  long long position = 0;
  sql() << "SELECT position, hash FROM head", into(position), into(previous);
  link.position = ++position;
  link.kind = kind;
  link.record = record;
  link.content = content;
  link.hash = hash_after(previous, link);
  sql() << "INSERT INTO link (position, kind, record, content, hash) VALUES (:p, :k, :r, :c, :h)",
      use(position), use(link.kind), use(link.record), use(link.content), use(link.hash);
  sql() << "UPDATE head SET position = :p, hash = :h", use(position), use(link.hash);
}

std::vector<Link> Store::chain(std::int64_t after, int limit) const {
  return state_->read([&] {
    std::vector<Link> links;
    Link l;
    long long position = 0;
    const long long beyond = after;
    int erased = 0;
    soci::statement st =
        (state_->sql().prepare << "SELECT position, kind, record, content, hash, erased FROM link "
                                  "WHERE position > :a ORDER BY position LIMIT :l",
         use(beyond), use(limit), into(position), into(l.kind), into(l.record), into(l.content),
         into(l.hash), into(erased));
    st.execute();
    while (st.fetch()) {
      l.position = position;
      l.erased = erased != 0;
      links.push_back(l);
    }
    return links;
  });
}

Link Store::head() const {
  return state_->read([&] {
    Link l;
    long long position = 0;
    state_->sql() << "SELECT position, hash FROM head", into(position), into(l.hash);
    l.position = position;
    return l;
  });
}

void Store::backup(const std::string& file) const {
  if (state_->db.server())
    State::refuse("a server's store is backed up with the server's own tools (pg_dump)");
  try {
    copy_file_store(state_->db, file);
  } catch (const soci::soci_error& e) {
    throw StoreError(StoreError::Kind::unreachable,
                     fmt::format("no backup was made in {}: {}. The store itself is untouched; "
                                 "name a new file in a folder with room",
                                 file, e.get_error_message()));
  }
}

std::string store_address(const std::string& option, const std::string& data_folder) {
  if (!option.empty()) return plain(option);
  const char* set = std::getenv("BEFOREHAND_STORE");
  if (set != nullptr && *set != '\0') return plain(set);
  return data_folder + "/records.db";
}

}  // namespace beforehand::records
