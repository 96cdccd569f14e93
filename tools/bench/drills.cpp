// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// Whole drills by the expert, and their parts. The seeds go round, so that every signal has come
// and not come.
#include <benchmark/benchmark.h>

#include <memory>

#include "bench.hpp"
#include "drill/cast.hpp"
#include "drill/recording.hpp"
#include "scoring/scorer.hpp"

namespace beforehand::bench {
namespace {

using procedure::Role;

constexpr std::uint64_t seeds = 64;

using Finder = std::shared_ptr<timing::WindowFinder>;

void play(drill::Run& run, const Finder& finder) {
  cast(run, drill::Habit{}, finder);
  run.play_out();
}

drill::Setup set_up(std::uint64_t seed) {
  drill::Setup s;
  s.seed = seed;
  s.assistant = "expert";
  return s;
}

std::vector<drill::Session> sessions(const procedure::Procedure& p) {
  const auto finder = std::make_shared<timing::WindowFinder>(p);
  std::vector<drill::Session> all;
  for (std::uint64_t seed = 1; seed <= seeds; ++seed) {
    drill::Run run(p, set_up(seed));
    play(run, finder);
    all.push_back(run.session());
  }
  return all;
}

void drill_scored(benchmark::State& state) {
  const auto& p = input().procedure;
  const auto finder = std::make_shared<timing::WindowFinder>(p);
  scoring::Scorer scorer(p, p.who(Role::assistant));
  std::uint64_t turn = 0;
  for (auto _ : state) {
    drill::Run run(p, set_up(turn++ % seeds + 1));
    play(run, finder);
    benchmark::DoNotOptimize(scorer.score(run.session()).total);
  }
}
BENCHMARK(drill_scored);

void drill_alone(benchmark::State& state) {
  const auto& p = input().procedure;
  const auto finder = std::make_shared<timing::WindowFinder>(p);
  std::uint64_t turn = 0;
  for (auto _ : state) {
    drill::Run run(p, set_up(turn++ % seeds + 1));
    play(run, finder);
    benchmark::DoNotOptimize(run.session().events.data());
  }
}
BENCHMARK(drill_alone);

void scoring_alone(benchmark::State& state) {
  const auto& p = input().procedure;
  const auto played = sessions(p);
  scoring::Scorer scorer(p, p.who(Role::assistant));
  std::uint64_t turn = 0;
  for (auto _ : state) benchmark::DoNotOptimize(scorer.score(played[turn++ % seeds]).total);
}
BENCHMARK(scoring_alone);

// What a bot asks at each move of the clinician, at the start of the drill: every step is open.
void windows(benchmark::State& state) {
  const auto& p = input().procedure;
  timing::WindowFinder finder(p);
  const std::vector<timing::StepTime> progress(p.steps.size());
  std::vector<timing::Window> out;
  for (auto _ : state) {
    finder.find(progress, Ms{0}, out);
    benchmark::DoNotOptimize(out.data());
  }
}
BENCHMARK(windows);

void recording_to_text(benchmark::State& state) {
  const auto& p = input().procedure;
  const auto session = sessions(p).front();
  for (auto _ : state) benchmark::DoNotOptimize(drill::to_text(p, session).data());
}
BENCHMARK(recording_to_text);

void recording_from_text(benchmark::State& state) {
  const auto& p = input().procedure;
  const auto text = drill::to_text(p, sessions(p).front());
  for (auto _ : state) {
    benchmark::DoNotOptimize(drill::from_text(text, p, "recording").events.data());
  }
}
BENCHMARK(recording_from_text);

}  // namespace
}  // namespace beforehand::bench
