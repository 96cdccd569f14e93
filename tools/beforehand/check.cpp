// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include <fmt/format.h>

#include <algorithm>
#include <cstdio>
#include <filesystem>

#include "commands.hpp"
#include "procedure/advice.hpp"
#include "procedure/edit.hpp"
#include "procedure/formats.hpp"
#include "procedure/kind.hpp"
#include "procedure/materials.hpp"
#include "procedure/texts.hpp"
#include "timing/advice.hpp"
#include "timing/doubts.hpp"

namespace beforehand::command {
namespace {

using procedure::Procedure;

std::string counted(std::size_t n, const char* one) {
  return fmt::format("{} {}{}", n, one, n == 1 ? "" : "s");
}

// A file of an older format is read as it stands; that there is a newer one is said.
void warn_of_format(const std::string& text, int file, std::vector<Problem>& problems) {
  try {
    const auto now = procedure::convert(text);
    if (now.from < now.to)
      problems.push_back(
          {Problem::Kind::warning,
           {0, 0, file},
           fmt::format("written in format {}; \"beforehand convert\" writes it as {}", now.from,
                       now.to)});
  } catch (const procedure::EditError&) {  // what is wrong with it the readers tell
  }
}

// Prints the problems found, and one line that sums them up; true when none is an error.
bool told(const std::string& path, const std::vector<Source>& sources,
          const std::vector<Problem>& problems, const std::string& good) {
  fmt::print(stderr, "{}", print(problems, sources));
  const auto errors = static_cast<std::size_t>(
      std::count_if(problems.begin(), problems.end(),
                    [](const Problem& p) { return p.kind == Problem::Kind::error; }));
  if (errors > 0) {
    fmt::print("{}: {}\n", path, counted(errors, "error"));
    return false;
  }
  const auto warnings = problems.size();
  fmt::print("{}: {}{}\n", path, good, warnings ? ", " + counted(warnings, "warning") : "");
  return true;
}

// With a base those of the card that is laid over it.
bool check_texts(const Procedure& p, const std::string& file, const Procedure* base = nullptr) {
  auto reading = procedure::load_texts(file, p, base);
  warn_of_format(procedure::load_text(file), 0, reading.problems);
  const auto n = reading.texts ? reading.texts->entries.size() : 0;
  return told(file, {{file, procedure::load_text(file)}}, reading.problems, counted(n, "text"));
}

// Times against what is published, as the generic materials that come with the program tell it.
std::vector<Problem> against_published(const Procedure& p) {
  static const auto file = find_shipped("scenarios/materials/generic.yaml");
  if (file.empty()) return {};
  const auto generic = procedure::read_materials(procedure::load_text(file)).materials;
  return generic ? compare_with_published(p, *generic) : std::vector<Problem>{};
}

void add(std::vector<Problem>& problems, std::vector<Problem> more) {
  problems.insert(problems.end(), more.begin(), more.end());
  sort_by_place(problems);
}

bool check_languages(const Procedure& p, const std::string& scenario) {
  bool good = true;
  for (const auto& language : procedure::languages_of(p, scenario)) {
    if (language != p.language) good &= check_texts(p, procedure::text_file(scenario, language));
  }
  return good;
}

// A folder a language beside the card.
bool check_card_languages(const Procedure& p, const procedure::Files& files) {
  const auto base = load_scenario(files.scenario);
  bool good = true;
  std::error_code failed;
  for (const auto& folder : std::filesystem::directory_iterator(
           std::filesystem::path(files.card).parent_path(), failed)) {
    const auto file = procedure::card_text_file(files.card, folder.path().filename().string());
    if (folder.is_directory() && std::filesystem::exists(file)) good &= check_texts(p, file, &base);
  }
  return good;
}

// The scenario with what is laid over it; true when it can be played and read in each language.
bool check_scenario(const std::string& input, const Layers& layers) {
  const auto files = files_of(input, layers);
  auto loaded = procedure::load(files);
  auto& [reading, sources] = loaded;
  if (reading.procedure) {
    add(reading.problems, timing::doubts(*reading.procedure));
    add(reading.problems, timing::advice(*reading.procedure));
    add(reading.problems, procedure::advice(*reading.procedure));
    add(reading.problems, against_published(*reading.procedure));
  }
  for (int i = 0; i < 2; ++i)
    warn_of_format(sources[static_cast<std::size_t>(i)].text, i, reading.problems);
  const auto steps = reading.procedure ? reading.procedure->steps.size() : 0;
  const bool good = told(input, sources, reading.problems,
                         fmt::format("can be played, {}", counted(steps, "step")));
  if (!reading.procedure) return good;
  if (!files.card.empty()) return check_card_languages(*reading.procedure, files) && good;
  return check_languages(*reading.procedure, files.scenario) && good;
}

// Against the scenario beside it, or the card in the folder above.
bool check_texts_alone(const std::string& path) {
  const std::filesystem::path file(path);
  const auto card = file.parent_path() / ".." / file.filename();
  if (!procedure::head_of(procedure::load_text(path)).card.empty()) {
    const auto base = load_scenario(procedure::files_of(card.string()).scenario);
    return check_texts(load_scenario(card.string()), path, &base);
  }
  const auto scenario = file.parent_path() / "scenario.yaml";
  return check_texts(load_scenario(scenario.string()), path);
}

bool check_materials(const std::string& path, const std::string& text) {
  const auto reading = procedure::read_materials(text);
  const auto n = reading.materials ? reading.materials->materials.size() : 0;
  return told(path, {{path, text}}, reading.problems, counted(n, "material"));
}

bool check_one(const std::string& path, const Layers& layers) {
  using procedure::Kind;
  try {
    const bool one_file = std::filesystem::is_regular_file(path);
    const auto text = one_file ? procedure::load_text(path) : std::string();
    switch (procedure::kind_of(text)) {
      case Kind::texts:
        return check_texts_alone(path);
      case Kind::materials:
        return check_materials(path, text);
      default:
        return check_scenario(path, layers);
    }
  } catch (const std::runtime_error& e) {
    fmt::print(stderr, "{}\n", e.what());
    return false;
  }
}

}  // namespace

int check(const CheckOptions& options) {
  bool good = true;
  for (const auto& file : options.files) good &= check_one(file, options.layers);
  return good ? done : input_at_fault;
}

}  // namespace beforehand::command
