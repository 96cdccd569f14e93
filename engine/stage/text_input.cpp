// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/text_input.hpp"

#include <algorithm>

namespace beforehand::stage {
namespace {

bool continues(char c) { return (static_cast<unsigned char>(c) & 0xC0u) == 0x80u; }

}  // namespace

void append(std::string& text, char32_t c) {
  const bool surrogate = c >= 0xD800 && c <= 0xDFFF;
  if (c < 0x20 || (c >= 0x7F && c < 0xA0) || surrogate || c > 0x10FFFF) return;
  const auto put = [&text](char32_t byte) { text += static_cast<char>(byte); };
  if (c < 0x80) return put(c);
  if (c < 0x800) {
    put(0xC0u | c >> 6);
  } else if (c < 0x10000) {
    put(0xE0u | c >> 12);
    put(0x80u | (c >> 6 & 0x3Fu));
  } else {
    put(0xF0u | c >> 18);
    put(0x80u | (c >> 12 & 0x3Fu));
    put(0x80u | (c >> 6 & 0x3Fu));
  }
  put(0x80u | (c & 0x3Fu));
}

void erase_last(std::string& text) {
  while (!text.empty() && continues(text.back())) text.pop_back();
  if (!text.empty()) text.pop_back();
}

std::size_t letters_in(const std::string& text) {
  return static_cast<std::size_t>(
      std::count_if(text.begin(), text.end(), [](char c) { return !continues(c); }));
}

}  // namespace beforehand::stage
