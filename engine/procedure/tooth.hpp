// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <optional>

namespace beforehand::procedure {

/// A tooth in the two-digit system of ISO 3950 (FDI): quadrants 1-4 permanent, 5-8 primary, from
/// the patient's upper right clockwise as seen from in front; position 1 at the midline.
struct ToothNumber {
  int quadrant = 0;
  int position = 0;

  constexpr bool permanent() const { return quadrant >= 1 && quadrant <= 4; }
  constexpr bool exists() const {
    const int last = permanent() ? 8 : 5;
    return quadrant >= 1 && quadrant <= 8 && position >= 1 && position <= last;
  }
  friend constexpr bool operator==(ToothNumber, ToothNumber) = default;
};

/// 46 -> quadrant 4, position 6; nothing for a number that names no tooth.
constexpr std::optional<ToothNumber> tooth_from_fdi(int number) {
  const ToothNumber tooth{number / 10, number % 10};
  if (!tooth.exists()) return std::nullopt;
  return tooth;
}

/// Place along the arches as the Universal system counts them: from the patient's upper right round
/// to the upper left, then from the lower left round to the lower right; from 1 in either
/// dentition.
constexpr int place_along_arches(ToothNumber tooth) {
  const int each = tooth.permanent() ? 8 : 5;
  switch ((tooth.quadrant - 1) % 4) {
    case 0:
      return each + 1 - tooth.position;
    case 1:
      return each + tooth.position;
    case 2:
      return 3 * each + 1 - tooth.position;
    default:
      return 3 * each + tooth.position;
  }
}

/// Universal number of a permanent tooth, 1-32; nothing for a primary one, which has a letter.
constexpr std::optional<int> universal_number(ToothNumber tooth) {
  if (!tooth.exists() || !tooth.permanent()) return std::nullopt;
  return place_along_arches(tooth);
}

/// Universal letter of a primary tooth, A-T; nothing for a permanent one.
constexpr std::optional<char> universal_letter(ToothNumber tooth) {
  if (!tooth.exists() || tooth.permanent()) return std::nullopt;
  return "ABCDEFGHIJKLMNOPQRST"[place_along_arches(tooth) - 1];
}

/// The permanent tooth with this Universal number.
constexpr std::optional<ToothNumber> tooth_from_universal(int number) {
  for (int quadrant = 1; quadrant <= 4; ++quadrant) {
    for (int position = 1; position <= 8; ++position) {
      const ToothNumber tooth{quadrant, position};
      if (place_along_arches(tooth) == number) return tooth;
    }
  }
  return std::nullopt;
}

}  // namespace beforehand::procedure
