// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "base/said.hpp"

#include "base/strings.hpp"

namespace beforehand {
namespace {

// Each {} as {0}, {1}, ... counted from the left, as far as there are arguments.
std::string numbered(std::string_view words, std::size_t arguments) {
  std::string out;
  for (std::size_t i = 0, count = 0; i < words.size(); ++i) {
    out += words[i];
    if (words.substr(i, 2) == "{}" && count < arguments) out += std::to_string(count++);
  }
  return out;
}

}  // namespace

std::string Said::in(const Phrases& phrases) const {
  if (!ours_) return words_;
  const auto found = phrases.find(words_);
  std::vector<std::string> arguments;
  for (const auto& argument : arguments_) arguments.push_back(argument.in(phrases));
  return filled(numbered(found == phrases.end() ? words_ : found->second, arguments.size()),
                arguments);
}

Said listed(const std::vector<Said>& items) {
  if (items.empty()) return {};
  Said all = items.front();
  for (std::size_t i = 1; i + 1 < items.size(); ++i) all = say("{}, {}", all, items[i]);
  return items.size() == 1 ? all : say("{} and {}", all, items.back());
}

}  // namespace beforehand
