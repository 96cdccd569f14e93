// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "base/problem.hpp"

#include <gtest/gtest.h>

namespace beforehand {
namespace {

using Kind = Problem::Kind;

std::string printed(Mark mark, const std::string& text, Kind kind = Kind::error) {
  return print({{kind, mark, "wrong"}}, "f.yaml", text);
}

TEST(Print, ShowsTheLineAndACaretUnderTheColumn) {
  EXPECT_EQ(printed({2, 3}, "one\ntwo\nthree"),
            "f.yaml:2:3: error: wrong\n"
            "    two\n"
            "      ^\n");
  EXPECT_EQ(printed({1, 1}, "one"), "f.yaml:1:1: error: wrong\n    one\n    ^\n");
}

TEST(Print, TheWholeFileHasNoLine) {
  EXPECT_EQ(printed({}, "one", Kind::warning), "f.yaml: warning: wrong\n");
}

TEST(Print, PlacesOutsideTheTextAreHarmless) {
  EXPECT_EQ(printed({9, 9}, "one\n"), "f.yaml:9:9: error: wrong\n    \n    ^\n");
  EXPECT_EQ(printed({1, 9}, "one\n"), "f.yaml:1:9: error: wrong\n    one\n       ^\n");
}

TEST(Print, TabsKeepTheCaretInPlace) {
  EXPECT_EQ(printed({1, 3}, "\tab"), "f.yaml:1:3: error: wrong\n    \tab\n    \t ^\n");
}

TEST(Print, OneColumnForACharacterOfSeveralBytes) {
  EXPECT_EQ(printed({1, 4}, "\xc3\xa4 b"),  // columns are counted in bytes, the caret is not
            "f.yaml:1:4: error: wrong\n    \xc3\xa4 b\n      ^\n");
}

TEST(Print, DoesNotEchoControlCharacters) {
  EXPECT_EQ(printed({1, 2}, "a\x1b[2J\r\nb"), "f.yaml:1:2: error: wrong\n    a?[2J\n     ^\n");
}

TEST(Problems, AreSortedByPlaceAndKeepTheirOrderThere) {
  std::vector<Problem> problems{{Kind::error, {2, 1}, "third"},
                                {Kind::warning, {1, 5}, "first"},
                                {Kind::error, {1, 5}, "second"}};
  sort_by_place(problems);
  EXPECT_EQ(problems[0].message.english(), "first");
  EXPECT_EQ(problems[1].message.english(), "second");
  EXPECT_EQ(problems[2].message.english(), "third");
}

TEST(Problems, AWarningIsNoError) {
  EXPECT_FALSE(has_errors({}));
  EXPECT_FALSE(has_errors({{Kind::warning, {}, ""}}));
  EXPECT_TRUE(has_errors({{Kind::warning, {}, ""}, {Kind::error, {}, ""}}));
}

}  // namespace
}  // namespace beforehand
