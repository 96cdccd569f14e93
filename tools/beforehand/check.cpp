// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include <fmt/format.h>

#include <algorithm>
#include <cstdio>

#include "commands.hpp"
#include "procedure/reader.hpp"
#include "procedure/texts.hpp"
#include "timing/doubts.hpp"

namespace beforehand::command {
namespace {

std::string counted(std::ptrdiff_t n, const char* one) {
  return fmt::format("{} {}{}", n, one, n == 1 ? "" : "s");
}

// Prints the problems of a file, and one line that sums them up; true when none is an error.
bool told(const std::string& path, const std::string& text, const std::vector<Problem>& problems,
          const std::string& good) {
  fmt::print(stderr, "{}", print(problems, path, text));
  const auto errors = std::count_if(problems.begin(), problems.end(), [](const Problem& p) {
    return p.kind == Problem::Kind::error;
  });
  if (errors > 0) {
    fmt::print("{}: {}\n", path, counted(errors, "error"));
    return false;
  }
  const auto warnings = static_cast<std::ptrdiff_t>(problems.size());
  fmt::print("{}: {}{}\n", path, good, warnings ? ", " + counted(warnings, "warning") : "");
  return true;
}

bool check_texts(const procedure::Procedure& p, const std::string& file) {
  const auto reading = procedure::load_texts(file, p);
  const auto n = reading.texts ? reading.texts->entries.size() : 0;
  return told(file, procedure::load_text(file), reading.problems,
              counted(static_cast<int>(n), "text"));
}

// True when the file can be played, and read in each of its languages.
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
  const auto steps = reading.procedure ? reading.procedure->steps.size() : 0;
  bool good = told(path, text, problems, fmt::format("can be played, {} steps", steps));
  if (!reading.procedure) return false;
  for (const auto& language : procedure::languages_of(*reading.procedure, path)) {
    if (language != reading.procedure->language)
      good &= check_texts(*reading.procedure, procedure::text_file(path, language));
  }
  return good;
}

}  // namespace

int check(const CheckOptions& options) {
  bool good = true;
  for (const auto& file : options.files) good &= check_one(file);
  return good ? done : input_at_fault;
}

}  // namespace beforehand::command
