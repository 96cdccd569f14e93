// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include <benchmark/benchmark.h>

#include <cstdio>
#include <exception>
#include <stdexcept>

#include "bench.hpp"
#include "procedure/reader.hpp"

namespace beforehand::bench {
namespace {

Input chosen;

void choose(const std::string& path) {
  chosen.text = procedure::load_text(path);
  auto reading = procedure::read(chosen.text);
  if (!reading.procedure) {
    throw std::runtime_error(print(reading.problems, path, chosen.text));
  }
  chosen.procedure = std::move(*reading.procedure);
}

}  // namespace

const Input& input() { return chosen; }

}  // namespace beforehand::bench

int main(int argc, char** argv) {
  benchmark::Initialize(&argc, argv);
  if (argc != 2) {
    std::fprintf(stderr, "usage: bench SCENARIO.yaml [--benchmark_...]\n");
    return 2;
  }
  try {
    beforehand::bench::choose(argv[1]);
  } catch (const std::exception& e) {
    std::fprintf(stderr, "%s\n", e.what());
    return 1;
  }
  benchmark::RunSpecifiedBenchmarks();
}
