// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <string>

namespace beforehand::test {

/// A PostgreSQL server of the tests' own on loopback, started at the first call and stopped at the
/// end of the program. Not there where none is installed.
class Server {
 public:
  static Server& own();
  ~Server();
  Server(const Server&) = delete;
  Server& operator=(const Server&) = delete;

  bool there() const { return started_; }
  const std::string& why_not() const { return why_not_; }
  /// A new empty database.
  std::string new_database();
  void stop();

 private:
  Server();
  bool run(const std::string& command) const;

  std::string tools_, folder_, why_not_;
  int port_ = 0, made_ = 0;
  bool started_ = false;
};

}  // namespace beforehand::test
