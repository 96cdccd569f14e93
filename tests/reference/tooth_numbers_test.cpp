// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// Tooth numbers: ISO 3950 (the two-digit system of the FDI) against the Universal system. The pairs
// are from memory, as printed in any chart that shows both; they were not copied from the standard.
#include <gtest/gtest.h>

#include <set>
#include <utility>

#include "procedure/tooth.hpp"

namespace beforehand::procedure {
namespace {

TEST(ToothNumbers, PermanentTeethAgreeWithTheChart) {
  constexpr std::pair<int, int> chart[] = {
      {18, 1},  {16, 3},  {14, 5},  {13, 6},  {11, 8},  {21, 9},  {23, 11},
      {24, 12}, {26, 14}, {28, 16}, {38, 17}, {36, 19}, {34, 21}, {33, 22},
      {31, 24}, {41, 25}, {43, 27}, {44, 28}, {46, 30}, {48, 32},
  };
  for (const auto& [fdi, universal] : chart) {
    const auto tooth = tooth_from_fdi(fdi);
    ASSERT_TRUE(tooth) << fdi;
    EXPECT_EQ(universal_number(*tooth), universal) << fdi;
    EXPECT_EQ(tooth_from_universal(universal), tooth) << universal;
  }
}

TEST(ToothNumbers, PrimaryTeethAgreeWithTheChart) {
  constexpr std::pair<int, char> chart[] = {{55, 'A'}, {51, 'E'}, {61, 'F'}, {65, 'J'},
                                            {75, 'K'}, {71, 'O'}, {81, 'P'}, {85, 'T'}};
  for (const auto& [fdi, letter] : chart) {
    const auto tooth = tooth_from_fdi(fdi);
    ASSERT_TRUE(tooth) << fdi;
    EXPECT_EQ(universal_letter(*tooth), letter) << fdi;
    EXPECT_FALSE(universal_number(*tooth)) << fdi;
  }
}

TEST(ToothNumbers, EachOfThirtyTwoTeethHasItsOwnNumber) {
  std::set<int> seen;
  for (int fdi = 0; fdi < 100; ++fdi) {
    const auto tooth = tooth_from_fdi(fdi);
    if (tooth && tooth->permanent()) seen.insert(*universal_number(*tooth));
  }
  EXPECT_EQ(seen.size(), 32u);
  EXPECT_EQ(*seen.begin(), 1);
  EXPECT_EQ(*seen.rbegin(), 32);
}

TEST(ToothNumbers, NumbersThatNameNoToothAreRefused) {
  for (const int fdi : {-11, 0, 8, 10, 19, 40, 49, 56, 80, 86, 91, 460}) {
    EXPECT_FALSE(tooth_from_fdi(fdi)) << fdi;
  }
  for (const int universal : {-1, 0, 33}) EXPECT_FALSE(tooth_from_universal(universal));
}

// A bare number that is valid in both systems means two different teeth, which is why texts name
// the system.
TEST(ToothNumbers, ABareNumberCanMeanTwoTeeth) {
  int ambiguous = 0;
  for (int number = 1; number <= 32; ++number) {
    const auto by_fdi = tooth_from_fdi(number);
    if (!by_fdi) continue;
    ++ambiguous;
    EXPECT_FALSE(tooth_from_universal(number) == by_fdi) << number;
  }
  EXPECT_EQ(ambiguous, 18);  // 11-18, 21-28, 31, 32
}

}  // namespace
}  // namespace beforehand::procedure
