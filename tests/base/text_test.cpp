// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "base/text.hpp"

#include <gtest/gtest.h>

namespace beforehand {
namespace {

TEST(Nearest, FindsWhatWasMeant) {
  const std::vector<std::string> words{"rinse", "etchant", "after", "severity"};
  EXPECT_EQ(nearest("rinze", words), "rinse");      // changed
  EXPECT_EQ(nearest("etchnat", words), "etchant");  // neighbours swapped: one edit
  EXPECT_EQ(nearest("afte", words), "after");       // left out
  EXPECT_EQ(nearest("seeverity", words), "severity");
  EXPECT_EQ(nearest("etchant", words), "etchant");
}

TEST(Nearest, StaysSilentWhenNothingIsNear) {
  const std::vector<std::string> words{"rinse", "after"};
  EXPECT_EQ(nearest("suction", words), std::nullopt);
  EXPECT_EQ(nearest("", {}), std::nullopt);
  EXPECT_EQ(nearest(std::string(65, 'a'), {std::string(65, 'a')}), std::nullopt);  // too long
}

// The distance's own example (Damerau 1964; restricted form): "ca" to "abc" takes three edits,
// since nothing may be edited twice. A third of nine letters allows three, a third of eight only
// two.
TEST(Nearest, AllowsOneEditInThreeLetters) {
  EXPECT_EQ(nearest("abcdefghi", {"abcdefxyz"}), "abcdefxyz");
  EXPECT_EQ(nearest("abcdefgh", {"abcdexyz"}), std::nullopt);
  EXPECT_EQ(nearest("ca", {"abc"}), std::nullopt);
}

TEST(ListText, ReadsAsASentenceWould) {
  EXPECT_EQ(list_text({}), "");
  EXPECT_EQ(list_text({"a"}), "a");
  EXPECT_EQ(list_text({"a", "b"}), "a and b");
  EXPECT_EQ(list_text({"a", "b", "c"}), "a, b and c");
}

}  // namespace
}  // namespace beforehand
