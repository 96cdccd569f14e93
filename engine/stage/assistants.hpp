// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <cstddef>
#include <string>

#include "base/strings.hpp"
#include "drill/bots.hpp"

namespace beforehand::stage {

/// Who may assist in a study of the window, as habit_from() takes it; each has a text under
/// "assistant.N".
inline constexpr const char* assistants[] = {"expert", "late:3", "forgetful:20", "asked"};
inline constexpr std::size_t assistant_count = std::size(assistants);

inline drill::Habit habit_of(std::size_t assistant) {
  return *drill::habit_from(assistants[assistant]);
}
inline std::string assistant_text(std::size_t assistant, const Strings& t) {
  return t("assistant." + std::to_string(assistant));
}

}  // namespace beforehand::stage
