// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "procedure/characters.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace beforehand::procedure {
namespace {

unsigned byte_at(std::string_view text, std::size_t i) {
  return i < text.size() ? static_cast<unsigned char>(text[i]) : 0;
}

bool continues(unsigned byte) { return (byte & 0xc0u) == 0x80u; }

// Bytes of the well-formed UTF-8 sequence at `i`, or 0 (RFC 3629, section 4).
std::size_t sequence_length(std::string_view text, std::size_t i) {
  const unsigned a = byte_at(text, i), b = byte_at(text, i + 1);
  if (a < 0x80) return 1;
  if (a < 0xc2 || a > 0xf4 || !continues(b)) return 0;
  if (a < 0xe0) return 2;
  const bool overlong = (a == 0xe0 && b < 0xa0) || (a == 0xf0 && b < 0x90);
  const bool surrogate = a == 0xed && b >= 0xa0;
  const bool beyond = a == 0xf4 && b >= 0x90;
  if (overlong || surrogate || beyond || !continues(byte_at(text, i + 2))) return 0;
  if (a < 0xf0) return 3;
  return continues(byte_at(text, i + 3)) ? 4 : 0;
}

// C0, DEL and C1 (U+0080 to U+009F); the latter start with 0xc2 in UTF-8.
bool is_control(std::string_view text, std::size_t i) {
  const unsigned a = byte_at(text, i);
  return a < 0x20 || a == 0x7f || (a == 0xc2 && byte_at(text, i + 1) < 0xa0);
}

Mark mark_at(std::string_view text, std::size_t i) {
  const auto before = text.substr(0, i);
  const auto line_start = before.rfind('\n');
  const auto column = line_start == std::string_view::npos ? i + 1 : i - line_start;
  return {static_cast<int>(std::count(before.begin(), before.end(), '\n')) + 1,
          static_cast<int>(column)};
}

}  // namespace

std::optional<OddCharacter> find_odd_character(std::string_view text) {
  for (std::size_t i = 0; i < text.size();) {
    const auto length = sequence_length(text, i);
    if (length == 0)
      return OddCharacter{mark_at(text, i), "not UTF-8 text; save the file as UTF-8"};
    const char c = text[i];
    if (c != '\t' && c != '\n' && c != '\r' && is_control(text, i))
      return OddCharacter{mark_at(text, i), say("a control character (byte {}); take it away",
                                                fmt::format("{:#04x}", byte_at(text, i)))};
    i += length;
  }
  return std::nullopt;
}

std::size_t length_in_characters(std::string_view text) {
  return static_cast<std::size_t>(
      std::count_if(text.begin(), text.end(), [](char c) { return (c & 0xc0) != 0x80; }));
}

bool has_control_character(std::string_view text) {
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (is_control(text, i)) return true;
  }
  return false;
}

std::string shown(std::string_view text) {
  constexpr std::size_t longest_shown = 60;
  std::string out;
  for (std::size_t i = 0; i < text.size();) {
    const auto length = std::max<std::size_t>(1, sequence_length(text, i));
    if (out.size() + length > longest_shown) return out + "...";
    out += is_control(text, i) ? "?" : std::string(text.substr(i, length));
    i += length;
  }
  return out;
}

}  // namespace beforehand::procedure
