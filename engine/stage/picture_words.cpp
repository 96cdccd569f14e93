// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/picture_words.hpp"

namespace beforehand::stage {

picture::RoomWords room_words(const Strings& t) {
  picture::RoomWords words;
  words.operator_zone = t("room.operator-zone");
  words.assistant_zone = t("room.assistant-zone");
  words.transfer_zone = t("room.transfer-zone");
  words.static_zone = t("room.static-zone");
  words.patient = t("room.patient");
  words.reach = t("room.reach");
  return words;
}

picture::FieldWords field_words(const Strings& t) {
  picture::FieldWords words;
  for (std::size_t i = 0; i < words.seen.size(); ++i) {
    std::string key = "field.";
    key.append(procedure::word(static_cast<procedure::Field>(i)));
    words.seen[i] = t(key);
  }
  static constexpr const char* surfaces[] = {"used", "bare", "cleaned", "wet", "dry", "covered"};
  for (std::size_t i = 0; i < words.surfaces.size(); ++i)
    words.surfaces[i] = t(std::string("field.surface.") + surfaces[i]);
  static constexpr const char* postures[] = {"reclined", "flat", "half-upright"};
  for (std::size_t i = 0; i < words.postures.size(); ++i)
    words.postures[i] = t(std::string("field.posture.") + postures[i]);
  words.tooth_out = t("field.tooth-out");
  words.stitched = t("field.stitched");
  words.corded = t("field.corded");
  words.on_clock = t("field.on-clock") + " ";
  words.suction = t("field.suction");
  words.rinsing = t("field.rinsing");
  words.drying = t("field.drying");
  words.light = t("field.light");
  return words;
}

}  // namespace beforehand::stage
