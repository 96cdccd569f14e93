// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "procedure/extent.hpp"

#include <algorithm>

namespace beforehand::procedure {
namespace {

bool is_blank(char c) { return c == ' ' || c == '\t'; }
bool is_remark(std::string_view yaml, std::size_t at) {
  return yaml[at] == '#' && (at == 0 || is_blank(yaml[at - 1]) || yaml[at - 1] == '\n');
}

std::size_t without_blanks(std::string_view yaml, std::size_t from, std::size_t end) {
  while (end > from && (is_blank(yaml[end - 1]) || yaml[end - 1] == '\n' || yaml[end - 1] == '\r'))
    --end;
  return end;
}

// A quote opens a quoted text only where a value may begin.
bool opens_quotes(std::string_view yaml, std::size_t at) {
  if (yaml[at] != '"' && yaml[at] != '\'') return false;
  return at == 0 || is_blank(yaml[at - 1]) ||
         std::string_view("[{,:\n").find(yaml[at - 1]) != std::string_view::npos;
}

std::size_t end_of_brackets(std::string_view yaml, std::size_t at) {
  int depth = 0;
  while (at < yaml.size()) {
    const char c = yaml[at];
    if (opens_quotes(yaml, at)) {
      at = end_of_quotes(yaml, at);
      continue;
    }
    if (is_remark(yaml, at)) {
      at = end_of_line(yaml, at);
      continue;
    }
    if (c == '{' || c == '[') ++depth;
    if ((c == '}' || c == ']') && --depth == 0) return at + 1;
    ++at;
  }
  return yaml.size();
}

bool ends_plain(std::string_view yaml, std::size_t at, bool in_flow) {
  const char c = yaml[at];
  return is_remark(yaml, at) || (in_flow && (c == ',' || c == '}' || c == ']'));
}

std::size_t end_of_plain(std::string_view yaml, std::size_t at, bool in_flow, std::size_t indent) {
  const auto from = at;
  for (; at < yaml.size() && !ends_plain(yaml, at, in_flow); ++at) {
    if (yaml[at] != '\n' || in_flow) continue;
    const auto next = yaml.find_first_not_of(" \t\r\n", at);
    if (next == std::string_view::npos || indent_of(yaml, next) <= indent) break;
  }
  return without_blanks(yaml, from, at);
}

// Its lines are indented deeper; an empty line between them belongs to it.
std::size_t end_of_folded(std::string_view yaml, std::size_t at, std::size_t indent) {
  auto end = end_of_line(yaml, at);
  for (auto line = next_line(yaml, at); line < yaml.size(); line = next_line(yaml, line)) {
    const auto first = std::min(yaml.find_first_not_of(" \t\r", line), yaml.size());
    if (first == yaml.size() || yaml[first] == '\n') continue;
    if (first - line <= indent) break;
    end = end_of_line(yaml, line);
  }
  return end;
}

}  // namespace

std::size_t offset_of(std::string_view yaml, Mark mark) {
  std::size_t at = yaml.starts_with("\xef\xbb\xbf") ? 3 : 0;
  for (int line = 1; line < mark.line; ++line) at = next_line(yaml, at);
  return std::min(at + static_cast<std::size_t>(std::max(mark.column, 1)) - 1, yaml.size());
}

std::size_t line_start(std::string_view yaml, std::size_t at) {
  const auto before = at == 0 ? std::string_view::npos : yaml.rfind('\n', at - 1);
  return before == std::string_view::npos ? 0 : before + 1;
}

std::size_t next_line(std::string_view yaml, std::size_t at) {
  return std::min(end_of_line(yaml, at) + 1, yaml.size());
}

std::size_t indent_of(std::string_view yaml, std::size_t at) {
  const auto start = line_start(yaml, at);
  return std::min(yaml.find_first_not_of(' ', start), yaml.size()) - start;
}

bool opens_brackets(std::string_view yaml, std::size_t at) {
  return at < yaml.size() && (yaml[at] == '{' || yaml[at] == '[');
}

std::size_t end_of_line(std::string_view yaml, std::size_t at) {
  return std::min(yaml.find('\n', at), yaml.size());
}

std::size_t end_of_quotes(std::string_view yaml, std::size_t at) {
  const char quote = yaml[at++];
  for (; at < yaml.size(); ++at) {
    if (quote == '"' && yaml[at] == '\\') {
      ++at;
    } else if (yaml[at] == quote) {
      if (quote == '"' || yaml.substr(at, 2) != "''") return at + 1;
      ++at;
    }
  }
  return yaml.size();
}

std::size_t end_of(std::string_view yaml, std::size_t at, bool in_flow, std::size_t indent) {
  const char c = at < yaml.size() ? yaml[at] : '\n';
  if (opens_brackets(yaml, at)) return end_of_brackets(yaml, at);
  if (c == '"' || c == '\'') return end_of_quotes(yaml, at);
  if (c == '|' || c == '>') return end_of_folded(yaml, at, indent);
  return end_of_plain(yaml, at, in_flow, indent);
}

}  // namespace beforehand::procedure
