// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "base/time.hpp"

#include <fmt/format.h>

namespace beforehand {

std::string clock_text(Ms t) {
  const auto seconds = std::abs(t.count()) / 1000;
  return fmt::format("{}{}:{:02}", t.count() < 0 ? "-" : "", seconds / 60, seconds % 60);
}

std::string duration_text(Ms t) {
  const auto ms = std::abs(t.count());
  const char* sign = t.count() < 0 ? "-" : "";
  if (ms >= 60'000 && ms % 1000 == 0) {
    const auto seconds = ms / 1000;
    return seconds % 60 == 0 ? fmt::format("{}{} min", sign, seconds / 60)
                             : fmt::format("{}{} min {} s", sign, seconds / 60, seconds % 60);
  }
  const auto tenths = (ms + 50) / 100;
  return tenths % 10 == 0 ? fmt::format("{}{} s", sign, tenths / 10)
                          : fmt::format("{}{}.{} s", sign, tenths / 10, tenths % 10);
}

}  // namespace beforehand
