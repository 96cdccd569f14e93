// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "procedure/procedure.hpp"

// The times of materials, as their instructions give them. A scenario names the materials its times
// come from; a practice writes down those of what it has in the cupboard.

namespace beforehand::procedure {

/// Between which bounds a time is published, and where.
struct Published {
  MaterialTime time = MaterialTime::mixing;
  Ms least{0}, most = never;
  std::string source;
};

struct Material {
  std::string id, name;
  std::array<std::optional<Ms>, material_time_count> times;
  std::optional<int> demand;  ///< light energy it must get, in mJ/cm2 (16 J/cm2 = 16000)
  std::vector<Published> published;
  Mark mark;

  std::optional<Ms> time(MaterialTime t) const { return times[static_cast<std::size_t>(t)]; }
};

struct Materials {
  std::string id, title, note;
  bool generic = false;     ///< of no product: stands in until a practice has written its own
  std::optional<int> lamp;  ///< irradiance at the tip, mW/cm2
  std::vector<Material> materials;
  std::string path;  ///< of the file, for messages; may be empty

  const Material* find(std::string_view id) const;
};

/// Radiant exposure H = E t: mW/cm2 for a time gives mJ/cm2.
constexpr std::int64_t exposure_of(int irradiance, Ms time) {
  return std::int64_t{irradiance} * time.count() / 1000;
}
/// The shortest time, in whole seconds, that gives the exposure (mJ/cm2) at this irradiance.
constexpr Ms time_to(int exposure, int irradiance) {
  return Ms{(std::int64_t{exposure} + irradiance - 1) / irradiance * 1000};
}

/// Below the first a lamp is to be rejected, below the second a minute of light is not enough for
/// 2 mm (Rueggeberg, Caughman, Curtis, Oper Dent 1994;19:26); above the last, with a few seconds
/// of light, caution is advised (consensus statement on light curing, Halifax 2014).
inline constexpr int too_weak = 233, weak = 400, very_strong = 1500;

struct MaterialsReading {
  std::optional<Materials> materials;
  std::vector<Problem> problems;
};

/// Reads and checks a materials file: every problem at once, at its place in file number `file`. A
/// cure is checked against what the material demands. Never throws for bad text.
MaterialsReading read_materials(std::string_view yaml_text, int file = 0);

/// What differs from what is published: a warning for each time of the procedure that lies outside
/// the bounds of the material it is from, with its source, and for each material that the file does
/// not have.
std::vector<Problem> compare_with_published(const Procedure&, const Materials&);

}  // namespace beforehand::procedure
