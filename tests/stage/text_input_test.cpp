// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/text_input.hpp"

#include <gtest/gtest.h>

namespace beforehand::stage {
namespace {

TEST(TextInput, WritesUtf8AndTakesWholeLettersBack) {
  std::string text;
  for (const char32_t c : {U'N', U'ú', U'€', U'🦷'}) append(text, c);
  EXPECT_EQ(text, "Nú€🦷");
  EXPECT_EQ(letters_in(text), 4u);
  erase_last(text);
  EXPECT_EQ(text, "Nú€");
  erase_last(text);
  erase_last(text);
  EXPECT_EQ(text, "N");
  erase_last(text);
  erase_last(text);
  EXPECT_EQ(text, "");
}

TEST(TextInput, LeavesOutWhatIsNoPrintableCharacter) {
  std::string text;
  for (const char32_t c :
       {char32_t{8}, char32_t{0x7F}, char32_t{0x85}, char32_t{0xD800}, char32_t{0x110000}})
    append(text, c);
  EXPECT_EQ(text, "");
}

}  // namespace
}  // namespace beforehand::stage
