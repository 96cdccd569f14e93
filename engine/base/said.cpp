// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "base/said.hpp"

namespace beforehand {
namespace {

// The number of the slot that begins at `i`, as written or counted, and how long it is; 0 for none.
std::size_t slot_at(std::string_view words, std::size_t i, std::size_t counted,
                    std::size_t& number) {
  if (words.substr(i, 2) == "{}") return number = counted, 2;
  const bool numbered = words[i] == '{' && i + 2 < words.size() && words[i + 2] == '}' &&
                        words[i + 1] >= '0' && words[i + 1] <= '9';
  if (numbered) number = static_cast<std::size_t>(words[i + 1] - '0');
  return numbered ? 3 : 0;
}

}  // namespace

std::string Said::in(const Phrases& phrases) const {
  if (!ours_) return words_;
  const auto found = phrases.find(words_);
  const std::string_view words = found == phrases.end() ? words_ : found->second;
  std::string out;
  std::size_t counted = 0, number = 0;
  for (std::size_t i = 0; i < words.size();) {
    const auto length = slot_at(words, i, counted, number);
    if (length == 0 || number >= arguments_.size()) {
      out += words[i++];
      continue;
    }
    out += arguments_[number].in(phrases);
    if (length == 2) ++counted;
    i += length;
  }
  return out;
}

Said listed(const std::vector<Said>& items) {
  if (items.empty()) return {};
  Said all = items.front();
  for (std::size_t i = 1; i + 1 < items.size(); ++i) all = say("{}, {}", all, items[i]);
  return items.size() == 1 ? all : say("{} and {}", all, items.back());
}

}  // namespace beforehand
