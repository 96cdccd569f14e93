// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "picture/markup.hpp"

#include "picture/utf8.hpp"

namespace beforehand::picture {

namespace {

bool is_xml_character(char32_t c) {
  return c == '\t' || c == '\n' || c == '\r' || (c >= 0x20 && c != 0xFFFE && c != 0xFFFF);
}

}  // namespace

std::string escape_markup(std::string_view text) {
  std::string out;
  while (!text.empty()) {
    const std::string_view before = text;
    const char32_t c = take_character(text);
    if (c == '&')
      out += "&amp;";
    else if (c == '<')
      out += "&lt;";
    else if (c == '>')
      out += "&gt;";
    else if (c == '"')
      out += "&quot;";
    else if (c == 0xFFFD || !is_xml_character(c))
      out += "\uFFFD";
    else
      out += before.substr(0, before.size() - text.size());
  }
  return out;
}

}  // namespace beforehand::picture
