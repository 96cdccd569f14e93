// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// Statements sent to a store of learning records: a server on this machine takes them.
#include <arpa/inet.h>
#include <gtest/gtest.h>
#include <sys/socket.h>
#include <unistd.h>

#include <cstdlib>
#include <filesystem>
#include <nlohmann/json.hpp>
#include <thread>
#include <vector>

#include "process.hpp"

namespace beforehand {
namespace {

using nlohmann::json;
namespace fs = std::filesystem;

// Answers every request with one status and keeps what was asked.
class LearningStore {
 public:
  explicit LearningStore(std::string status) : status_(std::move(status)) {
    listener_ = socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0);
    sockaddr_in at{};
    at.sin_family = AF_INET;
    at.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
    socklen_t size = sizeof at;
    bind(listener_, reinterpret_cast<sockaddr*>(&at), size);
    listen(listener_, 4);
    getsockname(listener_, reinterpret_cast<sockaddr*>(&at), &size);
    address = "http://127.0.0.1:" + std::to_string(ntohs(at.sin_port)) + "/xapi/";
    thread_ = std::thread([this] { serve(); });
  }
  ~LearningStore() {
    shutdown(listener_, SHUT_RDWR);
    thread_.join();
    close(listener_);
  }
  LearningStore(const LearningStore&) = delete;
  LearningStore& operator=(const LearningStore&) = delete;

  std::string address;
  std::vector<std::string> heads, bodies;

 private:
  void serve() {
    for (int fd; (fd = accept4(listener_, nullptr, nullptr, SOCK_CLOEXEC)) >= 0; close(fd))
      while (answer(fd)) {
      }
  }

  bool answer(int fd) {
    std::string text;
    const auto more = [&] {
      char buffer[65536];
      const auto n = read(fd, buffer, sizeof buffer);
      if (n > 0) text.append(buffer, static_cast<std::size_t>(n));
      return n > 0;
    };
    while (text.find("\r\n\r\n") == std::string::npos)
      if (!more()) return false;
    const auto end = text.find("\r\n\r\n") + 4, at = text.find("Content-Length: ");
    const auto length = std::stoul(text.substr(at + 16));
    while (text.size() < end + length)
      if (!more()) return false;
    heads.push_back(text.substr(0, end));
    bodies.push_back(text.substr(end, length));
    const auto reply = "HTTP/1.1 " + status_ + "\r\nContent-Length: 2\r\n\r\n[]";
    return write(fd, reply.data(), reply.size()) == static_cast<ssize_t>(reply.size());
  }

  std::string status_;
  int listener_ = -1;
  std::thread thread_;
};

class XapiSending : public testing::Test {
 protected:
  XapiSending() {
    std::string name = (fs::temp_directory_path() / "beforehand-export-XXXXXX").string();
    folder_ = ::mkdtemp(name.data());
    setenv("XDG_DATA_HOME", folder_.c_str(), 1);
    setenv("BEFOREHAND_STORE", (folder_ / "records.db").c_str(), 1);
    setenv("BEFOREHAND_XAPI_LOGIN", "name:secret", 1);
    run({"records", "trainee", "add", "Ana Petrov"});
    const std::string sealant = PROJECT_DIR "/scenarios/fissure-sealant/scenario.yaml";
    for (const auto* seed : {"1", "2"})
      run({"drill", sealant, "--assistant", "late:2", "--seed", seed, "--save", "--trainee",
           "Ana Petrov"});
  }
  ~XapiSending() override {
    for (const auto* name : {"XDG_DATA_HOME", "BEFOREHAND_STORE", "BEFOREHAND_XAPI_LOGIN"})
      unsetenv(name);
    std::error_code failed;
    fs::remove_all(folder_, failed);
  }
  static Outcome send(const std::string& to) {
    return run({"export", "--to", "xapi", "--trainee", "Ana Petrov", "--send", to});
  }
  fs::path folder_;
};

// xAPI 1.0.3, Communication 2.1.2 (POST Statements) and 3.3 (the version header): from memory.
TEST_F(XapiSending, PostsTheStatementsThatAFileWouldHold) {
  LearningStore lrs("200 OK");
  const auto done = send(lrs.address);
  EXPECT_EQ(done.code, 0) << done.err;
  ASSERT_EQ(lrs.bodies.size(), 1u);
  EXPECT_EQ(lrs.heads[0].rfind("POST /xapi/statements HTTP/1.1\r\n", 0), 0u);
  EXPECT_NE(lrs.heads[0].find("X-Experience-API-Version: 1.0.3\r\n"), std::string::npos);
  EXPECT_NE(lrs.heads[0].find("Authorization: Basic bmFtZTpzZWNyZXQ=\r\n"), std::string::npos);
  const auto file = run({"export", "--to", "xapi", "--trainee", "Ana Petrov"});
  EXPECT_EQ(json::parse(lrs.bodies[0]), json::parse(file.out));
  EXPECT_EQ(json::parse(file.out).size(), 2u);
}

TEST_F(XapiSending, SaysWhenItWasNotTaken) {
  LearningStore lrs("401 Unauthorized");
  const auto done = send(lrs.address);
  EXPECT_EQ(done.code, 3);
  EXPECT_NE(done.err.find("took 0 of 2 statements: it said 401"), std::string::npos) << done.err;
  EXPECT_EQ(send("http://127.0.0.1:9/").code, 3) << "nobody listens there";
}

TEST_F(XapiSending, KeepsRecordsOffOpenLinesAndOffAnythingNotAskedFor) {
  for (const auto* to : {"http://example.org/xapi", "ftp://127.0.0.1/", "file:///x", "what?"})
    EXPECT_EQ(send(to).code, 2) << to;
  LearningStore lrs("200 OK");
  EXPECT_EQ(run({"export", "--to", "csv", "--trainee", "Ana Petrov", "--send", lrs.address}).code,
            2);
  EXPECT_EQ(run({"export", "--to", "xapi", "--trainee", "Ana Petrov"}).code, 0);
  EXPECT_TRUE(lrs.bodies.empty());
}

}  // namespace
}  // namespace beforehand
