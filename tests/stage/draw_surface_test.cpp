// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/draw_surface.hpp"

#include <gtest/gtest.h>
#include <imgui.h>

namespace beforehand::stage {
namespace {

using picture::Theme;
using picture::Weight;

Theme theme_at(double scale) {
  Theme theme;
  theme.scale = scale;
  return theme;
}

TEST(DrawSurface, BuildsAFrameWithoutADisplay) {
  DrawSurface surface(find_fonts(), theme_at(1));
  auto& canvas = surface.begin(640, 480);
  canvas.rectangle({10, 10, 100, 50}, {picture::Colour::hex(0xFF0000), {}}, 4);
  canvas.text({20, 40}, "Etchant", {16, picture::Colour::hex(0x000000)});
  const ImDrawData& frame = surface.end();
  EXPECT_GT(frame.TotalVtxCount, 4 * 7);
  EXPECT_EQ(frame.DisplaySize.x, 640.0f);
}

TEST(DrawSurface, LettersAreBakedAtTheScaleTheyAreShownIn) {
  DrawSurface surface(find_fonts(), theme_at(1));
  const double small = double(surface.fonts().choose(16, Weight::regular).font->FontSize);
  surface.set_theme(theme_at(2));
  const double large = double(surface.fonts().choose(32, Weight::regular).font->FontSize);
  EXPECT_NEAR(large, 2 * small, 1.5);
}

TEST(DrawSurface, ChoosesTheNearestFaceThatIsNotSmaller) {
  DrawSurface surface(find_fonts(), theme_at(1));
  const auto& fonts = surface.fonts();
  EXPECT_EQ(fonts.choose(17, Weight::bold).font, fonts.choose(16.5, Weight::bold).font);
  EXPECT_NE(fonts.choose(17, Weight::bold).font, fonts.choose(17, Weight::regular).font);
  EXPECT_EQ(fonts.choose(90, Weight::bold).font, fonts.choose(30, Weight::bold).font);
}

TEST(DrawSurface, WithoutAFontFileTheBuiltInLettersServeAndItIsSaid) {
  DrawSurface surface({"", "no-such-font.ttf"}, theme_at(1));
  EXPECT_NE(surface.fonts().complaint().find("no-such-font.ttf"), std::string::npos);
  auto& canvas = surface.begin(100, 100);
  EXPECT_GT(canvas.measure("word", 16, Weight::regular).width, 10);
  surface.end();
}

// Text measures nearly alike on the screen and in an SVG, so a layout that holds in one holds in
// the other.
TEST(DrawSurface, MeasuresLikeTheFontsOwnAdvanceWidths) {
  if (find_fonts().regular.find("DejaVuSans.ttf") == std::string::npos)
    GTEST_SKIP() << "DejaVu Sans is not here";
  DrawSurface surface(find_fonts(), theme_at(2));
  auto& canvas = surface.begin(100, 100);
  // From the font file's own hmtx table: "n" advances 1298 of 2048 units to the em.
  EXPECT_NEAR(canvas.measure("nnnnnnnnnn", 32, Weight::regular).width, 10 * 32 * 1298 / 2048.0,
              10 * 0.6);
  surface.end();
}

}  // namespace
}  // namespace beforehand::stage
