// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include <gtest/gtest.h>

#include <clocale>

#include "drawing.hpp"
#include "picture/palette.hpp"

namespace beforehand::picture {
namespace {

const Colour ink = Colour::hex(0x102030);

TEST(SvgCanvas, NamesThatAreMarkupStayText) {
  SvgCanvas canvas(100, 100, "<script>alert(1)</script>", "a \"quoted\" & 'odd' one");
  {
    const Group group(canvas, {"</title><evil/>", "]]>", "list"});
    canvas.text({1, 2}, "<b>&amp;\"", {16, ink});
  }
  const auto document = parse(canvas.str());
  EXPECT_EQ(
      count(document, "//*[local-name()='script' or local-name()='evil' or local-name()='b']"), 0u);
  EXPECT_STREQ(document.select_node("//text").node().child_value(), "<b>&amp;\"");
  EXPECT_STREQ(document.select_node("/svg/title").node().child_value(),
               "<script>alert(1)</script>");
  EXPECT_STREQ(document.select_node("//g/title").node().child_value(), "</title><evil/>");
}

TEST(SvgCanvas, BytesThatAreNoTextAreReplaced) {
  SvgCanvas canvas(100, 100, "t");
  canvas.text({1, 2},
              std::string("a\x01"
                          "b\xff"
                          "c\xc3",
                          6),
              {16, ink});
  const auto document = parse(canvas.str());
  EXPECT_STREQ(document.select_node("//text").node().child_value(),
               "a\uFFFD"
               "b\uFFFD"
               "c\uFFFD");
}

TEST(SvgCanvas, NothingPointsOutsideTheFile) {
  SvgCanvas canvas(100, 100, "t");
  canvas.icon("mirror", {0, 0, 50, 50}, {ink, {ink}});
  const std::string svg = canvas.str();
  EXPECT_EQ(svg.find("href"), std::string::npos);
  EXPECT_EQ(svg.find("url("), std::string::npos);
  EXPECT_EQ(svg.find("<style"), std::string::npos);
}

TEST(SvgCanvas, NumbersHaveAPointInEveryLocale) {
  const char* before = std::setlocale(LC_ALL, nullptr);
  const std::string kept = before ? before : "C";
  for (const char* locale : {"de_DE.UTF-8", "es_ES.UTF-8", "C.UTF-8"})
    std::setlocale(LC_ALL, locale);
  SvgCanvas canvas(100.5, 100, "t");
  canvas.circle({1.25, -0.001}, 2.5, {ink, {}});
  std::setlocale(LC_ALL, kept.c_str());
  const auto circle = parse(canvas.str()).select_node("//circle").node();
  EXPECT_STREQ(circle.attribute("cx").value(), "1.25");
  EXPECT_STREQ(circle.attribute("cy").value(), "0");
  EXPECT_STREQ(circle.attribute("r").value(), "2.5");
}

TEST(SvgCanvas, ClipsNestAndKeepTheirCoordinates) {
  SvgCanvas canvas(100, 100, "t");
  {
    const Clip outer(canvas, {10, 20, 30, 40});
    const Clip inner(canvas, {15, 25, 5, 5});
    canvas.circle({17, 27}, 1, {ink, {}});
  }
  const auto document = parse(canvas.str());
  EXPECT_STREQ(document.select_node("/svg/svg").node().attribute("viewBox").value(), "10 20 30 40");
  EXPECT_EQ(count(document, "/svg/svg/svg/circle"), 1u);
}

TEST(SvgCanvas, AWholeRingHasItsHole) {
  SvgCanvas canvas(100, 100, "t");
  canvas.ring_segment({50, 50}, 10, 20, 0, 360, {ink, {}});
  const std::string path = parse(canvas.str()).select_node("//path").node().attribute("d").value();
  EXPECT_EQ(std::count(path.begin(), path.end(), 'M'), 2);
  EXPECT_EQ(std::count(path.begin(), path.end(), 'A'), 6);
}

// Advance widths of DejaVu Sans 2.37 as its own font tables state them (units per em 2048):
// "m" 1995, "i" 569, space 651; bold "m" 2134.
TEST(SvgCanvas, MeasuresByTheFontsOwnWidths) {
  const SvgCanvas canvas(100, 100, "t");
  EXPECT_DOUBLE_EQ(canvas.measure("m", 2048, Weight::regular).width, 1995);
  EXPECT_DOUBLE_EQ(canvas.measure("i m", 2048, Weight::regular).width, 569 + 651 + 1995);
  EXPECT_DOUBLE_EQ(canvas.measure("m", 2048, Weight::bold).width, 2134);
  EXPECT_DOUBLE_EQ(canvas.measure("", 16, Weight::regular).width, 0);
}

}  // namespace
}  // namespace beforehand::picture
