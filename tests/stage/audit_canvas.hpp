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
  };
  picture::Box window;
  std::vector<Text> texts;

  bool shows(std::string_view part) const;
  /// The texts that end in an ellipsis, because they found no room.
  std::vector<std::string> cut() const;
  /// Texts on top of each other, outside the window, or smaller than `smallest`, in words.
  std::vector<std::string> faults(double smallest) const;
};

/// A canvas that keeps where every text came to stand, to find what overlaps or leaves the window.
class AuditCanvas final : public picture::SvgCanvas {
 public:
  AuditCanvas(double width, double height)
      : SvgCanvas(width, height, "audit"), seen_{{0, 0, width, height}, {}}, clips_{seen_.window} {}

  void rectangle(const picture::Box& box, const picture::Paint& paint, double radius = 0) override;
  void text(picture::Point at, std::string_view line, const picture::TextStyle& style) override;
  void push_clip(const picture::Box& box) override;
  void pop_clip() override;

  const Seen& seen() const { return seen_; }

 private:
  Seen seen_;
  std::vector<picture::Box> clips_;
};

}  // namespace beforehand::stage
