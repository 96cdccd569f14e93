// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <string_view>

#include "stage/widgets.hpp"

namespace beforehand::stage {

/// Writes downwards in a column; everything moves y on. Meant for pages that scroll.
class Flow {
 public:
  Flow(Pen& pen, Point at, double width) : y(at.y), pen_(pen), x_(at.x), width_(width) {}

  void heading(std::string_view text);
  void text(std::string_view text, Colour colour, Weight weight = Weight::regular,
            TextSize size = TextSize::body);
  /// A line with a sign before it; the text is indented.
  void item(std::string_view sign, std::string_view text, Colour colour,
            Weight weight = Weight::regular);
  /// Text without a sign, as far in as an item's.
  void under(std::string_view text, Colour colour);
  void gap(double at_scale_1) { y += pen_.px(at_scale_1); }

  double y;

  double x() const { return x_; }
  double width() const { return width_; }

 private:
  Pen& pen_;
  double x_, width_;
};

}  // namespace beforehand::stage
