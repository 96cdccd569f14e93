// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <optional>

#include "procedure/characters.hpp"
#include "study/timed_case.hpp"

namespace beforehand::study {
namespace {

constexpr std::size_t longest_text = std::size_t{1} << 20, most_lines = 10'000, most_problems = 200;
constexpr std::size_t longest_cell = 80;
constexpr Ms longest_case{12 * 3'600'000};
constexpr const char* heading = "person,step,start,end";

struct Cell {
  std::string text;
  Mark mark;
};
using Row = std::vector<Cell>;

/// Cuts a text into rows of cells.
class Cutter {
 public:
  Cutter(std::string_view text, std::vector<Problem>& problems)
      : text_(text), problems_(problems) {}

  /// False at the end. An empty line is no row.
  bool next(Row& row) {
    while (at_ < text_.size() && end_of_line()) skip_line_end();
    if (at_ >= text_.size()) return false;
    row.clear();
    do row.push_back(cell());
    while (at_ < text_.size() && text_[at_] == ',' && ++at_);
    if (at_ < text_.size() && !end_of_line()) {
      error(here(), "something behind the closing quote");
      while (at_ < text_.size() && !end_of_line()) ++at_;
    }
    skip_line_end();
    return true;
  }

 private:
  bool end_of_line() const { return text_[at_] == '\n' || text_[at_] == '\r'; }
  Mark here() const { return {line_, static_cast<int>(at_ - begin_) + 1}; }
  void error(Mark mark, std::string message) {
    problems_.push_back({Problem::Kind::error, mark, std::move(message)});
  }

  void skip_line_end() {
    if (at_ < text_.size() && text_[at_] == '\r') ++at_;
    if (at_ < text_.size() && text_[at_] == '\n') ++at_;
    new_line();
  }
  void new_line() {
    ++line_;
    begin_ = at_;
  }

  Cell cell() {
    const Mark mark = here();
    if (at_ < text_.size() && text_[at_] == '"') return {quoted(mark), mark};
    const auto from = at_;
    while (at_ < text_.size() && text_[at_] != ',' && !end_of_line()) ++at_;
    return {std::string(text_.substr(from, at_ - from)), mark};
  }

  std::string quoted(Mark mark) {
    std::string out;
    for (++at_; at_ < text_.size(); ++at_) {
      if (text_[at_] == '"' && text_.substr(at_ + 1, 1) != "\"") {
        ++at_;
        return out;
      }
      if (text_[at_] == '"') ++at_;
      out += text_[at_];
      if (text_[at_] == '\n') {
        ++at_;
        new_line();
        --at_;
      }
    }
    error(mark, "a quote that is never closed");
    return out;
  }

  std::string_view text_;
  std::vector<Problem>& problems_;
  std::size_t at_ = 0, begin_ = 0;
  int line_ = 1;
};

std::optional<std::int64_t> whole_number(std::string_view text, std::size_t most_digits) {
  std::int64_t n = 0;
  if (text.empty() || text.size() > most_digits) return std::nullopt;
  const auto [end, fault] = std::from_chars(text.data(), text.data() + text.size(), n);
  const bool digits =
      std::all_of(text.begin(), text.end(), [](char c) { return c >= '0' && c <= '9'; });
  return digits && fault == std::errc{} ? std::optional(n) : std::nullopt;
}

// "75", "75.5", "1:15.5", "0:01:15".
std::optional<Ms> moment(std::string_view text) {
  const auto dot = text.find('.');
  std::int64_t thousandths = 0;
  if (dot != std::string_view::npos) {
    auto digits = std::string(text.substr(dot + 1));
    if (digits.empty() || digits.size() > 3) return std::nullopt;
    digits.resize(3, '0');
    const auto n = whole_number(digits, 3);
    if (!n) return std::nullopt;
    thousandths = *n;
    text = text.substr(0, dot);
  }
  std::int64_t seconds = 0;
  for (int parts = 1;; ++parts) {
    const auto colon = text.find(':');
    const auto n = whole_number(text.substr(0, colon), parts == 1 ? 6 : 2);
    if (!n || parts > 3 || (parts > 1 && (*n > 59 || text.substr(0, colon).size() != 2)))
      return std::nullopt;
    seconds = seconds * 60 + *n;
    if (colon == std::string_view::npos) return Ms{seconds * 1000 + thousandths};
    text = text.substr(colon + 1);
  }
}

std::string trimmed(std::string_view text) {
  const auto from = text.find_first_not_of(" \t");
  if (from == std::string_view::npos) return "";
  return std::string(text.substr(from, text.find_last_not_of(" \t") - from + 1));
}

class CaseReader {
 public:
  CaseReader(std::string_view csv, CaseReading& out) : csv_(csv), out_(out) {}

  void read() {
    if (csv_.starts_with("\xef\xbb\xbf")) csv_.remove_prefix(3);
    if (csv_.size() > longest_text) return error({}, "longer than 1 MiB");
    if (const auto odd = procedure::find_odd_character(csv_))
      return error(odd->mark, odd->what.english());
    Cutter cutter(csv_, out_.problems);
    Row row;
    if (!cutter.next(row) || !is_heading(row))
      return error({1, 1}, fmt::format("the first line should be \"{}\"", heading));
    std::size_t lines = 0;
    while (cutter.next(row) && out_.problems.size() < most_problems) {
      if (++lines > most_lines) return error(row[0].mark, "more than 10,000 lines");
      read_row(row);
    }
    if (out_.problems.size() >= most_problems)
      return error({}, "too many problems to list; mend these first");
    if (lines == 0) error({}, "no work in it; write one line for each piece of work");
  }

 private:
  void error(Mark mark, std::string message) {
    out_.problems.push_back({Problem::Kind::error, mark, std::move(message)});
  }

  static bool is_heading(const Row& row) {
    std::string joined;
    for (const auto& cell : row) joined += (joined.empty() ? "" : ",") + trimmed(cell.text);
    std::transform(joined.begin(), joined.end(), joined.begin(),
                   [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c + 32) : c; });
    return joined == heading;
  }

  void read_row(const Row& row) {
    if (row.size() != 4)
      return error(row[0].mark,
                   fmt::format("{} cells; \"{}\" are four (a text with a comma needs quotes)",
                               row.size(), heading));
    const auto before = out_.problems.size();
    SeenWork seen{text(row[0], "person"), text(row[1], "step"), time(row[2], "start"),
                  time(row[3], "end")};
    if (out_.problems.size() != before) return;
    if (seen.end <= seen.start)
      return error(row[3].mark, fmt::format("\"{}\" ends at {}, no later than it starts ({})",
                                            procedure::shown(seen.step), row[3].text, row[2].text));
    out_.timed.seen.push_back(std::move(seen));
  }

  std::string text(const Cell& cell, const char* what) {
    auto out = trimmed(cell.text);
    if (out.empty())
      error(cell.mark, fmt::format("no {} here", what));
    else if (procedure::has_control_character(out) ||
             procedure::length_in_characters(out) > longest_cell)
      error(cell.mark,
            fmt::format("a {} is one line of at most {} characters", what, longest_cell));
    else if (std::string_view("=+-@").find(out.front()) != std::string_view::npos)
      error(cell.mark, fmt::format("\"{}\" begins as a formula does; a {} begins with a letter or "
                                   "digit",
                                   procedure::shown(out), what));
    return out;
  }

  Ms time(const Cell& cell, const char* what) {
    const auto at = moment(trimmed(cell.text));
    if (!at)
      error(cell.mark, fmt::format("\"{}\" is no {}; write seconds (75.5) or minutes (1:15.5)",
                                   procedure::shown(cell.text), what));
    else if (*at > longest_case)
      error(cell.mark, fmt::format("a {} after more than 12 hours", what));
    return at.value_or(Ms{0});
  }

  std::string_view csv_;
  CaseReading& out_;
};

}  // namespace

CaseReading read_case(std::string_view csv, std::string name) {
  CaseReading out;
  out.timed.name = std::move(name);
  CaseReader(csv, out).read();
  sort_by_place(out.problems);
  std::stable_sort(out.timed.seen.begin(), out.timed.seen.end(),
                   [](const SeenWork& a, const SeenWork& b) { return a.start < b.start; });
  return out;
}

}  // namespace beforehand::study
