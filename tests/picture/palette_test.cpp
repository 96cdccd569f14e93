// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "picture/palette.hpp"

#include <gtest/gtest.h>

namespace beforehand::picture {
namespace {

// WCAG 2.1 (W3C 2018), definition of contrast ratio: black on white is 21:1; the grey #767676 is
// the palest that reaches 4.5:1 on white (4.54), #777777 stays below it (4.48).
TEST(Contrast, FollowsTheDefinition) {
  const Colour white = Colour::hex(0xFFFFFF);
  EXPECT_NEAR(contrast(Colour::hex(0x000000), white), 21.0, 1e-9);
  EXPECT_NEAR(contrast(white, white), 1.0, 1e-9);
  EXPECT_NEAR(contrast(Colour::hex(0x767676), white), 4.54, 0.005);
  EXPECT_NEAR(contrast(white, Colour::hex(0x777777)), 4.48, 0.005);
}

// WCAG 2.1, success criterion 1.4.3: 4.5:1 for text.
TEST(Palette, EveryTextStandsOutFromItsGround) {
  const Palette palette;
  ASSERT_GT(text_pairs().size(), 20u);
  for (const TextPair& pair : text_pairs()) {
    EXPECT_GE(contrast(palette.*pair.text, palette.*pair.surface), 4.5) << pair.name;
  }
}

// WCAG 2.1, success criterion 1.4.6: 7:1 for text.
TEST(Palette, OfHighContrastStandsOutMore) {
  const Palette palette = high_contrast();
  for (const TextPair& pair : text_pairs()) {
    EXPECT_GE(contrast(palette.*pair.text, palette.*pair.surface), 7.0) << pair.name;
  }
}

// WCAG 2.1, success criterion 1.4.11: 3:1 for what must be seen to understand.
TEST(Palette, LinesThatMeanSomethingStandOutFromCardAndWell) {
  const Palette p;
  for (const Colour surface : {p.card, p.well}) {
    for (const Colour line : {p.edge_strong, p.waiting, p.window, p.need, p.waited, p.ink, p.accent,
                              p.danger, p.caution, p.good}) {
      EXPECT_GE(contrast(line, surface), 3.0);
    }
  }
}

TEST(Theme, NoTextIsSmallerThanSixteenAtScaleOne) {
  for (const double scale : {1.0, 1.5, 2.0}) {
    const Theme theme{{}, scale};
    for (const TextSize size :
         {TextSize::body, TextSize::label, TextSize::heading, TextSize::title}) {
      EXPECT_GE(theme.size(size), 16 * scale);
    }
  }
}

TEST(Blend, MixesByAlpha) {
  EXPECT_EQ(blend(Colour::hex(0xFF0000), Colour::hex(0x0000FF)), Colour::hex(0xFF0000));
  EXPECT_EQ(blend(nothing, Colour::hex(0x0000FF)), Colour::hex(0x0000FF));
  EXPECT_EQ(blend(Colour::hex(0xFFFFFF).with_alpha(51), Colour::hex(0x000000)),
            Colour::hex(0x333333));
}

}  // namespace
}  // namespace beforehand::picture
