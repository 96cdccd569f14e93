// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// Two windows and a command at once on one store: each a process of its own, all with one queue.
#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cstdlib>
#include <filesystem>
#include <nlohmann/json.hpp>
#include <set>

#include "drill/cast.hpp"
#include "drill/recording.hpp"
#include "procedure/reader.hpp"
#include "process.hpp"
#include "records/verify.hpp"
#include "stage/record_desk.hpp"

namespace beforehand {
namespace {

namespace fs = std::filesystem;
using nlohmann::json;
using records::Person;
using records::Store;

const std::string tiny_file = PROJECT_DIR "/tests/scenarios/good/tiny.yaml";

records::Moment wall_clock() {
  return std::chrono::floor<std::chrono::milliseconds>(std::chrono::system_clock::now());
}

// A drill as the window plays it: its recording grows, and it is saved beside the frames.
void play(stage::RecordDesk& desk, const procedure::Procedure& p, const std::string& text,
          std::uint64_t seed) {
  const auto file = desk.begin(text);
  drill::Setup setup;
  setup.seed = seed;
  setup.assistant = "human";
  drill::Run run(p, setup);
  cast(run, drill::habit_from("late:1"));
  run.advance_to(Ms{0});
  drill::RecordingWriter writer(file, p, run.session());
  while (!run.over()) {
    const auto next = run.next_moment();
    next == never ? run.play_out() : run.advance_to(next);
    writer.append(run.session());
  }
  desk.finish();
}

// A window in a process of its own; its exit code is 0 when nothing was wrong with its records.
pid_t window(const std::string& store, const std::string& data, const Person& who, int drills) {
  const pid_t child = fork();
  if (child != 0) return child;
  bool good = true;
  try {
    const auto text = procedure::load_text(tiny_file);
    const auto p = *procedure::read(text).procedure;
    stage::RecordDesk desk(store, data, wall_clock);
    desk.refresh();
    desk.choose(who);
    for (int i = 0; i < drills; ++i) {
      play(desk, p, text, static_cast<std::uint64_t>(i + 1));
      desk.wait();
      const auto delivery = desk.take();
      good = good && desk.problem().empty() && delivery && delivery->problems.empty();
    }
  } catch (const std::exception&) {
    good = false;
  }
  _exit(good ? 0 : 1);
}

class Together : public testing::Test {
 protected:
  Together() {
    std::string name = (fs::temp_directory_path() / "beforehand-together-XXXXXX").string();
    folder_ = ::mkdtemp(name.data());
    store_ = (folder_ / "records.db").string();
    setenv("XDG_DATA_HOME", folder_.c_str(), 1);
    setenv("BEFOREHAND_STORE", store_.c_str(), 1);
  }
  ~Together() override {
    for (const auto* name : {"XDG_DATA_HOME", "BEFOREHAND_STORE"}) unsetenv(name);
    std::error_code failed;
    fs::remove_all(folder_, failed);
  }
  fs::path folder_;
  std::string store_;
};

TEST_F(Together, TwoWindowsAndACommandLoseAndDoubleNothing) {
  constexpr int drills = 12, commands = 6;
  Person ana, bo;
  {
    auto store = Store::open(store_, wall_clock);
    ana = store.add_person(Person::Part::trainee, "Ana Petrov");
    bo = store.add_person(Person::Part::trainee, "Bo Lind");
    store.add_person(Person::Part::trainee, "Caro Vey");
  }
  const auto data = (folder_ / "beforehand").string();  // the program's own data folder
  const pid_t windows[] = {window(store_, data, ana, drills), window(store_, data, bo, drills)};
  for (int i = 0; i < commands; ++i) {
    const auto done = run({"drill", tiny_file, "--assistant", "expert", "--save", "--trainee",
                           "Caro Vey", "--seed", std::to_string(i + 1)});
    EXPECT_EQ(done.code, 0) << done.err;
  }
  for (const pid_t child : windows) {
    int status = -1;
    waitpid(child, &status, 0);
    EXPECT_EQ(status, 0);
  }
  EXPECT_EQ(run({"records", "deliver"}).code, 0);
  auto store = Store::open(store_, wall_clock);
  std::map<std::string, std::multiset<std::uint64_t>> seeds;
  for (const auto& s : store.sessions({})) {
    EXPECT_TRUE(s.complete);
    seeds[store.person(Person::Part::trainee, s.trainee).name].insert(s.seed);
  }
  const auto numbers = [](int n) {
    std::multiset<std::uint64_t> all;
    for (int i = 1; i <= n; ++i) all.insert(static_cast<std::uint64_t>(i));
    return all;
  };
  EXPECT_EQ(seeds["Ana Petrov"], numbers(drills)) << "each drill once";
  EXPECT_EQ(seeds["Bo Lind"], numbers(drills));
  EXPECT_EQ(seeds["Caro Vey"], numbers(commands));
  EXPECT_EQ(records::Queue(data + "/queue").waiting(store_), 0);
  const auto verified = json::parse(run({"records", "verify", "--format", "json"}).out);
  EXPECT_TRUE(verified["sound"]) << verified.dump(2);
  EXPECT_EQ(verified["sessions"], 2 * drills + commands);
}

}  // namespace
}  // namespace beforehand
