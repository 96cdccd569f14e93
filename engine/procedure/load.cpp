// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "procedure/load.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <stdexcept>

#include "procedure/kind.hpp"
#include "procedure/materials.hpp"

namespace beforehand::procedure {
namespace {

namespace fs = std::filesystem;

bool is_file(const fs::path& file) {
  std::error_code failed;
  return fs::is_regular_file(file, failed);
}

std::string scenario_of(const std::string& card) {
  const auto folder = fs::path(card).parent_path();
  for (const auto& place : {folder / ".." / "scenario.yaml", folder / "scenario.yaml"}) {
    if (is_file(place)) return place.lexically_normal().string();
  }
  throw std::runtime_error(
      fmt::format("{}: a preference card, but its scenario lies neither above nor beside it; write "
                  "SCENARIO+CARD",
                  card));
}

std::string card_file(const std::string& scenario, const std::string& card) {
  const auto by_id = fs::path(scenario).parent_path() / "cards" / (card + ".yaml");
  if (!is_file(card) && is_file(by_id)) return by_id.string();
  return card;
}

}  // namespace

Files files_of(const std::string& input) {
  const auto plus = is_file(input) ? std::string::npos : input.rfind('+');
  if (plus != std::string::npos) {
    const auto scenario = input.substr(0, plus);
    return {scenario, card_file(scenario, input.substr(plus + 1)), ""};
  }
  if (kind_of(load_text(input)) == Kind::card) return {scenario_of(input), input, ""};
  return {input, "", ""};
}

std::vector<std::string> cards_of(const std::string& scenario_file) {
  std::vector<std::string> cards;
  std::error_code failed;
  for (const auto& entry :
       fs::directory_iterator(fs::path(scenario_file).parent_path() / "cards", failed)) {
    if (entry.path().extension() == ".yaml") cards.push_back(entry.path().string());
  }
  std::sort(cards.begin(), cards.end());
  return cards;
}

Loaded load(const Files& files) {
  Loaded out;
  out.sources = {{files.scenario, load_text(files.scenario)},
                 {files.card, files.card.empty() ? "" : load_text(files.card)},
                 {files.materials, files.materials.empty() ? "" : load_text(files.materials)}};
  MaterialsReading materials;
  if (!files.materials.empty()) materials = read_materials(out.sources[2].text, 2);
  Layers layers{out.sources[0].text, std::nullopt, nullptr};
  if (!files.card.empty()) layers.card = out.sources[1].text;
  if (materials.materials) layers.materials = &*materials.materials;
  out.reading = read(layers);
  auto& problems = out.reading.problems;
  problems.insert(problems.end(), materials.problems.begin(), materials.problems.end());
  sort_by_place(problems);
  if (has_errors(problems)) out.reading.procedure.reset();
  return out;
}

}  // namespace beforehand::procedure
