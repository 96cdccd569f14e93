// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <string>
#include <string_view>

#include "picture/canvas.hpp"

namespace beforehand::picture {

/// Writes one self-contained SVG 1.1 picture: no script, no link, no outside font file. Text is
/// measured by the advance widths of DejaVu Sans, which the common sans-serif faces do not exceed.
class SvgCanvas : public Canvas {
 public:
  /// Title and description are what a screen reader says for the whole picture.
  SvgCanvas(double width, double height, std::string_view title, std::string_view description = {});

  void rectangle(const Box& box, const Paint& paint, double radius = 0) override;
  void circle(Point centre, double radius, const Paint& paint) override;
  void ring_segment(Point centre, double inner, double outer, double from, double to,
                    const Paint& paint) override;
  void arc(Point centre, double radius, double from, double to, const Stroke& stroke) override;
  using Canvas::polygon;
  using Canvas::polyline;
  void polygon(std::span<const Point> points, const Paint& paint) override;
  void polyline(std::span<const Point> points, const Stroke& stroke) override;
  void text(Point at, std::string_view line, const TextStyle& style) override;
  Extent measure(std::string_view line, double size, Weight weight) const override;
  void push_clip(const Box& box) override;
  void pop_clip() override;
  void begin_group(const GroupText& group) override;
  void end_group() override;

  /// The whole document. Needs every clip and group to be closed.
  std::string str() const;

 private:
  void element(std::string_view name, std::string_view attributes);

  std::string head_;
  std::string body_;
  int open_clips_ = 0;
  int open_groups_ = 0;
};

}  // namespace beforehand::picture
