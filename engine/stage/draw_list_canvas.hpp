// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <deque>

#include "picture/canvas.hpp"
#include "stage/fonts.hpp"

struct ImDrawCmd;
struct ImDrawList;

namespace beforehand::stage {

/// A large plain area, in whole pixels. It stands in the list as a callback with this as its data:
/// clearing it is far cheaper than filling it with triangles where no graphics card does the work.
struct SolidArea {
  int x = 0, y = 0, width = 0, height = 0;
  picture::Colour colour;
};
/// The mark by which a renderer knows such a command; calling it does nothing.
void solid_area(const ImDrawList*, const ImDrawCmd*);

/// Draws on a Dear ImGui draw list, between that library's NewFrame and Render. Needs no display.
class DrawListCanvas final : public picture::Canvas {
 public:
  /// Both must outlive the canvas, and the canvas the drawing of its list; the fonts must have been
  /// baked into the list's atlas.
  DrawListCanvas(ImDrawList& list, const FontSet& fonts) : list_(list), fonts_(fonts) {}

  void rectangle(const picture::Box& box, const picture::Paint& paint, double radius = 0) override;
  void circle(picture::Point centre, double radius, const picture::Paint& paint) override;
  void ring_segment(picture::Point centre, double inner, double outer, double from, double to,
                    const picture::Paint& paint) override;
  void arc(picture::Point centre, double radius, double from, double to,
           const picture::Stroke& stroke) override;
  using Canvas::polygon;
  using Canvas::polyline;
  void polygon(std::span<const picture::Point> points, const picture::Paint& paint) override;
  void polyline(std::span<const picture::Point> points, const picture::Stroke& stroke) override;
  void text(picture::Point at, std::string_view line, const picture::TextStyle& style) override;
  picture::Extent measure(std::string_view line, double size,
                          picture::Weight weight) const override;
  void push_clip(const picture::Box& box) override;
  void pop_clip() override;

 private:
  void stroke_path(std::span<const picture::Point> points, const picture::Stroke& stroke,
                   bool closed);
  void fill(std::span<const picture::Point> points, picture::Colour colour);
  void fill_box(const picture::Box& box, picture::Colour colour, double radius);

  ImDrawList& list_;
  const FontSet& fonts_;
  std::deque<SolidArea> areas_;  // the list points into it
};

}  // namespace beforehand::stage
