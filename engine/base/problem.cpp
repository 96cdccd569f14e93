// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "base/problem.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace beforehand {
namespace {

constexpr std::size_t longest_shown_line = 160;

std::string_view line_of(std::string_view text, int line) {
  for (int i = 1; i < line; ++i) {
    const auto end = text.find('\n');
    if (end == std::string_view::npos) return {};
    text.remove_prefix(end + 1);
  }
  auto shown = text.substr(0, text.find('\n'));
  if (!shown.empty() && shown.back() == '\r') shown.remove_suffix(1);
  return shown.substr(0, longest_shown_line);
}

// Tabs are kept, so that the caret stands under its column in a terminal; control characters are
// not echoed.
std::string caret_under(std::string_view line, int column) {
  std::string pad;
  for (std::size_t i = 0; i + 1 < static_cast<std::size_t>(column) && i < line.size(); ++i) {
    const auto c = static_cast<unsigned char>(line[i]);
    if ((c & 0xc0) == 0x80)
      continue;  // the rest of a UTF-8 character stands in no column of its own
    pad += line[i] == '\t' ? '\t' : ' ';
  }
  return pad + '^';
}

std::string printable(std::string_view line) {
  std::string out;
  for (const char c : line) out += (static_cast<unsigned char>(c) < 0x20 && c != '\t') ? '?' : c;
  return out;
}

}  // namespace

bool has_errors(const std::vector<Problem>& problems) {
  return std::any_of(problems.begin(), problems.end(),
                     [](const Problem& p) { return p.kind == Problem::Kind::error; });
}

void sort_by_place(std::vector<Problem>& problems) {
  std::stable_sort(problems.begin(), problems.end(),
                   [](const Problem& a, const Problem& b) { return a.mark < b.mark; });
}

namespace {

std::string printed(const Problem& p, std::string_view path, std::string_view text,
                    const Phrases& phrases = {}) {
  const auto kind = Said(p.kind == Problem::Kind::error ? "error" : "warning").in(phrases);
  const auto message = p.message.in(phrases);
  if (p.mark.line <= 0) return fmt::format("{}: {}: {}\n", path, kind, message);
  const auto line = line_of(text, p.mark.line);
  return fmt::format("{}:{}:{}: {}: {}\n    {}\n    {}\n", path, p.mark.line, p.mark.column, kind,
                     message, printable(line), caret_under(line, p.mark.column));
}

}  // namespace

std::string print(const std::vector<Problem>& problems, std::string_view path,
                  std::string_view text) {
  std::string out;
  for (const auto& p : problems) out += printed(p, path, text);
  return out;
}

std::string print(const std::vector<Problem>& problems, const std::vector<Source>& sources,
                  const Phrases& phrases) {
  std::string out;
  for (const auto& p : problems) {
    const auto& source = sources.at(static_cast<std::size_t>(p.mark.file));
    out += printed(p, source.path, source.text, phrases);
  }
  return out;
}

}  // namespace beforehand
