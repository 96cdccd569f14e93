// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "picture/text.hpp"

#include <gtest/gtest.h>

#include "drawing.hpp"
#include "picture/utf8.hpp"

namespace beforehand::picture {
namespace {

const SvgCanvas canvas(10, 10, "measuring");

double width(std::string_view text) { return canvas.measure(text, 16, Weight::regular).width; }

TEST(Wrap, NoLineIsWiderThanAskedAndNoWordIsLost) {
  const std::string text = "Load the second increment while the clinician condenses the first one";
  for (const double room : {60.0, 120.0, 240.0, 1000.0}) {
    std::string joined;
    for (const std::string& line : wrap(canvas, text, room, 16)) {
      if (line.find(' ') != std::string::npos) {
        EXPECT_LE(width(line), room);
      }
      joined += (joined.empty() ? "" : " ") + line;
    }
    if (room > 100) {
      EXPECT_EQ(joined, text);
    }
  }
}

TEST(Wrap, BreaksAnOverlongWordBetweenCharacters) {
  const std::string word = "\u00e9\u00e9\u00e9\u00e9\u00e9\u00e9\u00e9\u00e9";
  std::string joined;
  const auto lines = wrap(canvas, word, width("\u00e9\u00e9\u00e9"), 16);
  EXPECT_EQ(lines.size(), 3u);
  for (const std::string& line : lines) joined += line;
  EXPECT_EQ(joined, word);
}

TEST(Wrap, KeepsWrittenBreaksAndEmptyLines) {
  EXPECT_EQ(wrap(canvas, "one\n\ntwo", 500, 16), (std::vector<std::string>{"one", "", "two"}));
  EXPECT_EQ(wrap(canvas, "", 500, 16), std::vector<std::string>{""});
}

TEST(Wrap, EndsEvenWhereNothingFits) {
  EXPECT_EQ(wrap(canvas, "abc", 0, 16), (std::vector<std::string>{"a", "b", "c"}));
}

TEST(Shorten, LeavesWhatFitsAndCutsAtACharacter) {
  EXPECT_EQ(shorten(canvas, "Etch", 500, 16), "Etch");
  const std::string cut = shorten(canvas, "A\u00f1adir el segundo incremento", 100, 16);
  EXPECT_TRUE(cut.ends_with("\u2026"));
  EXPECT_LE(width(cut), 100);
  EXPECT_EQ(shorten(canvas, "Etch", 3, 16), "");
}

TEST(Paragraph, DrawsNoLinePastTheBottom) {
  NotingCanvas noting(400, 400, "t");
  const Box box{10, 10, 120, 60};
  paragraph(noting, box, "one two three four five six seven eight nine ten eleven twelve",
            {16, Colour::hex(0)});
  ASSERT_EQ(noting.texts.size(), 3u);
  EXPECT_TRUE(noting.texts.back().text.ends_with("\u2026"));
  for (const DrawnText& t : noting.texts) {
    EXPECT_LE(t.box.bottom(), box.bottom());
    EXPECT_LE(t.box.right(), box.right());
  }
}

TEST(Utf8, TakesWholeCharactersAndReplacesBrokenOnes) {
  std::string_view text = "a\u00f1\u2026";
  EXPECT_EQ(take_character(text), U'a');
  EXPECT_EQ(take_character(text), U'\u00f1');
  EXPECT_EQ(take_character(text), U'\u2026');
  EXPECT_TRUE(text.empty());
  for (std::string_view broken :
       {"\xc0\xaf", "\xed\xa0\x80", "\xf4\x90\x80\x80", "\x80", "\xe2\x80"}) {
    EXPECT_EQ(take_character(broken), char32_t{0xFFFD});
  }
}

}  // namespace
}  // namespace beforehand::picture
