// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// The report of a trainee with 200 sessions, from an open store to the whole page.
#include <benchmark/benchmark.h>

#include <cstdio>
#include <filesystem>
#include <memory>

#include "bench.hpp"
#include "drill/cast.hpp"
#include "drill/recording.hpp"
#include "picture/report.hpp"
#include "records/ids.hpp"
#include "records/save.hpp"

namespace beforehand::bench {
namespace {

using records::Moment;

constexpr int session_count = 200;

records::NewSession played(const records::Person& trainee, Moment at, int number) {
  constexpr const char* bots[] = {"late:6", "late:3", "expert", "forgetful:20"};
  const std::string bot = bots[number % 4];
  drill::Setup setup;
  setup.seed = static_cast<std::uint64_t>(number);
  setup.assistant = bot;
  drill::Run run(input().procedure, setup);
  drill::cast(run, drill::habit_from(bot));
  run.play_out();
  static records::IdMaker ids;
  records::Sitting s;
  s.id = ids.make(at);
  s.trainee = trainee.id;
  s.started = s.ended = at;
  s.program = drill::program_version;
  s.scenario_text = input().text;
  return records::new_session(input().procedure, run.session(), s);
}

// A store of one trainee, removed at the end.
struct Filled {
  Filled() {
    std::filesystem::remove_all(folder);
    std::filesystem::create_directories(folder);
    Moment now{std::chrono::milliseconds{1'772'442'000'000}};
    store = std::make_unique<records::Store>(
        records::Store::open((folder / "records.db").string(),
                             [now]() mutable { return now += std::chrono::hours{6}; }));
    trainee = store->add_person(records::Person::Part::trainee, "Invented Trainee");
    for (int i = 0; i < session_count; ++i) store->save(played(trainee, store->now(), i));
  }
  ~Filled() {
    store.reset();
    std::error_code ignored;
    std::filesystem::remove_all(folder, ignored);
  }
  std::filesystem::path folder = std::filesystem::temp_directory_path() / "beforehand-bench-report";
  std::unique_ptr<records::Store> store;
  records::Person trainee;
};

void report_of_200_sessions(benchmark::State& state) {
  const Filled filled;
  const auto texts = Strings::load(PROJECT_DIR "/assets/strings/en.txt");
  std::size_t bytes = 0;
  for (auto _ : state) {
    records::Library library(*filled.store);
    bytes =
        picture::trainee_report(trainee_file(*filled.store, library, filled.trainee), texts).size();
  }
  state.counters["bytes"] = static_cast<double>(bytes);
}
BENCHMARK(report_of_200_sessions)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace beforehand::bench
