// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <optional>
#include <vector>

#include "base/strings.hpp"
#include "picture/canvas.hpp"
#include "picture/palette.hpp"
#include "stage/input.hpp"

namespace beforehand::stage {

using picture::Box;
using picture::Canvas;
using picture::Colour;
using picture::Point;
using picture::TextSize;
using picture::TextStyle;
using picture::Weight;

/// Where on the last frame a press means what. The number is the screen's own.
class Hits {
 public:
  void clear() { hits_.clear(); }
  void add(const Box& box, int id) { hits_.push_back({box, id}); }
  /// What lies uppermost under the point.
  std::optional<int> at(Point p) const;
  /// Adds to `into` what of these lies inside a view that cuts them off.
  void inside(const Box& view, Hits& into) const;
  /// Where a number lies, for tests that press it.
  std::optional<Box> box_of(int id) const;

 private:
  struct Hit {
    Box box;
    int id;
  };
  std::vector<Hit> hits_;
};

/// What a screen draws with.
struct Pen {
  Canvas& canvas;
  const picture::Theme& theme;
  const Strings& t;
  Hits& hits;
  Point pointer;  ///< where the mouse is; outside the window when it is not used

  const picture::Palette& ink() const { return theme.palette; }
  double px(double at_scale_1) const { return theme.px(at_scale_1); }
  double size(TextSize s) const { return theme.size(s); }
  /// A style of the theme: text in the given size and colour.
  TextStyle style(TextSize s, Colour colour, Weight weight = Weight::regular) const {
    return {theme.size(s), colour, weight, picture::Align::left, picture::Level::baseline};
  }
};

/// A view on something taller than itself.
struct Scroll {
  double offset = 0;
  double content = 0, view = 0;  ///< heights, set by whoever draws
  long kept = -1;                ///< the row of a list last brought into view

  double longest() const { return content > view ? content - view : 0; }
  void move(double by);
  /// Moves as the arrow, page, space, home and end keys do; does nothing for any other.
  void follow(Key key);
};

}  // namespace beforehand::stage
