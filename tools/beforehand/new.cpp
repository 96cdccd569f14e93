// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include <fmt/format.h>
#include <unistd.h>

#include <cstdio>
#include <filesystem>
#include <iostream>
#include <iterator>

#include "commands.hpp"
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

// Asks at a terminal; elsewhere reads what is given.
std::string read_list(const std::string& from) {
  if (!from.empty()) return procedure::load_text(from);
  if (isatty(STDIN_FILENO) != 0)
    fmt::print(stderr,
               "One line a step, in the order in which a practised pair would work:\n"
               "  Title: Lining a cavity\n"
               "  Clinician: rinses the cavity, 10 s\n"
               "  Assistant: holds the suction\n"
               "  Assistant: passes the lining paste\n"
               "  Clinician: lines the cavity, 15 s\n"
               "What is passed or held is for the clinician's next line. End with Ctrl-D.\n");
  return {std::istreambuf_iterator<char>(std::cin), {}};
}

}  // namespace

int make_new(const NewOptions& o) {
  const auto file = file_of(o.out);
  if (fs::exists(file))
    throw Failure(input_at_fault,
                  fmt::format("{} is there already; it is left as it is", file.string()));
  const auto list = read_list(o.from);
  const auto source = o.from.empty() ? "list" : o.from;
  const auto name = name_of(file);
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
    fmt::print(stderr, "{}", print(reading.problems, file.string(), made.scenario));
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
