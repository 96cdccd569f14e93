// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "records/database.hpp"

#include <fmt/format.h>
#include <soci/postgresql/soci-postgresql.h>
#include <soci/sqlite3/soci-sqlite3.h>

#include <unistd.h>

#include <algorithm>
#include <cctype>
#include <filesystem>

namespace beforehand::records {
namespace {

namespace fs = std::filesystem;
using Kind = StoreError::Kind;

bool is_server(const std::string& address) {
  return address.starts_with("postgresql://") || address.starts_with("postgres://");
}

StoreError file_error(int code, const std::string& detail, const std::string& address) {
  switch (code & 0xff) {
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
      return {Kind::busy,
              fmt::format("the store {} is locked by another program or another machine. Nothing "
                          "was changed; close the other one, or try again in a minute",
                          address)};
    case SQLITE_FULL:
      return {Kind::full,
              fmt::format("there is no room left on the disk of the store {}. What was saved "
                          "before is safe; make room, then do this again",
                          address)};
    case SQLITE_IOERR:
      return {Kind::full,
              fmt::format("the store {} could not be read or written: the disk is full or failing. "
                          "What was saved before is safe; make room, then do this again",
                          address)};
    case SQLITE_READONLY:
    case SQLITE_PERM:
      return {Kind::read_only,
              fmt::format("the store {} may not be written here. Nothing was changed; give this "
                          "user the right to write the file and its folder",
                          address)};
    case SQLITE_CORRUPT:
    case SQLITE_NOTADB:
      return {Kind::damaged,
              fmt::format("the store {} is damaged, or is no store ({}). Nothing was overwritten; "
                          "move the file away and put the newest backup in its place",
                          address, detail)};
    default:
      return {Kind::unreachable,
              fmt::format("the store {} cannot be used: {}. What was saved before is untouched",
                          address, detail)};
  }
}

StoreError server_error(const soci::soci_error& e, const std::string& address) {
  const auto* own = dynamic_cast<const soci::postgresql_soci_error*>(&e);
  const std::string state = own ? own->sqlstate() : "";
  const auto at = shown(address);
  if (state == "55P03" || state == "40P01" || state == "57014")
    return {Kind::busy, fmt::format("the store {} is busy with other writers. Nothing was changed; "
                                    "try again in a minute",
                                    at)};
  if (state == "53100")
    return {Kind::full, fmt::format("the server of the store {} has no room left. What was saved "
                                    "before is safe; make room there, then do this again",
                                    at)};
  if (state == "42501" || state == "25006")
    return {Kind::read_only, fmt::format("the store {} may not be written with this login. Nothing "
                                         "was changed; ask whoever runs the server",
                                         at)};
  return {Kind::unreachable,
          fmt::format("the store {} cannot be reached or used: {}. What was saved before is safe "
                      "there; drills finished now wait on this machine",
                      at, e.get_error_message())};
}

}  // namespace

namespace {

// SQLite itself says no more than "unable to open".
void require_writable(const fs::path& file, bool fresh) {
  const auto folder = file.has_parent_path() ? file.parent_path() : fs::path(".");
  const bool ours =
      ::access(folder.c_str(), W_OK) == 0 && (fresh || ::access(file.c_str(), R_OK | W_OK) == 0);
  if (!ours) throw file_error(SQLITE_READONLY, "", file.string());
}

}  // namespace

std::string plain(const std::string& address) {
  constexpr std::string_view file_scheme = "sqlite://";
  if (address.starts_with(file_scheme) && address.size() > file_scheme.size())
    return address.substr(file_scheme.size());
  const auto colon = address.find(':');
  const auto in_a_scheme = [](unsigned char c) {
    return std::isalnum(c) != 0 || c == '+' || c == '.' || c == '-';  // RFC 3986, section 3.1
  };
  const bool scheme =
      colon != std::string::npos && colon > 1 &&
      std::isalpha(static_cast<unsigned char>(address[0])) != 0 &&
      std::all_of(address.begin(), address.begin() + static_cast<long>(colon), in_a_scheme);
  if (!scheme || is_server(address)) return address;
  throw StoreError(Kind::refused,
                   fmt::format("no store is made at {}: {}: is none of the addresses there are. "
                               "Name a file (with ./ in front when its name has a colon), "
                               "sqlite://FILE or postgresql://...",
                               address, address.substr(0, colon)));
}

std::string shown(const std::string& address) {
  const auto begin = address.find("://");
  const auto at = address.find('@');
  if (!is_server(address) || at == std::string::npos) return address;
  const auto colon = address.find(':', begin + 3);
  if (colon == std::string::npos || colon > at) return address;
  return address.substr(0, colon) + ":***" + address.substr(at);
}

StoreError translate(const soci::soci_error& e, const std::string& address) {
  if (is_server(address)) return server_error(e, address);
  const auto* own = dynamic_cast<const soci::sqlite3_soci_error*>(&e);
  return file_error(own ? own->result() : 0, e.get_error_message(), address);
}

Database::Database(const std::string& address, std::chrono::milliseconds patience)
    : address_(plain(address)), patience_(patience), server_(is_server(address_)) {
  try {
    server_ ? open_server() : open_file();
  } catch (const soci::soci_error& e) {
    throw translate(e, address_);
  }
}

void Database::open_file() {
  // SOCI takes these characters for its own, and offers no way to quote them.
  if (address_.find_first_of("=\"") != std::string::npos)
    throw StoreError(Kind::refused,
                     fmt::format("the store's path {} has a '=' or '\"' in it, which cannot be "
                                 "used; choose another",
                                 address_));
  const fs::path file(address_);
  std::error_code failed;
  if (file.has_parent_path()) fs::create_directories(file.parent_path(), failed);
  if (fs::is_directory(file, failed))
    throw StoreError(Kind::refused, fmt::format("the store {} is a folder; name a file", address_));
  fresh_ = !fs::exists(file, failed) || fs::file_size(file, failed) == 0;
  require_writable(file, fresh_);
  sql_.open(soci::sqlite3, address_);
  sql_ << fmt::format("PRAGMA busy_timeout = {}", patience_.count());
}

void Database::open_server() {
  auto address = address_;
  if (address.find("connect_timeout=") == std::string::npos)
    address += address.find('?') == std::string::npos ? "?connect_timeout=5" : "&connect_timeout=5";
  sql_.open(soci::postgresql, address);
  sql_ << fmt::format("SET lock_timeout = '{}ms'", patience_.count());
  sql_ << "SET client_min_messages = warning";
}

Transaction::Transaction(Database& db, Kind kind) : db_(db) {
  if (db.server()) {
    db.sql() << (kind == Kind::read ? "BEGIN ISOLATION LEVEL REPEATABLE READ READ ONLY" : "BEGIN");
  } else {
    db.sql() << (kind == Kind::read ? "BEGIN" : "BEGIN IMMEDIATE");
  }
  open_ = true;
  try {
    if (db.server() && kind == Kind::write) db.sql() << "LOCK TABLE head IN EXCLUSIVE MODE";
  } catch (...) {
    db.sql() << "ROLLBACK";
    throw;
  }
}

Transaction::~Transaction() {
  if (!open_) return;
  try {
    db_.sql() << "ROLLBACK";
  } catch (const soci::soci_error&) {
    // The connection is gone, and the transaction with it.
  }
}

void Transaction::commit() {
  db_.sql() << "COMMIT";
  open_ = false;
}

}  // namespace beforehand::records
