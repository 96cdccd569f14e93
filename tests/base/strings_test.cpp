// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "base/strings.hpp"

#include <gtest/gtest.h>

#include <filesystem>

namespace beforehand {
namespace {

TEST(Strings, ReadsKeysTextsAndSkipsRemarks) {
  const auto strings = Strings::parse("# remark\n\n a.b = One = two \nc=\n", "x");
  EXPECT_EQ(strings("a.b"), "One = two");
  EXPECT_EQ(strings("c"), "");
  EXPECT_EQ(strings.all().size(), 2u);
}

TEST(Strings, NamesEveryBadLineWithItsPlace) {
  try {
    Strings::parse("a = 1\nno text here\na = 2\n= 3\n", "en.txt");
    FAIL();
  } catch (const BadStrings& bad) {
    EXPECT_STREQ(bad.what(),
                 "en.txt:2: error: expected \"key = text\"\n"
                 "en.txt:3: error: \"a\" is given twice\n"
                 "en.txt:4: error: expected \"key = text\"\n");
  }
}

TEST(Strings, SaysWhenAFileCannotBeRead) {
  EXPECT_THROW(Strings::load("no/such/file.txt"), BadStrings);
}

TEST(Strings, FillsArgumentsAndLeavesTheirTextAlone) {
  EXPECT_EQ(filled("{1} before {0}, {2} {x} {", {"{1}", "b"}), "b before {1}, {2} {x} {");
}

// The slots of a text, in ascending order: "{0}{1}".
std::string slots_in(const std::string& text) {
  std::string slots;
  for (char digit = '0'; digit <= '9'; ++digit)
    if (const std::string slot = {'{', digit, '}'}; text.find(slot) != std::string::npos)
      slots += slot;
  return slots;
}

TEST(Strings, EveryLanguageHasTheSameTextsWithTheSameSlots) {
  const auto english = Strings::load(PROJECT_DIR "/assets/strings/en.txt");
  int languages = 0;
  for (const auto& entry : std::filesystem::directory_iterator(PROJECT_DIR "/assets/strings")) {
    const auto other = Strings::load(entry.path());
    ++languages;
    for (const auto& [key, text] : english.all()) {
      ASSERT_TRUE(other.has(key)) << entry.path() << " lacks " << key;
      EXPECT_FALSE(other(key).empty() && !text.empty()) << entry.path() << ": " << key;
      EXPECT_EQ(slots_in(other(key)), slots_in(text)) << entry.path() << ": " << key;
    }
    for (const auto& [key, text] : other.all())
      EXPECT_TRUE(english.has(key)) << "only in " << entry.path() << ": " << key;
  }
  EXPECT_GE(languages, 2);
}

TEST(Strings, AMissingKeyIsShownAndRemembered) {
  const Strings strings;
  EXPECT_EQ(strings("start.title"), "?start.title?");
  EXPECT_EQ(strings.missing().count("start.title"), 1u);
}

}  // namespace
}  // namespace beforehand
