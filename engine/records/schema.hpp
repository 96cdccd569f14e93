// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <string>
#include <vector>

#include "records/database.hpp"

namespace beforehand::records {

/// What brings a store from version `to` - 1 to version `to`.
struct Migration {
  int to = 1;
  std::vector<std::string> statements;  ///< "@clustered" stands for SQLite's WITHOUT ROWID
};
const std::vector<Migration>& migrations();

/// Checks that the database is sound and ours, and brings it up to date, each version in one
/// transaction after a backup: a file beside the store, or a schema beside the tables on a server.
/// `store_id` names a new store. Throws StoreError; a database that is newer, damaged or of another
/// program is not touched.
void bring_up_to_date(Database&, const std::vector<Migration>&, const Id& store_id);

/// 0 for a database without our tables.
int schema_version(Database&);

/// A copy of the whole file, which must not exist yet.
void copy_file_store(Database&, const std::string& file);

}  // namespace beforehand::records
