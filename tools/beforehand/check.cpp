// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include <fmt/format.h>

#include <algorithm>
#include <cstdio>

#include "commands.hpp"
#include "procedure/reader.hpp"
#include "timing/doubts.hpp"

namespace beforehand::command {
namespace {

// True when the file can be played.
bool check_one(const std::string& path) {
  std::string text;
  try {
    text = procedure::load_text(path);
  } catch (const std::runtime_error& e) {
    fmt::print(stderr, "{}\n", e.what());
    return false;
  }
  auto reading = procedure::read(text);
  auto& problems = reading.problems;
  if (reading.procedure) {
    const auto doubts = timing::doubts(*reading.procedure);
    problems.insert(problems.end(), doubts.begin(), doubts.end());
    sort_by_place(problems);
  }
  fmt::print(stderr, "{}", print(problems, path, text));
  const auto errors = std::count_if(problems.begin(), problems.end(), [](const Problem& p) {
    return p.kind == Problem::Kind::error;
  });
  if (errors > 0) {
    fmt::print("{}: {} {}\n", path, errors, errors == 1 ? "error" : "errors");
    return false;
  }
  const auto warnings = problems.size();
  fmt::print("{}: can be played, {} steps{}\n", path, reading.procedure->steps.size(),
             warnings == 0
                 ? std::string()
                 : fmt::format(", {} {}", warnings, warnings == 1 ? "warning" : "warnings"));
  return true;
}

}  // namespace

int check(const CheckOptions& options) {
  bool good = true;
  for (const auto& file : options.files) good &= check_one(file);
  return good ? done : input_at_fault;
}

}  // namespace beforehand::command
