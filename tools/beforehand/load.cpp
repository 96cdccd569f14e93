// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include <fmt/format.h>

#include <cerrno>
#include <cstdio>
#include <filesystem>
#include <system_error>

#include "base/text.hpp"
#include "commands.hpp"
#include "procedure/reader.hpp"
#include "stage/app.hpp"

namespace beforehand::command {

std::string load_file(const std::string& path) {
  try {
    return procedure::load_text(path);
  } catch (const std::runtime_error& e) {
    throw Failure(input_at_fault, e.what());
  }
}

void write_new(const std::string& path, const std::string& text) {
  errno = 0;
  std::FILE* file = std::fopen(path.c_str(), "wx");
  if (file == nullptr) {
    const int why = errno;
    throw Failure(why == EEXIST ? wrong_usage : environment_at_fault,
                  fmt::format("{}: {}", path, std::generic_category().message(why)));
  }
  const bool written = std::fwrite(text.data(), 1, text.size(), file) == text.size();
  const bool closed = std::fclose(file) == 0;
  if (written && closed) return;
  const int why = errno;
  std::remove(path.c_str());
  throw Failure(environment_at_fault,
                fmt::format("{}: {}", path, std::generic_category().message(why)));
}

procedure::Files files_of(const std::string& input, const Layers& layers) {
  try {
    auto files = procedure::files_of(input);
    if (!layers.card.empty()) files = procedure::files_of(files.scenario + "+" + layers.card);
    files.materials = layers.materials;
    return files;
  } catch (const std::runtime_error& e) {
    throw Failure(input_at_fault, e.what());
  }
}

procedure::Procedure load_scenario(const std::string& input, const Layers& layers) {
  const auto files = files_of(input, layers);
  procedure::Loaded loaded;
  try {
    loaded = procedure::load(files);
  } catch (const std::runtime_error& e) {
    throw Failure(input_at_fault, e.what());
  }
  auto& reading = loaded.reading;
  if (!reading.procedure) {
    fmt::print(stderr, "{}", print(reading.problems, loaded.sources));
    throw Failure(input_at_fault, input + " has errors and cannot be played; see above");
  }
  return std::move(*reading.procedure);
}

drill::Habit required_habit(const std::string& name) {
  const auto habit = drill::habit_from(name);
  if (!habit)
    throw Failure(wrong_usage,
                  fmt::format("no assistant '{}'; there are: {}", name, drill::habit_words));
  return *habit;
}

PhaseIx find_phase(const procedure::Procedure& p, const std::string& id) {
  std::vector<std::string> known;
  for (std::size_t i = 0; i < p.phases.size(); ++i) {
    if (p.phases[i].id == id) return PhaseIx{i};
    known.push_back(p.phases[i].id);
  }
  throw Failure(wrong_usage,
                fmt::format("no phase '{}' in {}; it has {}", id, p.id, list_text(known)));
}

std::string title_lines(const procedure::Procedure& p) {
  std::string out = p.title + "\n";
  if (!p.card.empty()) out += fmt::format("Preference card: {}\n", p.card_title);
  if (!p.materials.empty()) out += fmt::format("Times of materials: {}\n", p.materials_title);
  return out;
}

std::string find_shipped(const std::string& name) {
  namespace fs = std::filesystem;
  std::error_code none;
  const auto program = fs::read_symlink("/proc/self/exe", none);
  // build/release/bin/beforehand lies three folders below the project's own.
  for (const auto& root : {fs::path("."), program.parent_path() / ".." / ".." / ".."}) {
    if (fs::exists(root / name, none)) return (root / name).lexically_normal().string();
  }
  return {};
}

std::string find_scenario(const std::string& id) {
  auto file = find_shipped("scenarios/" + id + "/scenario.yaml");
  if (!file.empty()) return file;
  const auto own = std::filesystem::path(stage::data_folder()) / "scenarios" / id / "scenario.yaml";
  if (std::error_code none; std::filesystem::exists(own, none)) return own.string();
  throw Failure(
      input_at_fault,
      fmt::format(
          "no scenario '{}' in scenarios/ nor among your own; name its file with --scenario", id));
}

}  // namespace beforehand::command
