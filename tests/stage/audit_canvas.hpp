// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <string>
#include <vector>

#include "picture/svg_canvas.hpp"

namespace beforehand::stage {

/// The texts of a screen, where they stand.
struct Seen {
  struct Text {
    std::string line;
    picture::Box box;      ///< as drawn
    picture::Box visible;  ///< what the clips leave of it
    double size = 0;
    double contrast = 21;  ///< with the worst of what lies under it (WCAG 2.1), if looked for
    bool clipped = false;  ///< begins or ends beyond the side of a view
  };
  picture::Box window;
  std::vector<Text> texts;

  bool shows(std::string_view part) const;
  /// The texts that end in an ellipsis, because they found no room.
  std::vector<std::string> cut() const;
  /// The texts that a view cuts off at its side, where nothing scrolls.
  std::vector<std::string> clipped() const;
  /// Texts on top of each other, outside the window, or smaller than `smallest`, in words.
  std::vector<std::string> faults(double smallest) const;
  /// Texts that stand out less than `least` from what is drawn under them, in words.
  std::vector<std::string> pale(double least) const;
};

/// A canvas that keeps where every text came to stand, to find what overlaps or leaves the window,
/// and, if it is to look for `grounds`, how much each text stands out from what is under it.
class AuditCanvas final : public picture::Canvas {
 public:
  AuditCanvas(double width, double height, bool grounds = false)
      : seen_{{0, 0, width, height}, {}}, clips_{seen_.window}, grounds_(grounds) {}

  void rectangle(const picture::Box& box, const picture::Paint& paint, double radius = 0) override;
  void circle(picture::Point centre, double radius, const picture::Paint& paint) override;
  void ring_segment(picture::Point centre, double inner, double outer, double from, double to,
                    const picture::Paint& paint) override;
  void arc(picture::Point, double, double, double, const picture::Stroke&) override {}
  void polygon(std::span<const picture::Point> points, const picture::Paint& paint) override;
  void polyline(std::span<const picture::Point>, const picture::Stroke&) override {}
  void text(picture::Point at, std::string_view line, const picture::TextStyle& style) override;
  picture::Extent measure(std::string_view line, double size,
                          picture::Weight weight) const override {
    return ruler_.measure(line, size, weight);
  }
  void push_clip(const picture::Box& box) override;
  void pop_clip() override;

  const Seen& seen() const { return seen_; }

 private:
  /// Something filled: a box, or the polygon within it.
  struct Ground {
    picture::Box box;
    std::vector<picture::Point> outline;
    picture::Colour fill;
    bool covers(picture::Point) const;
  };
  void lay(const picture::Box& box, std::vector<picture::Point> outline, picture::Colour fill);
  picture::Colour ground_at(picture::Point) const;
  double contrast_on(const picture::Box& visible, picture::Colour text) const;

  picture::SvgCanvas ruler_{1, 1, "ruler"};
  Seen seen_;
  std::vector<picture::Box> clips_;
  bool grounds_;
  std::vector<Ground> laid_;
};

}  // namespace beforehand::stage
