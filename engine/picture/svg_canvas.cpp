// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "picture/svg_canvas.hpp"

#include <algorithm>
#include <array>
#include <cassert>
#include <charconv>
#include <cmath>

#include "picture/advance_widths.hpp"
#include "picture/markup.hpp"
#include "picture/utf8.hpp"

namespace beforehand::picture {
namespace {

/// Two decimals at most, always with a point, whatever the locale.
std::string number(double value) {
  if (!std::isfinite(value)) value = 0;
  std::array<char, 64> buffer;
  value = std::clamp(std::round(value * 100) / 100, -1e9, 1e9);
  const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value,
                                 std::chars_format::fixed, 2)
                       .ptr;
  std::string digits(buffer.data(), end);
  while (digits.back() == '0') digits.pop_back();
  if (digits.back() == '.') digits.pop_back();
  return digits == "-0" ? "0" : digits;
}

std::string attribute(std::string_view name, std::string_view value) {
  return " " + std::string(name) + "=\"" + escape_markup(value) + '"';
}

std::string attribute(std::string_view name, double value) {
  return attribute(name, number(value));
}

std::string colour(std::string_view name, Colour c) {
  if (!c.visible()) return attribute(name, "none");
  constexpr std::string_view digits = "0123456789abcdef";
  std::string hex = "#";
  for (const unsigned channel : {c.red, c.green, c.blue}) {
    hex += digits[channel >> 4];
    hex += digits[channel & 15];
  }
  std::string out = attribute(name, hex);
  if (c.alpha != 255) out += attribute(std::string(name) + "-opacity", c.alpha / 255.0);
  return out;
}

std::string stroke_attributes(const Stroke& stroke) {
  if (!stroke.colour.visible() || stroke.width <= 0) return {};
  std::string out = colour("stroke", stroke.colour) + attribute("stroke-width", stroke.width);
  if (stroke.dash > 0) {
    out += attribute("stroke-dasharray", number(stroke.dash) + ' ' + number(stroke.gap)) +
           attribute("stroke-linecap", "butt");
  }
  return out;
}

std::string paint_attributes(const Paint& paint) {
  return colour("fill", paint.fill) + stroke_attributes(paint.line);
}

std::string pair(Point p) { return number(p.x) + ' ' + number(p.y); }

std::string point_list(std::span<const Point> points) {
  std::string out;
  for (const Point& p : points) {
    if (!out.empty()) out += ' ';
    out += number(p.x) + ',' + number(p.y);
  }
  return out;
}

/// Arc commands onwards from the point at `from`, in parts below a half turn, which SVG draws
/// without doubt.
std::string arc_commands(Point centre, double radius, double from, double to) {
  std::string out;
  const int parts = std::max(1, static_cast<int>(std::ceil(std::abs(to - from) / 120)));
  for (int i = 1; i <= parts; ++i) {
    out += " A" + number(radius) + ' ' + number(radius) + " 0 0 " + (to >= from ? "1 " : "0 ") +
           pair(polar(centre, radius, from + (to - from) * i / parts));
  }
  return out;
}

double baseline(double y, const TextStyle& style) {
  switch (style.level) {
    case Level::top:
      return y + ascent * style.size;
    case Level::middle:
      return y + capital_height / 2 * style.size;
    case Level::bottom:
      return y - descent * style.size;
    case Level::baseline:
      break;
  }
  return y;
}

std::string_view anchor(Align align) {
  if (align == Align::left) return "start";
  return align == Align::right ? "end" : "middle";
}

std::string child(std::string_view name, std::string_view text) {
  return '<' + std::string(name) + '>' + escape_markup(text) + "</" + std::string(name) + ">\n";
}

}  // namespace

SvgCanvas::SvgCanvas(double width, double height, std::string_view title,
                     std::string_view description) {
  head_ = "<svg xmlns=\"http://www.w3.org/2000/svg\"" + attribute("width", width) +
          attribute("height", height) +
          attribute("viewBox", "0 0 " + number(width) + ' ' + number(height)) +
          attribute("role", "graphics-document document") + attribute("aria-label", title) +
          attribute("font-family", "'DejaVu Sans', 'Noto Sans', 'Segoe UI', Arial, sans-serif") +
          " stroke-linejoin=\"round\" stroke-linecap=\"round\">\n" + child("title", title);
  if (!description.empty()) head_ += child("desc", description);
}

void SvgCanvas::element(std::string_view name, std::string_view attributes) {
  body_ += '<';
  body_ += name;
  body_ += attributes;
  body_ += "/>\n";
}

void SvgCanvas::rectangle(const Box& box, const Paint& paint, double radius) {
  std::string attributes = attribute("x", box.x) + attribute("y", box.y) +
                           attribute("width", std::max(0.0, box.width)) +
                           attribute("height", std::max(0.0, box.height));
  const double most = std::min(box.width, box.height) / 2;
  if (radius > 0 && most > 0) attributes += attribute("rx", std::min(radius, most));
  element("rect", attributes + paint_attributes(paint));
}

void SvgCanvas::circle(Point centre, double radius, const Paint& paint) {
  element("circle", attribute("cx", centre.x) + attribute("cy", centre.y) +
                        attribute("r", std::max(0.0, radius)) + paint_attributes(paint));
}

void SvgCanvas::ring_segment(Point centre, double inner, double outer, double from, double to,
                             const Paint& paint) {
  assert(from <= to && to <= from + 360);
  std::string path = "M" + pair(polar(centre, outer, from)) + arc_commands(centre, outer, from, to);
  if (inner > 0) {
    const bool whole = to - from >= 360;
    path += (whole ? " Z M" : " L") + pair(polar(centre, inner, to)) +
            arc_commands(centre, inner, to, from);
  } else {
    path += " L" + pair(centre);
  }
  element("path", attribute("d", path + " Z") + paint_attributes(paint));
}

void SvgCanvas::arc(Point centre, double radius, double from, double to, const Stroke& stroke) {
  assert(from <= to && to <= from + 360);
  const std::string path =
      "M" + pair(polar(centre, radius, from)) + arc_commands(centre, radius, from, to);
  element("path", attribute("d", path) + attribute("fill", "none") + stroke_attributes(stroke));
}

void SvgCanvas::polygon(std::span<const Point> points, const Paint& paint) {
  element("polygon", attribute("points", point_list(points)) + paint_attributes(paint));
}

void SvgCanvas::polyline(std::span<const Point> points, const Stroke& stroke) {
  element("polyline", attribute("points", point_list(points)) + attribute("fill", "none") +
                          stroke_attributes(stroke));
}

void SvgCanvas::text(Point at, std::string_view line, const TextStyle& style) {
  std::string attributes = attribute("x", at.x) + attribute("y", baseline(at.y, style)) +
                           attribute("font-size", style.size) + colour("fill", style.colour);
  if (style.weight == Weight::bold) attributes += attribute("font-weight", "bold");
  if (style.align != Align::left) attributes += attribute("text-anchor", anchor(style.align));
  body_ += "<text" + attributes + '>' + escape_markup(line) + "</text>\n";
}

Extent SvgCanvas::measure(std::string_view line, double size, Weight weight) const {
  double em = 0;
  while (!line.empty()) em += advance_width(take_character(line), weight);
  return {em * size, (ascent + descent) * size};
}

// An inner svg element clips as a clipPath does, but needs no id, so pictures can share a page.
void SvgCanvas::push_clip(const Box& box) {
  const std::string view =
      number(box.x) + ' ' + number(box.y) + ' ' + number(box.width) + ' ' + number(box.height);
  body_ += "<svg" + attribute("x", box.x) + attribute("y", box.y) +
           attribute("width", std::max(0.0, box.width)) +
           attribute("height", std::max(0.0, box.height)) + attribute("viewBox", view) + ">\n";
  ++open_clips_;
}

void SvgCanvas::pop_clip() {
  assert(open_clips_ > 0);
  body_ += "</svg>\n";
  --open_clips_;
}

void SvgCanvas::begin_group(const GroupText& group) {
  body_ += "<g" + attribute("role", group.role) + ">\n" + child("title", group.title);
  if (!group.description.empty()) body_ += child("desc", group.description);
  ++open_groups_;
}

void SvgCanvas::end_group() {
  assert(open_groups_ > 0);
  body_ += "</g>\n";
  --open_groups_;
}

std::string SvgCanvas::str() const {
  assert(open_clips_ == 0 && open_groups_ == 0);
  return head_ + body_ + "</svg>\n";
}

}  // namespace beforehand::picture
