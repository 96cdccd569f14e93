// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <soci/soci.h>

#include <string>

#include "records/store.hpp"

// The one place that knows there are two kinds of database. Only the store's own .cpp files include
// it.

namespace beforehand::records {

/// A connection. Throws StoreError; SOCI's own errors become one by translate().
class Database {
 public:
  /// A file, made when it is new (its folder too), sqlite://FILE, or postgresql://...
  explicit Database(const std::string& address,
                    std::chrono::milliseconds patience = std::chrono::seconds{10});

  bool server() const { return server_; }
  bool fresh() const { return fresh_; }  ///< the file was not there, or is empty
  const std::string& address() const { return address_; }
  soci::session& sql() { return sql_; }

 private:
  void open_file();
  void open_server();

  std::string address_;
  std::chrono::milliseconds patience_;
  bool server_ = false, fresh_ = false;
  soci::session sql_;
};

/// Undone unless committed. Writers of one store wait for each other, so that the chain has one
/// order.
class Transaction {
 public:
  enum class Kind { read, write, migrate };
  Transaction(Database&, Kind);
  ~Transaction();
  Transaction(const Transaction&) = delete;
  Transaction& operator=(const Transaction&) = delete;
  void commit();

 private:
  Database& db_;
  bool open_ = false;
};

/// "sqlite://PATH" is the file PATH; other addresses are themselves. Throws `refused` for what
/// looks like the address of a kind of store that there is not: as a file it would be a surprise.
std::string plain(const std::string& address);

/// The address without its password, for messages.
std::string shown(const std::string& address);

/// The error as the person should read it.
StoreError translate(const soci::soci_error&, const std::string& address);

/// Runs `work` in a transaction and gives what it gives.
template <class F>
auto within(Database& db, Transaction::Kind kind, F work) {
  try {
    Transaction t(db, kind);
    if constexpr (std::is_void_v<decltype(work())>) {
      work();
      t.commit();
    } else {
      auto result = work();
      t.commit();
      return result;
    }
  } catch (const soci::soci_error& e) {
    throw translate(e, db.address());
  }
}

}  // namespace beforehand::records
