// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "procedure/bundle.hpp"

#include "procedure/materials.hpp"

namespace beforehand::procedure {
namespace {

// A scenario is one YAML document, so that no line of one can be taken for this.
constexpr std::string_view seam = "\n--- # laid over it:\n";

}  // namespace

std::string bundle(std::string_view scenario, std::string_view card, std::string_view materials) {
  std::string out(scenario);
  if (card.empty() && materials.empty()) return out;
  return out.append(seam).append(card).append(seam).append(materials);
}

std::string bundle(const std::vector<Source>& sources) {
  const auto text = [&](std::size_t i) { return i < sources.size() ? sources[i].text : ""; };
  return bundle(text(0), text(1), text(2));
}

Reading read_bundle(std::string_view text) {
  const auto first = text.find(seam);
  if (first == std::string_view::npos) return read(text);
  const auto second = text.find(seam, first + seam.size());
  if (second == std::string_view::npos) return read(text);
  Layers layers{text.substr(0, first), std::nullopt, nullptr};
  const auto card = text.substr(first + seam.size(), second - first - seam.size());
  if (!card.empty()) layers.card = card;
  const auto materials = text.substr(second + seam.size());
  if (materials.empty()) return read(layers);
  const auto reading = read_materials(materials);
  if (!reading.materials) return {std::nullopt, reading.problems};
  layers.materials = &*reading.materials;
  return read(layers);
}

}  // namespace beforehand::procedure
