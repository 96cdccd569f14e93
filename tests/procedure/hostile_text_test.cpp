// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// Texts made to hurt, and good ones damaged at random: each is read or refused, quickly, with a
// reason.
#include <rapidcheck.h>

#include <chrono>

#include "scenario_files.hpp"

namespace beforehand::procedure {
namespace {

// Generous: what is refused should take milliseconds, and the sanitizers slow everything down.
constexpr std::chrono::seconds patience{10};

std::string times(std::size_t n, const std::string& text) {
  std::string out;
  out.reserve(n * text.size());
  for (std::size_t i = 0; i < n; ++i) out += text;
  return out;
}

// The first thing said of a text that must not be read.
std::string refusal_of(const std::string& text) {
  const auto start = std::chrono::steady_clock::now();
  const auto reading = read(text);
  EXPECT_LT(std::chrono::steady_clock::now() - start, patience);
  EXPECT_FALSE(reading.procedure);
  EXPECT_TRUE(has_errors(reading.problems));
  EXPECT_LE(reading.problems.size(), 201u);
  const auto said = print(reading.problems, "x", text);
  return said.substr(0, said.find('\n'));
}

TEST(HostileText, TooLarge) {
  EXPECT_EQ(refusal_of(std::string(std::size_t{2} << 20, ' ')),
            "x: error: larger than 1 MiB; a scenario is a few pages");
}

TEST(HostileText, TooDeep) {
  for (const auto& text : {times(100'000, "["), "a: " + times(100'000, "{a: "),
                           times(100'000, "- "), times(100'000, "? ")})
    EXPECT_NE(refusal_of(text).find("error: nested deeper than 32 levels"), std::string::npos);
}

// Each name stands for nine of the one before: ten lines that would grow to 9^10 values.
TEST(HostileText, AliasesThatMultiply) {
  std::string text = "a0: &a0 lol\n";
  for (int i = 1; i <= 10; ++i) {
    const auto n = std::to_string(i), before = "*a" + std::to_string(i - 1);
    text += "a" + n + ": &a" + n + " [" + times(8, before + ", ") + before + "]\n";
  }
  EXPECT_EQ(refusal_of(text), "x:9:15: error: more than 64 aliases (*name); write it out");
}

TEST(HostileText, TooManySteps) {
  EXPECT_EQ(refusal_of("steps:\n" + times(100'000, "- {}\n")),
            "x:2002:3: error: more than 1000 entries in one place");
  auto text = tiny_text();
  for (int i = 0; i < 400; ++i)
    text += "  - {id: s" + std::to_string(i) +
            ", title: Waits, phase: line, by: clinician, takes: 1 s}\n";
  EXPECT_NE(refusal_of(text).find("error: more than 400 steps"), std::string::npos);
}

TEST(HostileText, TooManyValues) {
  const auto row = "[" + times(999, "1,") + "1]\n";
  EXPECT_NE(refusal_of(times(100, "- " + row)).find("more than 60000 values"), std::string::npos);
}

TEST(HostileText, ManyKeysOfOneMap) {
  std::string keys;
  for (int i = 0; i < 900; ++i) keys += "k" + std::to_string(i) + ": 1\n";
  EXPECT_NE(refusal_of(keys), "");
  EXPECT_NE(refusal_of(times(900, "k: 1\n")), "");
}

TEST(HostileText, OneLongWord) {
  const std::string word(1'000'000, 'x');
  EXPECT_LT(refusal_of(word).size(), 300u);
  EXPECT_LT(refusal_of(word + ": 1").size(), 300u);
  EXPECT_LT(refusal_of("id: " + word).size(), 300u);
  EXPECT_LT(refusal_of(std::string(100'000, '9')).size(), 300u);
}

// 400 steps that may each not apply, all at one supply: every link must be carried over all others.
TEST(HostileText, EveryStepConditionalOnOneSupply) {
  auto text = tiny_text();
  std::string signals;
  for (int i = 0; i < 15; ++i)
    signals += "  s" + std::to_string(i) +
               ": {title: S, cue: C, likely: 50 %, after: rinse, delay: 1 s}\n";
  text = with(text, "phases:\n", signals + "phases:\n");
  for (int i = 0; i < 380; ++i)
    text += "  - {id: q" + std::to_string(i) +
            ", title: Wipes, phase: line, by: assistant, does: wipe, supply: gauze, takes: 1 s, "
            "after: [{step: rinse, at-most: 10 s}], when: [s" +
            std::to_string(i % 15) + ", bleeding]}\n";
  EXPECT_NE(refusal_of(text), "");
}

TEST(HostileText, NotText) {
  using namespace std::string_literals;
  EXPECT_EQ(refusal_of("id: a\0b\n"s),
            "x:1:6: error: a control character (byte 0x00); take it away");
  EXPECT_EQ(refusal_of("id: a\n\x1b[2J"),
            "x:2:1: error: a control character (byte 0x1b); take it away");
  const std::string said = "error: not UTF-8 text; save the file as UTF-8";
  EXPECT_EQ(refusal_of("title: caf\xe9\n"), "x:1:11: " + said);
  EXPECT_EQ(refusal_of("\xff\xfei\0d\0"s), "x:1:1: " + said);
  EXPECT_EQ(refusal_of("title: \xc0\xaf"), "x:1:8: " + said);          // overlong
  EXPECT_EQ(refusal_of("title: \xed\xa0\x80"), "x:1:8: " + said);      // a surrogate
  EXPECT_EQ(refusal_of("title: \xf4\x90\x80\x80"), "x:1:8: " + said);  // beyond Unicode
}

TEST(HostileText, ByteOrderMarkAndOtherLineEndsAreRead) {
  auto text = tiny_text();
  for (std::size_t at = 0; (at = text.find('\n', at)) != std::string::npos; at += 2)
    text.insert(at, "\r");
  EXPECT_EQ(read_well("\xef\xbb\xbf" + text).steps.size(), 10u);
}

// A damaged text gives a procedure or a reason, never both and never neither.
void expect_answer(const std::string& text) {
  const auto reading = read(text);
  RC_ASSERT(reading.procedure.has_value() != has_errors(reading.problems));
  RC_ASSERT(!print(reading.problems, "x", text).empty() || reading.procedure.has_value());
}

TEST(DamagedText, CutOffAnywhere) {
  const auto text = tiny_text();
  EXPECT_TRUE(rc::check("cut off", [&] {
    expect_answer(text.substr(0, *rc::gen::inRange<std::size_t>(0, text.size())));
  }));
}

TEST(DamagedText, BytesChanged) {
  const auto good = tiny_text();
  EXPECT_TRUE(rc::check("bytes changed", [&] {
    auto text = good;
    const auto changes = *rc::gen::inRange(1, 6);
    for (int i = 0; i < changes; ++i)
      text[*rc::gen::inRange<std::size_t>(0, text.size())] = *rc::gen::inRange('\x09', '\x7e');
    expect_answer(text);
  }));
}

TEST(DamagedText, WordsExchanged) {
  const auto good = tiny_text();
  std::vector<std::string> words;
  for (std::size_t at = 0; at < good.size();) {
    const auto end = std::min(good.find_first_of(" ,{}[]\n:", at), good.size() - 1);
    if (end > at) words.push_back(good.substr(at, end - at));
    at = end + 1;
  }
  EXPECT_TRUE(rc::check("words exchanged", [&] {
    auto text = good;
    const auto changes = *rc::gen::inRange(1, 4);
    for (int i = 0; i < changes; ++i) {
      const auto& from = *rc::gen::elementOf(words);
      const auto at = text.find(from, *rc::gen::inRange<std::size_t>(0, text.size()));
      if (at != std::string::npos) text.replace(at, from.size(), *rc::gen::elementOf(words));
    }
    expect_answer(text);
  }));
}

}  // namespace
}  // namespace beforehand::procedure
