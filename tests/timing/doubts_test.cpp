// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "timing/doubts.hpp"

#include <gtest/gtest.h>

#include "sketch.hpp"

namespace beforehand::timing {
namespace {

TEST(Doubts, NamesEverythingThatContradictsEachOther) {
  Sketch k;
  const auto etch = k.step("Etches", {clinician}, s(15));
  const auto dry = k.step("Dries the field", {clinician}, s(40), {etch});
  const auto rinse = k.step("Rinses", {clinician}, s(10), {dry});
  k.link(rinse, etch, s(0), s(30));
  const auto found = doubts(k.p);
  ASSERT_EQ(found.size(), 1u);
  EXPECT_EQ(found[0].kind, Problem::Kind::error);
  EXPECT_EQ(found[0].mark.line, 3);
  EXPECT_EQ(
      found[0].message.english(),
      "\"Rinses\" must start within 30 s after the end of \"Etches\" (line 3), but \"Dries the "
      "field\" comes after the end of \"Etches\" (line 2), \"Dries the field\" takes at least "
      "40 s (line 2) and \"Rinses\" comes after the end of \"Dries the field\" (line 3)");
}

// The paste, mixed in 10 s, keeps for 30 s from then to the end of a use of 12 s, right after an
// opening whose end can be foreseen only so far.
struct Pasting : Sketch {
  explicit Pasting(Ms most) {
    at(open).takes = {s(40), s(60), most};
    at(mix).verb = Verb::mix;
    pass(paste, use, s(2), {mix}, mix);
  }
  SupplyIx paste = supply("paste", s(30));
  StepIx open = step("Opens", {clinician}, s(60));
  StepIx use = step("Fills", {clinician}, s(12), {open});
  StepIx mix = step("Mixes", {assistant}, s(10));
};

TEST(Doubts, WarnsWhereNobodyIsLateByFault) {
  const auto found = doubts(Pasting(s(90)).p);
  ASSERT_EQ(found.size(), 1u);
  EXPECT_EQ(found[0].kind, Problem::Kind::warning);
  EXPECT_NE(found[0].message.english().find("\"Opens\" may take 40 s to 1 min 30 s"),
            std::string::npos)
      << found[0].message.english();
  EXPECT_NE(found[0].message.english().find(
                "\"Fills\" can have to wait though the assistant does everything "
                "right"),
            std::string::npos)
      << found[0].message.english();
}

TEST(Doubts, HasNoneWhereThePasteKeepsLongEnough) {
  EXPECT_TRUE(doubts(Pasting(s(56)).p).empty()) << "ready at 40 s, used up by 56 + 12 s: 28 s";
  EXPECT_FALSE(doubts(Pasting(s(59)).p).empty());
}

}  // namespace
}  // namespace beforehand::timing
