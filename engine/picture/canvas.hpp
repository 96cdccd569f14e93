// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <cstdint>
#include <initializer_list>
#include <span>
#include <string>
#include <string_view>

#include "picture/geometry.hpp"

namespace beforehand::picture {

/// sRGB with straight alpha; alpha 0 means "do not draw this".
struct Colour {
  std::uint8_t red = 0;
  std::uint8_t green = 0;
  std::uint8_t blue = 0;
  std::uint8_t alpha = 0;

  /// 0xRRGGBB, opaque.
  static constexpr Colour hex(std::uint32_t rgb) {
    return {static_cast<std::uint8_t>(rgb >> 16), static_cast<std::uint8_t>(rgb >> 8),
            static_cast<std::uint8_t>(rgb), 255};
  }
  constexpr Colour with_alpha(std::uint8_t a) const { return {red, green, blue, a}; }
  constexpr bool visible() const { return alpha != 0; }
  bool operator==(const Colour&) const = default;
};

inline constexpr Colour nothing{};

/// A line. Dash 0 means unbroken; otherwise `dash` units drawn, `gap` units left out, in turn.
struct Stroke {
  Colour colour;
  double width = 1;
  double dash = 0;
  double gap = 0;
};

/// How a closed shape is drawn: its inside, then its outline, centred on the edge.
struct Paint {
  Colour fill;
  Stroke line;
};

enum class Weight { regular, bold };
enum class Align { left, centre, right };

/// Which part of the line of text the point's y gives. `middle` is the middle of a capital's
/// height, so a label looks centred in a bar.
enum class Level { top, middle, baseline, bottom };

struct TextStyle {
  double size = 16;  ///< canvas units
  Colour colour;
  Weight weight = Weight::regular;
  Align align = Align::left;
  Level level = Level::baseline;
};

struct Extent {
  double width = 0;
  double height = 0;
};

/// What a group is, for those who hear a picture instead of seeing it.
struct GroupText {
  std::string title;
  std::string description;     ///< may be empty
  std::string role = "group";  ///< WAI-ARIA: "group", "img", "list", "listitem"
};

/// One place to draw. Text is UTF-8, one line a call; see text.hpp for wrapping and shortening.
class Canvas {
 public:
  Canvas() = default;
  Canvas(const Canvas&) = delete;
  Canvas& operator=(const Canvas&) = delete;
  virtual ~Canvas() = default;

  /// The corner radius is cut down to half the shorter side.
  virtual void rectangle(const Box& box, const Paint& paint, double radius = 0) = 0;
  virtual void circle(Point centre, double radius, const Paint& paint) = 0;
  /// A part of a ring from `from` clockwise to `to`, degrees from 12 o'clock, from <= to <= from +
  /// 360. inner 0 gives a wedge.
  virtual void ring_segment(Point centre, double inner, double outer, double from, double to,
                            const Paint& paint) = 0;
  /// An open arc, same angles.
  virtual void arc(Point centre, double radius, double from, double to, const Stroke& stroke) = 0;
  /// Closed and simple, not necessarily convex.
  virtual void polygon(std::span<const Point> points, const Paint& paint) = 0;
  /// Open, with round joins and ends.
  virtual void polyline(std::span<const Point> points, const Stroke& stroke) = 0;
  virtual void text(Point at, std::string_view line, const TextStyle& style) = 0;

  /// Advance width and line height of what `text` would draw; only size and weight matter.
  virtual Extent measure(std::string_view line, double size, Weight weight) const = 0;

  /// What is drawn until the matching pop stays inside the box and inside every clip around it.
  virtual void push_clip(const Box& box) = 0;
  virtual void pop_clip() = 0;

  /// What is drawn until the matching end belongs together. A canvas that cannot say so ignores it.
  virtual void begin_group(const GroupText&) {}
  virtual void end_group() {}

  /// A supply's icon, fitted into the box. An unknown name is drawn as a plain shape with its first
  /// letters. A canvas with an atlas may override it; the shapes come from icons.hpp.
  virtual void icon(std::string_view name, const Box& box, const Paint& paint);

  void line(Point from, Point to, const Stroke& stroke);
  void polygon(std::initializer_list<Point> points, const Paint& paint);
  void polyline(std::initializer_list<Point> points, const Stroke& stroke);
};

/// Keeps a clip for as long as it lives.
class Clip {
 public:
  Clip(Canvas& canvas, const Box& box) : canvas_(canvas) { canvas_.push_clip(box); }
  ~Clip() { canvas_.pop_clip(); }
  Clip(const Clip&) = delete;
  Clip& operator=(const Clip&) = delete;

 private:
  Canvas& canvas_;
};

/// Keeps a group open for as long as it lives.
class Group {
 public:
  Group(Canvas& canvas, const GroupText& text) : canvas_(canvas) { canvas_.begin_group(text); }
  ~Group() { canvas_.end_group(); }
  Group(const Group&) = delete;
  Group& operator=(const Group&) = delete;

 private:
  Canvas& canvas_;
};

}  // namespace beforehand::picture
