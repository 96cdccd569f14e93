// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "records/names.hpp"

#include <stdexcept>

#include "procedure/characters.hpp"

namespace beforehand::records {
namespace {

constexpr std::size_t longest_name = 200;

// The lower-case letter of a two-byte character; the blocks differ in how far it lies.
unsigned lower(unsigned c) {
  const bool latin1 = c >= 0xc0 && c <= 0xde && c != 0xd7;
  const bool greek = c >= 0x391 && c <= 0x3a9, cyrillic = c >= 0x410 && c <= 0x42f;
  if (latin1 || greek || cyrillic) return c + 0x20;
  if (c >= 0x400 && c <= 0x40f) return c + 0x50;
  const bool even_first = (c >= 0x100 && c <= 0x137 && c != 0x130) || (c >= 0x14a && c <= 0x177);
  const bool odd_first = (c >= 0x139 && c <= 0x148) || (c >= 0x179 && c <= 0x17e);
  if ((even_first && c % 2 == 0) || (odd_first && c % 2 == 1)) return c + 1;
  return c == 0x178 ? 0xff : c;
}

}  // namespace

std::string checked_name(std::string_view name) {
  const auto first = name.find_first_not_of(' ');
  if (first == std::string_view::npos) throw std::runtime_error("a name cannot be empty");
  name = name.substr(first, name.find_last_not_of(' ') - first + 1);
  if (name.size() > longest_name) throw std::runtime_error("the name is longer than 200 bytes");
  if (procedure::has_control_character(name) || procedure::find_odd_character(name))
    throw std::runtime_error("the name holds a control character, or is not UTF-8");
  return std::string(name);
}

std::string folded(std::string_view text) {
  std::string out(text);
  for (std::size_t i = 0; i < out.size(); ++i) {
    const auto byte = static_cast<unsigned char>(out[i]);
    if (byte >= 'A' && byte <= 'Z') {
      out[i] = static_cast<char>(byte + 0x20);
    } else if ((byte & 0xe0) == 0xc0 && i + 1 < out.size()) {
      const unsigned next = static_cast<unsigned char>(out[i + 1]);
      const unsigned c = lower((byte & 0x1fu) << 6 | (next & 0x3fu));
      out[i] = static_cast<char>(0xc0 | c >> 6);
      out[++i] = static_cast<char>(0x80 | (c & 0x3f));
    }
  }
  return out;
}

}  // namespace beforehand::records
