// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "base/said.hpp"

#include <gtest/gtest.h>

namespace beforehand {
namespace {

const Phrases spanish{{"{} needs {}", "a {0} le falta {1}"},
                      {"{} of the {}", "{1}: {0}"},
                      {"line {}", "línea {0}"},
                      {"card", "ficha"},
                      {"{} and {}", "{0} y {1}"},
                      {"{}, {}", "{0}, {1}"}};

TEST(Said, IsEnglishWithoutPhrases) {
  EXPECT_EQ(say("{} needs {}", std::string("etch"), 3).english(), "etch needs 3");
  EXPECT_EQ(Said("plain").english(), "plain");
  EXPECT_EQ(Said().english(), "");
  EXPECT_TRUE(Said().empty());
}

TEST(Said, IsSaidInTheLanguageOfThePhrasesAndInItsOrder) {
  const auto said = say("{} of the {}", say("line {}", 4), "card");
  EXPECT_EQ(said.english(), "line 4 of the card");
  EXPECT_EQ(said.in(spanish), "ficha: línea 4");
}

TEST(Said, SomebodysOwnWordsStayEvenWhereTheyAreLikeOurs) {
  EXPECT_EQ(say("{} needs {}", std::string("card"), "card").in(spanish), "a card le falta ficha");
  EXPECT_EQ(Said(std::string("{} needs {}")).in(spanish), "{} needs {}");
}

TEST(Said, WhatIsPutInIsNotLookedAtForSlots) {
  EXPECT_EQ(say("{} needs {}", std::string("{}"), std::string("{0}")).english(), "{} needs {0}");
  EXPECT_EQ(say("{} needs {}", std::string("{1}"), std::string("x")).in(spanish),
            "a {1} le falta x");
}

TEST(Said, BracesThatAreNoSlotStayAndASlotWithoutArgumentToo) {
  EXPECT_EQ(say("id: {name: ...} {}", 1).english(), "id: {name: ...} 1");
  EXPECT_EQ(say("{} {}", 1).english(), "1 {}");
}

TEST(Said, WhatThePhrasesLackIsInEnglish) {
  const auto said = say("{} needs {}", say("the {}", "lid"), "card");
  EXPECT_EQ(said.in(spanish), "a the lid le falta ficha");
}

TEST(Said, AListIsReadAloud) {
  EXPECT_EQ(listed({}).english(), "");
  EXPECT_EQ(listed({std::string("a")}).english(), "a");
  EXPECT_EQ(listed({std::string("a"), std::string("b"), std::string("c")}).english(), "a, b and c");
  EXPECT_EQ(listed({std::string("a"), std::string("b"), std::string("c")}).in(spanish), "a, b y c");
}

}  // namespace
}  // namespace beforehand
