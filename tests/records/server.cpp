// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "server.hpp"

#include <arpa/inet.h>
#include <sys/socket.h>
#include <unistd.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <vector>

#include "records/database.hpp"

namespace beforehand::test {
namespace {

namespace fs = std::filesystem;

// The newest version's folder of programs, as Debian and Ubuntu lay them out.
std::string newest_tools() {
  std::error_code failed;
  std::vector<std::pair<int, std::string>> found;
  for (const auto& entry : fs::directory_iterator("/usr/lib/postgresql", failed))
    if (fs::exists(entry.path() / "bin/initdb", failed))
      found.emplace_back(std::atoi(entry.path().filename().c_str()), entry.path() / "bin");
  return found.empty() ? "" : std::max_element(found.begin(), found.end())->second;
}

int free_port() {
  const int fd = socket(AF_INET, SOCK_STREAM, 0);
  sockaddr_in at{};
  at.sin_family = AF_INET;
  at.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
  socklen_t size = sizeof at;
  bind(fd, reinterpret_cast<sockaddr*>(&at), size);
  getsockname(fd, reinterpret_cast<sockaddr*>(&at), &size);
  close(fd);
  return ntohs(at.sin_port);
}

}  // namespace

Server& Server::own() {
  static Server server;
  return server;
}

// The server refuses to run as root; there it runs as the user its package made.
bool Server::run(const std::string& command) const {
  const std::string as = geteuid() == 0 ? "runuser -u postgres -- " : "";
  const auto line = "cd / && " + as + tools_ + "/" + command + " >>" + folder_ + "/log 2>&1";
  return std::system(line.c_str()) == 0;
}

Server::Server() : tools_(newest_tools()) {
  if (tools_.empty()) {
    why_not_ = "no PostgreSQL server is installed (package postgresql): nothing of it was tested";
    return;
  }
  folder_ =
      (fs::temp_directory_path() / ("beforehand-server-" + std::to_string(getpid()))).string();
  fs::create_directories(folder_);
  fs::permissions(folder_, fs::perms::all);
  port_ = free_port();
  const auto data = folder_ + "/data";
  const auto options = "-p " + std::to_string(port_) +
                       " -c listen_addresses=127.0.0.1 -c unix_socket_directories= -c fsync=off";
  started_ = run("initdb -D " + data + " -A trust -U beforehand -E UTF8 --locale=C --no-sync") &&
             run("pg_ctl -D " + data + " -w -l " + data + "/log -o \"" + options + "\" start");
  if (!started_) why_not_ = "the PostgreSQL server did not start; see " + folder_ + "/log";
}

Server::~Server() { stop(); }

void Server::stop() {
  if (!started_) return;
  run("pg_ctl -D " + folder_ + "/data -m immediate stop");
  std::error_code ignored;
  fs::remove_all(folder_, ignored);
  started_ = false;
}

std::string Server::new_database() {
  const auto server = "postgresql://beforehand@127.0.0.1:" + std::to_string(port_) + "/";
  const auto name = "store" + std::to_string(++made_);
  records::Database db(server + "postgres");
  db.sql() << "CREATE DATABASE " + name;
  return server + name;
}

}  // namespace beforehand::test
