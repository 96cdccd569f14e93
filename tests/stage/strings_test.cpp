// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/strings.hpp"

#include <gtest/gtest.h>

namespace beforehand::stage {
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

TEST(Strings, AMissingKeyIsShownAndRemembered) {
  const Strings strings;
  EXPECT_EQ(strings("start.title"), "?start.title?");
  EXPECT_EQ(strings.missing().count("start.title"), 1u);
}

}  // namespace
}  // namespace beforehand::stage
