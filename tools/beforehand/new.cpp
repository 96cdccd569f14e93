// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <cstdio>
#include <filesystem>
#include <iostream>
#include <iterator>

#include "commands.hpp"
#include "procedure/answers.hpp"
#include "procedure/outline.hpp"

namespace beforehand::command {
namespace {

namespace fs = std::filesystem;

// A folder gets a scenario.yaml; its name is the scenario's.
fs::path file_of(const std::string& out) {
  const fs::path path(out);
  return path.extension() == ".yaml" ? path : path / "scenario.yaml";
}

std::string name_of(const fs::path& file) {
  const auto folder = fs::absolute(file).parent_path().filename();
  return file.filename() == "scenario.yaml" ? folder.string() : file.stem().string();
}

using procedure::Question;

// Answers given as options stand; what is left is asked at a terminal, and is as offered elsewhere.
// An empty line takes what is offered; the end of the input takes it for all that follows.
std::string list_of_answers(const NewOptions& o, const std::string& title) {
  auto questions = procedure::questions(title);
  bool asking = isatty(STDIN_FILENO) != 0;
  if (asking)
    fmt::print(
        "A few questions. Return takes what stands in brackets; everything can be changed "
        "later.\n");
  for (auto& q : questions) {
    const auto given = o.answers.find(q.key);
    if (given != o.answers.end() && !given->second.empty()) {
      q.answer = given->second;
      continue;
    }
    if (!asking || !procedure::asked(questions, q.key)) continue;
    fmt::print("{} [{}] ", q.text, q.answer);
    std::fflush(stdout);
    std::string line;
    asking = static_cast<bool>(std::getline(std::cin, line));
    if (!line.empty()) q.answer = line;
  }
  return procedure::outline_from(questions);
}

// A list that is given, or one made of answers.
std::string read_list(const NewOptions& o, const std::string& title) {
  if (!o.from.empty() && o.from != "-") return procedure::load_text(o.from);
  const bool answered = std::any_of(o.answers.begin(), o.answers.end(),
                                    [](const auto& a) { return !a.second.empty(); });
  if (o.from == "-" || (!answered && isatty(STDIN_FILENO) == 0))
    return {std::istreambuf_iterator<char>(std::cin), {}};
  return list_of_answers(o, title);
}

}  // namespace

int make_new(const NewOptions& o) {
  const auto file = file_of(o.out);
  if (fs::exists(file))
    throw Failure(input_at_fault,
                  fmt::format("{} is there already; it is left as it is", file.string()));
  const auto name = name_of(file);
  const auto list = read_list(o, name);
  const auto source = o.from.empty() || o.from == "-" ? "list" : o.from;
  std::string id;
  for (const char c : name) {
    const bool plain = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9');
    id += plain ? c : c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : '-';
  }
  const auto made = procedure::scenario_from_outline(list, id.substr(0, 40), name);
  fmt::print(stderr, "{}", print(made.problems, source, list));
  if (made.scenario.empty()) throw Failure(input_at_fault, "no scenario was written; see above");
  const auto reading = procedure::read(made.scenario);
  if (!reading.procedure) {
    fmt::print(stderr, "{}", print(procedure::told_of_list(reading.problems, made), source, list));
    throw Failure(input_at_fault,
                  "such a scenario could not be played, so none was written; change the list");
  }
  std::error_code failed;
  if (!file.parent_path().empty()) fs::create_directories(file.parent_path(), failed);
  write_new(file.string(), made.scenario);
  fmt::print("{}: {} steps. Next: beforehand check {}\n", file.string(),
             reading.procedure->steps.size(), file.string());
  return done;
}

}  // namespace beforehand::command
