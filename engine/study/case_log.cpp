// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "study/case_log.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <optional>

namespace beforehand::study {
namespace {

constexpr std::string_view first_line = "beforehand-observation 1\n";
constexpr std::array<std::string_view, 5> kinds{"start", "end", "note", "shift", "undo"};

// Tabs and line ends part what is written, so a text has none.
std::string plain(std::string text) {
  std::replace_if(
      text.begin(), text.end(), [](char c) { return static_cast<unsigned char>(c) < 0x20; }, ' ');
  return text;
}

std::optional<Ms> milliseconds(std::string_view text) {
  std::int64_t n = 0;
  const auto [end, fault] = std::from_chars(text.data(), text.data() + text.size(), n);
  const bool whole = fault == std::errc{} && end == text.data() + text.size();
  return whole ? std::optional(Ms{n}) : std::nullopt;
}

std::optional<Tap> tap_from(std::string_view line) {
  std::vector<std::string_view> cells;
  for (std::size_t from = 0; from <= line.size();) {
    const auto to = std::min(line.find('\t', from), line.size());
    cells.push_back(line.substr(from, to - from));
    from = to + 1;
  }
  if (cells.size() != 5) return std::nullopt;
  const auto kind = std::find(kinds.begin(), kinds.end(), cells[0]);
  const auto at = milliseconds(cells[1]), by = milliseconds(cells[4]);
  if (kind == kinds.end() || !at || !by || *at < Ms{0}) return std::nullopt;
  return Tap{static_cast<Tap::Kind>(kind - kinds.begin()), *at, std::string(cells[2]),
             std::string(cells[3]), *by};
}

bool is_moment(const Tap& t) { return t.kind == Tap::Kind::start || t.kind == Tap::Kind::end; }

std::string csv_cell(const std::string& text) {
  if (text.find_first_of(",\"") == std::string::npos) return text;
  std::string out = "\"";
  for (const char c : text) out += c == '"' ? std::string("\"\"") : std::string(1, c);
  return out + "\"";
}

}  // namespace

std::string log_heading() { return std::string(first_line); }

std::string log_line(const Tap& t) {
  return fmt::format("{}\t{}\t{}\t{}\t{}\n", kinds[static_cast<std::size_t>(t.kind)], t.at.count(),
                     plain(t.person), plain(t.text), t.by.count());
}

bool is_case_log(std::string_view text) { return text.starts_with(first_line); }

CaseLog CaseLog::parse(std::string_view text, std::vector<Problem>& problems) {
  CaseLog log;
  if (!is_case_log(text)) {
    problems.push_back({Problem::Kind::error, {1, 1}, "this is no observation"});
    return log;
  }
  int line = 2;
  for (auto at = first_line.size(); at < text.size(); ++line) {
    const auto end = text.find('\n', at);
    if (end == std::string_view::npos) break;  // cut off while it was written
    if (auto tap = tap_from(text.substr(at, end - at)))
      log.add(std::move(*tap));
    else
      problems.push_back({Problem::Kind::error, {line, 1}, "this line is no tap"});
    at = end + 1;
  }
  return log;
}

void CaseLog::add(Tap t) {
  t.person = plain(std::move(t.person));
  t.text = plain(std::move(t.text));
  if (t.kind != Tap::Kind::undo)
    kept_.push_back(std::move(t));
  else if (!kept_.empty())
    kept_.pop_back();
}

std::vector<Tap> CaseLog::taps() const {
  std::vector<Tap> out;
  for (const auto& t : kept_) {
    if (t.kind != Tap::Kind::shift) {
      out.push_back(t);
      continue;
    }
    const auto last = std::find_if(out.rbegin(), out.rend(), is_moment);
    if (last != out.rend()) last->at = std::max(Ms{0}, last->at + t.by);
  }
  return out;
}

Ms CaseLog::last() const {
  Ms at{0};
  for (const auto& t : kept_) at = std::max(at, t.at);
  return at;
}

std::vector<SeenWork> CaseLog::going_on() const {
  std::vector<SeenWork> open;
  for (const auto& t : taps()) {
    if (t.kind == Tap::Kind::start) open.push_back({t.person, t.text, t.at, never});
    if (t.kind == Tap::Kind::end)
      std::erase_if(open, [&](const auto& w) { return w.person == t.person && w.step == t.text; });
  }
  return open;
}

Ms CaseLog::since(const std::string& person, const std::string& text) const {
  for (const auto& w : going_on())
    if (w.person == person && w.step == text) return w.start;
  return never;
}

bool CaseLog::goes_on(const std::string& person, const std::string& text) const {
  return since(person, text) != never;
}

bool CaseLog::seen(const std::string& text) const {
  const auto all = taps();
  return std::any_of(all.begin(), all.end(),
                     [&](const Tap& t) { return t.kind == Tap::Kind::start && t.text == text; });
}

TimedCase CaseLog::timed(Ms now, std::string name) const {
  TimedCase out{std::move(name), {}};
  for (const auto& t : taps()) {
    if (t.kind == Tap::Kind::start) out.seen.push_back({t.person, t.text, t.at, never});
    if (t.kind != Tap::Kind::end) continue;
    for (auto& w : out.seen)
      if (w.person == t.person && w.step == t.text && w.end == never) w.end = t.at;
  }
  for (auto& w : out.seen) w.end = std::min(w.end, std::max(now, w.start));
  std::erase_if(out.seen, [](const SeenWork& w) { return w.end <= w.start; });
  std::stable_sort(out.seen.begin(), out.seen.end(),
                   [](const SeenWork& a, const SeenWork& b) { return a.start < b.start; });
  return out;
}

std::string to_csv(const TimedCase& timed) {
  std::string out = "person,step,start,end\n";
  for (const auto& w : timed.seen)
    out += fmt::format("{},{},{:.3f},{:.3f}\n", csv_cell(w.person), csv_cell(w.step),
                       to_seconds(w.start), to_seconds(w.end));
  return out;
}

}  // namespace beforehand::study
