// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "picture/field_view.hpp"

#include <algorithm>
#include <cmath>

#include "picture/field_scenes.hpp"
#include "picture/text.hpp"

namespace beforehand::picture {

std::vector<Point> FieldPainter::outline(Point start,
                                         std::initializer_list<std::array<Point, 3>> curves) const {
  std::vector<Point> local{start};
  for (const auto& c : curves) {
    const auto part = curve(local.back(), c[0], c[1], c[2]);
    local.insert(local.end(), part.begin(), part.end());
  }
  local.pop_back();
  for (Point& p : local) p = at(p.x, p.y);
  return local;
}

void FieldPainter::frame() {
  canvas_.rectangle(box_, {nothing, {p_.edge_strong, theme_.px(1.5)}}, theme_.px(8));
}

void FieldPainter::drop_at(Point middle, double radius) {
  const auto q = [&](double x, double y) { return middle + Point{x, y} * radius; };
  std::vector<Point> shape{q(0, -1.6)};
  for (const auto& part : {curve(shape.back(), q(0.3, -1), q(1, -0.5), q(1, 0)),
                           curve(q(1, 0), q(1, 1.3), q(-1, 1.3), q(-1, 0)),
                           curve(q(-1, 0), q(-1, -0.5), q(-0.3, -1), q(0, -1.6))})
    shape.insert(shape.end(), part.begin(), part.end());
  shape.pop_back();
  canvas_.polygon(shape, {blend(water.with_alpha(170), white), {deep_water, theme_.px(1.75)}});
  canvas_.circle(q(-0.35, 0.1), radius * 0.22, {white, {}});
}

void FieldPainter::lens(const ToolSeen& tool, Point centre, double radius, Point where) {
  const Group group(canvas_, {tool.name, {}, "img"});
  const Point way = where - centre;
  const double length = std::max(0.001, std::hypot(way.x, way.y));
  const Point ahead = way * (1 / length), aside{-ahead.y, ahead.x};
  const Point tip = centre + ahead * std::min(length, radius + px(0.28));
  canvas_.polygon({centre + aside * (radius * 0.6), tip, centre - aside * (radius * 0.6)},
                  {p_.card, edge()});
  canvas_.circle(centre, radius, {p_.card, edge(2)});
  const double half = radius * 0.68;
  canvas_.icon(tool.icon, {centre.x - half, centre.y - half, 2 * half, 2 * half},
               {p_.card, {p_.ink, std::max(1.25, half / 14)}});
}

void FieldPainter::tools(Point where) {
  const double radius = std::min(px(0.36), std::max(theme_.px(20), px(0.34)));
  const double margin = radius + theme_.px(6);
  const std::array<Point, 2> corners{Point{box_.right() - margin, box_.y + margin},
                                     Point{box_.x + margin, box_.y + margin}};
  for (std::size_t i = 0; i < std::min(f_.tools.size(), corners.size()); ++i)
    lens(f_.tools[i], corners[i], radius, where);
}

namespace {

std::string sentence(const std::vector<std::string>& words) {
  std::string all;
  for (const std::string& word : words) all += (all.empty() ? "" : " \u00b7 ") + word;
  return all;
}

// As many as there is room for, whole; the latest come first.
std::string shown_words(const Canvas& canvas, std::vector<std::string> words, double width,
                        double height, double size) {
  while (words.size() > 1 && paragraph_height(canvas, sentence(words), width, size) > height)
    words.pop_back();
  return sentence(words);
}

void draw_subject(Canvas& canvas, const FieldView& field, const Theme& theme, const Box& box) {
  switch (field.subject) {
    case Subject::patient:
      return draw_patient_field(canvas, field, theme, box);
    case Subject::surfaces:
      return draw_surfaces_field(canvas, field, theme, box);
    case Subject::tooth:
    case Subject::crown:
      return draw_tooth_field(canvas, field, theme, box);
  }
}

}  // namespace

void draw_field(Canvas& canvas, const FieldView& field, const Theme& theme, const Box& box) {
  const Group group(canvas, {field.title, sentence(field.words), "img"});
  const double size = theme.size(TextSize::label);
  const double line = canvas.measure("X", size, {}).height;
  // Room for as many lines as come, so that the picture keeps its size whatever there is to say.
  const double lines = box.height > 16 * line ? 5 : 3;
  const double foot = std::min(lines * line + theme.px(6), box.height * 0.4);
  const Box picture{box.x, box.y, box.width, std::max(0.0, box.height - foot)};
  draw_subject(canvas, field, theme, picture.inset(theme.px(1)));
  if (!field.tooth.empty()) {
    const double width = canvas.measure(field.tooth, size, Weight::bold).width + theme.px(14);
    const Box tag{picture.right() - width - theme.px(8),
                  picture.bottom() - line * 1.2 - theme.px(8), width, line * 1.2};
    canvas.rectangle(tag, {theme.palette.card, {theme.palette.ink, theme.px(1)}}, theme.px(5));
    canvas.text(tag.centre(), field.tooth,
                {size, theme.palette.ink, Weight::bold, Align::centre, Level::middle});
  }
  if (!field.words.empty()) {
    const Box under{box.x + theme.px(4), picture.bottom() + theme.px(6), box.width - theme.px(8),
                    foot};
    const auto words = shown_words(canvas, field.words, under.width, foot - theme.px(4), size);
    paragraph(canvas, under, words, {size, theme.palette.ink});
  }
}

}  // namespace beforehand::picture
