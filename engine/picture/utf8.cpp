// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "picture/utf8.hpp"

#include <cassert>

namespace beforehand::picture {
namespace {

constexpr char32_t replacement = 0xFFFD;

/// Length of the sequence a first byte announces, 0 for a byte that cannot be first.
std::size_t announced_length(unsigned char first) {
  if (first < 0x80) return 1;
  if (first >= 0xC2 && first < 0xE0) return 2;
  if (first >= 0xE0 && first < 0xF0) return 3;
  if (first >= 0xF0 && first < 0xF5) return 4;
  return 0;
}

bool is_overlong_or_no_character(char32_t c, std::size_t length) {
  const bool surrogate = c >= 0xD800 && c <= 0xDFFF;
  return (length == 3 && c < 0x800) || (length == 4 && c < 0x10000) || surrogate || c > 0x10FFFF;
}

}  // namespace

char32_t take_character(std::string_view& text) {
  assert(!text.empty());
  const auto first = static_cast<unsigned char>(text.front());
  const std::size_t length = announced_length(first);
  char32_t c = length == 1 ? first : first & (0x7Fu >> length);
  bool valid = length != 0 && length <= text.size();
  for (std::size_t i = 1; valid && i < length; ++i) {
    const auto byte = static_cast<unsigned char>(text[i]);
    valid = (byte & 0xC0) == 0x80;
    c = (c << 6) | (byte & 0x3F);
  }
  valid = valid && !is_overlong_or_no_character(c, length);
  text.remove_prefix(valid ? length : 1);
  return valid ? c : replacement;
}

std::string_view utf8_prefix(std::string_view text, std::size_t count) {
  std::string_view rest = text;
  for (; count > 0 && !rest.empty(); --count) take_character(rest);
  return text.substr(0, text.size() - rest.size());
}

}  // namespace beforehand::picture
