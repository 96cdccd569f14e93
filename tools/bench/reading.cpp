// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// Reading and checking a scenario, beside what yaml-cpp alone takes to load the same text.
#include <benchmark/benchmark.h>
#include <yaml-cpp/yaml.h>

#include "bench.hpp"
#include "procedure/reader.hpp"

namespace beforehand::bench {
namespace {

void read_and_check(benchmark::State& state) {
  for (auto _ : state) {
    auto reading = procedure::read(input().text);
    benchmark::DoNotOptimize(reading.procedure->steps.data());
  }
}
BENCHMARK(read_and_check);

void yaml_alone(benchmark::State& state) {
  for (auto _ : state) {
    auto tree = YAML::Load(input().text);
    benchmark::DoNotOptimize(tree.size());
  }
}
BENCHMARK(yaml_alone);

}  // namespace
}  // namespace beforehand::bench
