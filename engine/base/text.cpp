// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "base/text.hpp"

#include <algorithm>

namespace beforehand {
namespace {

// Optimal string alignment distance (Damerau 1964, restricted form).
std::size_t edits(std::string_view a, std::string_view b) {
  std::vector<std::vector<std::size_t>> d(a.size() + 1, std::vector<std::size_t>(b.size() + 1));
  for (std::size_t i = 0; i <= a.size(); ++i) d[i][0] = i;
  for (std::size_t j = 0; j <= b.size(); ++j) d[0][j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t change = a[i - 1] == b[j - 1] ? 0 : 1;
      d[i][j] = std::min({d[i - 1][j] + 1, d[i][j - 1] + 1, d[i - 1][j - 1] + change});
      if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1]) {
        d[i][j] = std::min(d[i][j], d[i - 2][j - 2] + 1);
      }
    }
  }
  return d[a.size()][b.size()];
}

}  // namespace

std::optional<std::string> nearest(std::string_view word,
                                   const std::vector<std::string>& candidates) {
  constexpr std::size_t longest_compared = 64;  // a hostile key must not cost quadratic time
  if (word.size() > longest_compared) return std::nullopt;
  std::size_t fewest = std::max<std::size_t>(1, word.size() / 3) + 1;
  std::optional<std::string> best;
  for (const auto& c : candidates) {
    if (c.size() > longest_compared) continue;
    const auto n = edits(word, c);
    if (n < fewest) {
      fewest = n;
      best = c;
    }
  }
  return best;
}

std::string list_text(const std::vector<std::string>& items) {
  std::string out;
  for (std::size_t i = 0; i < items.size(); ++i) {
    if (i > 0) out += i + 1 == items.size() ? " and " : ", ";
    out += items[i];
  }
  return out;
}

}  // namespace beforehand
