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
  const auto tenths = (std::abs(t.count()) + 50) / 100;
  const auto minutes = tenths / 600, rest = tenths % 600;
  std::string text = t.count() < 0 ? "-" : "";
  if (minutes > 0) text += fmt::format("{} min", minutes);
  if (minutes > 0 && rest > 0) text += ' ';
  if (minutes > 0 && rest == 0) return text;
  return text + (rest % 10 == 0 ? fmt::format("{} s", rest / 10)
                                : fmt::format("{}.{} s", rest / 10, rest % 10));
}

}  // namespace beforehand
