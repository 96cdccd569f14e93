// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "procedure/forms.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>

#include "base/text.hpp"
#include "procedure/characters.hpp"

namespace beforehand::procedure {
namespace {

constexpr Ms longest_duration{3 * 60 * 60 * 1000};

bool is_digit(char c) { return c >= '0' && c <= '9'; }

// A decimal number without sign or exponent at the front of `text`, in thousandths; at most six
// digits before the point, three after it.
std::optional<std::int64_t> take_thousandths(std::string_view& text) {
  std::int64_t value = 0;
  std::size_t i = 0;
  while (i < text.size() && i <= 6 && is_digit(text[i])) value = value * 10 + (text[i++] - '0');
  if (i == 0 || i > 6) return std::nullopt;
  std::size_t decimals = 0;
  if (i + 1 < text.size() && text[i] == '.' && is_digit(text[i + 1])) {
    ++i;
    while (i < text.size() && is_digit(text[i]) && decimals < 3) {
      value = value * 10 + (text[i++] - '0');
      ++decimals;
    }
    if (i < text.size() && is_digit(text[i])) return std::nullopt;
  }
  for (; decimals < 3; ++decimals) value *= 10;
  text.remove_prefix(i);
  return value;
}

void skip_spaces(std::string_view& text) {
  text.remove_prefix(std::min(text.find_first_not_of(' '), text.size()));
}

// Milliseconds a unit, 0 for none known.
std::int64_t take_unit(std::string_view& text) {
  struct Unit {
    std::string_view name;
    std::int64_t ms;
  };
  for (const auto& unit : {Unit{"ms", 1}, Unit{"min", 60'000}, Unit{"s", 1000}}) {
    if (!text.starts_with(unit.name)) continue;
    const auto rest = text.substr(unit.name.size());
    if (!rest.empty() && rest.front() != ' ') continue;
    text = rest;
    return unit.ms;
  }
  return 0;
}

// One part or, in "1 min 30 s", two, the larger unit first.
std::optional<Ms> duration_of(std::string_view text) {
  std::int64_t total = 0, last_unit = 0;
  do {
    const auto thousandths = take_thousandths(text);
    if (!thousandths) return std::nullopt;
    skip_spaces(text);
    const auto unit = take_unit(text);
    const bool out_of_order = last_unit != 0 && unit >= last_unit;
    if (unit == 0 || out_of_order || *thousandths * unit % 1000 != 0) return std::nullopt;
    total += *thousandths * unit / 1000;
    last_unit = unit;
    skip_spaces(text);
  } while (!text.empty());
  return Ms{total};
}

// The whole of `text` as a number, or nothing.
std::optional<std::int64_t> thousandths_of(std::string_view text) {
  const auto value = take_thousandths(text);
  return text.empty() ? value : std::nullopt;
}

Said duration_fault(std::string_view text) {
  std::string_view rest = text;
  const auto number = take_thousandths(rest);
  const auto figure = text.substr(0, text.size() - rest.size());
  skip_spaces(rest);
  if (number && rest.empty())
    return say("\"{}\" has no unit; write {} s, or {} min if minutes are meant", text, text, text);
  if (number && (rest.starts_with("-") || text.find(" to ") != std::string_view::npos))
    return say(
        "\"{}\" is no single duration; write a range as {least: 8 s, usual: 10 s, most: 14 s}",
        shown(text));
  if (number && (rest.starts_with("sec") || rest.starts_with("S")))
    return say("\"{}\" is not a duration; write {} s", shown(text), figure);
  if (number && (rest.starts_with("m") || rest.starts_with("M")))
    return say("\"{}\" is not a duration; write {} min", shown(text), figure);
  return say("\"{}\" is not a duration; write it like 15 s, 2.5 s or 1 min 30 s", shown(text));
}

const char* kind_of(const Node& node) {
  switch (node.kind) {
    case Node::Kind::empty:
      return "nothing";
    case Node::Kind::text:
      return "a text";
    case Node::Kind::list:
      return "a list";
    case Node::Kind::map:
      break;
  }
  return "keys with values";
}

std::string_view without_end_spaces(std::string_view text) {
  const auto last = text.find_last_not_of(" \n\t");
  return text.substr(0, last == std::string_view::npos ? 0 : last + 1);
}

std::optional<std::string> prose(const Node& node, std::size_t longest, Report& report) {
  const auto* whole = text_of(node, "a text", report);
  if (!whole) return std::nullopt;
  const auto text = without_end_spaces(*whole);
  const auto length = length_in_characters(text);
  if (text.empty()) {
    report.slip(node.mark, "an empty text; write one or take the key away");
  } else if (length > 2 * longest) {
    report.slip(node.mark, say("{} characters; at most {} fit where this is shown; are its quotes "
                               "closed?",
                               length, longest));
  } else if (length > longest) {
    report.slip(node.mark,
                say("{} characters; at most {} fit where this is shown", length, longest));
  } else if (has_control_character(text)) {
    report.slip(node.mark,
                "a line break or other control character in the text; write it as one line");
  } else {
    return std::string(text);
  }
  return std::nullopt;
}

}  // namespace

const std::string* text_of(const Node& node, const Said& wanted, Report& report) {
  if (node.kind == Node::Kind::text) return &node.text;
  report.error(node.mark, say("{} should stand here, not {}", wanted, kind_of(node)));
  return nullptr;
}

bool check_id(const Node& node, Report& report) {
  const auto* text = text_of(node, "an id", report);
  if (!text) return false;
  const bool fits = !text->empty() && text->size() <= longest_id;
  const auto allowed = [](char c) { return (c >= 'a' && c <= 'z') || is_digit(c) || c == '-'; };
  if (fits && std::all_of(text->begin(), text->end(), allowed)) return true;
  report.error(node.mark, say("\"{}\" cannot be an id; use small letters, digits and "
                              "hyphens, {} at most",
                              shown(*text), longest_id));
  return false;
}

std::optional<std::string> Form<Id>::read(const Node& node, Report& report) {
  if (!check_id(node, report)) return std::nullopt;
  return node.text;
}

std::optional<std::string> Form<Language>::read(const Node& node, Report& report) {
  const auto* text = text_of(node, "a language", report);
  if (!text) return std::nullopt;
  const auto letter = [](char c) { return c >= 'a' && c <= 'z'; };
  if (text->size() == 2 && std::all_of(text->begin(), text->end(), letter)) return *text;
  report.error(node.mark,
               say("\"{}\" is no language; write its two letters, as in \"es\"", shown(*text)));
  return std::nullopt;
}

std::optional<std::string> Form<Title>::read(const Node& node, Report& report) {
  return prose(node, longest_title, report);
}

std::optional<std::string> Form<Prose>::read(const Node& node, Report& report) {
  return prose(node, longest_prose, report);
}

std::optional<bool> Form<bool>::read(const Node& node, Report& report) {
  const auto* text = text_of(node, "true or false", report);
  if (!text) return std::nullopt;
  if (*text == "true") return true;
  if (*text == "false") return false;
  report.error(node.mark, say("\"{}\" should be true or false", shown(*text)));
  return std::nullopt;
}

std::optional<int> Form<Count>::read(const Node& node, Report& report) {
  const auto* text = text_of(node, "a whole number", report);
  if (!text) return std::nullopt;
  int value = 0;
  const auto [end, fault] = std::from_chars(text->data(), text->data() + text->size(), value);
  if (fault == std::errc{} && end == text->data() + text->size() && value >= 0) return value;
  report.error(node.mark, say("\"{}\" should be a whole number", shown(*text)));
  return std::nullopt;
}

std::optional<int> Form<Percent>::read(const Node& node, Report& report) {
  const auto* text = text_of(node, "a percentage", report);
  if (!text) return std::nullopt;
  std::string_view rest = *text;
  const auto value = take_thousandths(rest);
  skip_spaces(rest);
  if (value && rest == "%" && *value % 1000 == 0 && *value <= 100'000)
    return static_cast<int>(*value / 1000);
  report.slip(node.mark, value && rest.empty()
                             ? say("\"{}\" has no unit; write {} %", *text, *text)
                             : say("\"{}\" is not a percentage; write a whole number from "
                                   "0 % to 100 %",
                                   shown(*text)));
  return std::nullopt;
}

std::optional<double> Form<Clock>::read(const Node& node, Report& report) {
  const auto* text = text_of(node, "an hour on the clock face", report);
  if (!text) return std::nullopt;
  const auto value = thousandths_of(*text);
  if (value && *value > 0 && *value < 13'000) return static_cast<double>(*value) / 1000.0;
  report.slip(node.mark, say("\"{}\" is not a clock position; write an hour from 1 to 12, "
                             "halves as 3.5",
                             shown(*text)));
  return std::nullopt;
}

std::optional<Ms> Form<Ms>::read(const Node& node, Report& report) {
  const auto* text = text_of(node, "a duration", report);
  if (!text) return std::nullopt;
  const auto value = duration_of(*text);
  if (value && *value <= longest_duration) return value;
  report.error(node.mark,
               value ? say("\"{}\" is longer than 3 hours", shown(*text)) : duration_fault(*text));
  return std::nullopt;
}

namespace {

// A number up to `most` with one of two ways to write its unit, in thousandths.
std::optional<std::int64_t> measured(std::string_view text, std::string_view unit,
                                     std::string_view also) {
  const auto value = take_thousandths(text);
  skip_spaces(text);
  return value && (text == unit || text == also) ? value : std::nullopt;
}

}  // namespace

std::optional<int> Form<Irradiance>::read(const Node& node, Report& report) {
  const auto* text = text_of(node, "an irradiance", report);
  if (!text) return std::nullopt;
  const auto value = measured(*text, "mW/cm2", "mW/cm²");
  if (value && *value > 0 && *value <= 10'000'000 && *value % 1000 == 0)
    return static_cast<int>(*value / 1000);
  report.error(node.mark, say("\"{}\" is no irradiance; write it like 1000 mW/cm2, as your "
                              "radiometer shows it",
                              shown(*text)));
  return std::nullopt;
}

std::optional<int> Form<Exposure>::read(const Node& node, Report& report) {
  const auto* text = text_of(node, "a light energy", report);
  if (!text) return std::nullopt;
  const auto value = measured(*text, "J/cm2", "J/cm²");
  if (value && *value > 0 && *value <= 1'000'000) return static_cast<int>(*value);
  report.error(node.mark, say("\"{}\" is no light energy; write it like 16 J/cm2", shown(*text)));
  return std::nullopt;
}

std::optional<TimedBy> Form<TimedBy>::read(const Node& node, Report& report) {
  const auto* text = text_of(node, "a time of a material", report);
  if (!text) return std::nullopt;
  TimedBy out;
  out.mark = node.mark;
  std::string_view rest = *text;
  if (rest.size() > 4 && is_digit(rest[0]) && rest[0] > '1' && rest.substr(1, 3) == " x ") {
    out.times = rest[0] - '0';
    rest.remove_prefix(4);
  }
  const auto of = rest.find(" of ");
  if (of != std::string_view::npos) {
    Node time{Node::Kind::text, node.mark, std::string(rest.substr(0, of)), {}};
    Node id{Node::Kind::text, node.mark, std::string(rest.substr(of + 4)), {}};
    static const auto words = words_of<MaterialTime>(material_time_count);
    const auto which = choice(time, words, "time of a material", report);
    if (!which || !check_id(id, report)) return std::nullopt;
    out.time = static_cast<MaterialTime>(*which);
    out.material = id.text;
    return out;
  }
  report.error(node.mark, say("\"{}\" is no time of a material; write it like \"mixing of "
                              "core-paste\" or \"2 x curing of composite\"",
                              shown(*text)));
  return std::nullopt;
}

std::string exposure_text(int millijoules) {
  return fmt::format("{:.10g} J/cm2", millijoules / 1000.0);
}

std::optional<std::size_t> choice(const Node& node, const std::vector<std::string>& words,
                                  const char* kind, Report& report) {
  const auto* text = text_of(node, say("a {}", kind), report);
  if (!text) return std::nullopt;
  const auto found = std::find(words.begin(), words.end(), *text);
  if (found != words.end()) return static_cast<std::size_t>(found - words.begin());
  constexpr std::size_t shortest_mistyped = 3;  // "VI" is near to everything
  auto near =
      text->size() < shortest_mistyped || report.full() ? std::nullopt : nearest(*text, words);
  for (const auto& word : words)  // "mixes"
    if (!near && word.size() >= shortest_mistyped && text->starts_with(word)) near = word;
  report.error(node.mark,
               near ? say("\"{}\" is no {}; did you mean \"{}\"?", shown(*text), kind, *near)
                    : say("\"{}\" is no {}; it is one of {}", shown(*text), kind,
                          listed({words.begin(), words.end()})));
  return std::nullopt;
}

}  // namespace beforehand::procedure
