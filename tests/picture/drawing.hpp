// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <ostream>
#include <pugixml.hpp>
#include <stdexcept>
#include <string>
#include <vector>

#include "picture/svg_canvas.hpp"

namespace beforehand::picture {

/// A text as it was drawn, with the room it takes.
struct DrawnText {
  std::string text;
  Box box;
  double size = 0;
};

/// Remembers what was drawn, on top of writing SVG; positions of text are checked against these.
class NotingCanvas : public SvgCanvas {
 public:
  using SvgCanvas::SvgCanvas;

  void text(Point at, std::string_view line, const TextStyle& style) override {
    const double width = measure(line, style.size, style.weight).width;
    const double shift = style.align == Align::left ? 0 : style.align == Align::right ? 1 : 0.5;
    // The height of what is drawn: capitals and descenders, without the line's leading.
    const double up = style.size * 0.73;
    const double down = style.size * 0.24;
    double baseline = at.y;
    if (style.level == Level::middle) baseline += up / 2;
    if (style.level == Level::top) baseline += style.size * 0.93;
    if (style.level == Level::bottom) baseline -= down;
    texts.push_back(
        {std::string(line), {at.x - shift * width, baseline - up, width, up + down}, style.size});
    SvgCanvas::text(at, line, style);
  }

  std::vector<DrawnText> texts;
};

/// Inside, rounding apart.
inline bool is_within(const Box& inner, const Box& outer) {
  const double slack = 0.01;
  return inner.x >= outer.x - slack && inner.y >= outer.y - slack &&
         inner.right() <= outer.right() + slack && inner.bottom() <= outer.bottom() + slack;
}

inline void PrintTo(const Box& b, std::ostream* out) {
  *out << b.x << ' ' << b.y << ' ' << b.width << 'x' << b.height;
}

inline pugi::xml_document parse(const std::string& svg) {
  pugi::xml_document document;
  const pugi::xml_parse_result result = document.load_string(svg.c_str());
  if (!result) throw std::runtime_error(result.description());
  return document;
}

/// Elements with this path expression.
inline std::size_t count(const pugi::xml_document& document, const std::string& xpath) {
  return document.select_nodes(xpath.c_str()).size();
}

}  // namespace beforehand::picture
