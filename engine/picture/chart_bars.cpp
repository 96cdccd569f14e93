// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "picture/chart_bars.hpp"

#include <algorithm>
#include <vector>

#include "picture/hatch.hpp"
#include "picture/text.hpp"

namespace beforehand::picture {
namespace {

/// The middle part of a row, `share` of its height.
Box middle(const Box& row, double share) {
  return {row.x, row.y + row.height * (1 - share) / 2, row.width, row.height * share};
}

Box shape_of(Activity activity, const Box& row) {
  switch (activity) {
    case Activity::work:
    case Activity::cover:
      return row;
    case Activity::waiting:
    case Activity::avoidable_idle:
      return middle(row, 0.66);
    case Activity::standby:
      return middle(row, 0.2);
  }
  return row;
}

bool words_fit(const Canvas& canvas, std::string_view text, double room, double size) {
  while (!text.empty()) {
    const auto end = std::min(text.find(' '), text.size());
    if (canvas.measure(text.substr(0, end), size, {}).width > room) return false;
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  return true;
}

// The line with the sign that more follows, whole words as long as there are any.
std::string with_more(const Canvas& canvas, std::string line, double room, double size) {
  constexpr const char* more = "\u2026";
  for (auto end = line.size(); end != std::string::npos && end > 0;
       end = line.rfind(' ', end - 1)) {
    const auto words = line.substr(0, end) + more;
    if (canvas.measure(words, size, {}).width <= room) return words;
  }
  return shorten(canvas, line + more, room, size);
}

// The label in one line or, in a high bar, in two.
std::vector<std::string> lines_for(const Canvas& canvas, std::string_view label, double room,
                                   double size, double height) {
  auto lines = wrap(canvas, label, room, size);
  if (lines.size() == 1) return lines;
  if (height >= 2.4 * size && words_fit(canvas, label, room, size)) {
    if (lines.size() > 2) lines[1] = with_more(canvas, lines[1], room, size);
    lines.resize(2);
    return lines;
  }
  const auto shown = label_for(canvas, label, room, size);
  return shown.empty() ? std::vector<std::string>() : std::vector{shown};
}

Colour darker(Colour c) { return blend(Colour::hex(0x16282B).with_alpha(110), c); }

}  // namespace

void draw_activity(Canvas& canvas, Activity activity, const Box& row, const Theme& theme) {
  const Palette& p = theme.palette;
  const Box box = shape_of(activity, row);
  const double thin = theme.px(1.25);
  switch (activity) {
    case Activity::work:
      canvas.rectangle(box, {p.work, {p.ink, thin}}, theme.px(3));
      break;
    case Activity::cover:
      canvas.rectangle(box, {p.cover, {}});
      hatch(canvas, box, theme.px(9), Slope::rising, {darker(p.cover), theme.px(1.5)});
      canvas.rectangle(box, {nothing, {p.ink, thin}});
      break;
    case Activity::waiting:
      canvas.rectangle(box, {p.card, {p.waiting, theme.px(2.5)}});
      break;
    case Activity::standby:
      canvas.rectangle(box, {p.standby, {p.edge_strong, theme.px(1)}});
      break;
    case Activity::avoidable_idle:
      canvas.rectangle(box, {p.avoidable_idle, {}});
      hatch(canvas, box, theme.px(8), Slope::rising, {p.ink, theme.px(0.75)});
      hatch(canvas, box, theme.px(8), Slope::falling, {p.ink, theme.px(0.75)});
      canvas.rectangle(box, {nothing, {p.ink, thin}});
      break;
  }
}

void draw_critical(Canvas& canvas, const Box& row, const Theme& theme) {
  const double band = std::max(2.0, std::min(theme.px(5), row.height / 5));
  canvas.rectangle({row.x, row.y, row.width, band}, {theme.palette.ink, {}});
  canvas.rectangle({row.x, row.bottom() - band, row.width, band}, {theme.palette.ink, {}});
}

void draw_planned(Canvas& canvas, const Box& row, const Theme& theme) {
  const Palette& p = theme.palette;
  canvas.rectangle(middle(row, 0.86),
                   {p.card, {p.edge_strong, theme.px(1.25), theme.px(4), theme.px(3)}},
                   theme.px(3));
}

std::string label_for(const Canvas& canvas, std::string_view label, double room, double size) {
  constexpr std::size_t fewest = 8;
  auto shown = shorten(canvas, label, room, size);
  return shown == label || shown.size() >= fewest + std::string_view("\u2026").size()
             ? shown
             : std::string();
}

void draw_bar_label(Canvas& canvas, std::string_view label, Activity activity, const Box& visible,
                    const Theme& theme, Colour ink, Colour plate) {
  const double size = theme.size(TextSize::label);
  const double padding = theme.px(5);
  const double room = visible.width - 2 * padding;
  const Box shape = shape_of(activity, visible);
  if (label.empty() || room <= 0 || shape.height < size) return;
  const auto lines = lines_for(canvas, label, room, size, shape.height);
  if (lines.empty()) return;
  const double step = size * 1.16, height = step * static_cast<double>(lines.size());
  double width = 0, y = shape.centre().y - height / 2;
  for (const auto& line : lines) width = std::max(width, canvas.measure(line, size, {}).width);
  if (plate.visible()) {
    const Box under{visible.x + padding - theme.px(2), y, width + theme.px(4), height};
    canvas.rectangle(under.common(shape.inset(theme.px(1))), {plate, {}}, theme.px(2));
  }
  for (const auto& line : lines) {
    canvas.text({visible.x + padding, y + step / 2}, line,
                {size, ink, Weight::regular, Align::left, Level::middle});
    y += step;
  }
}

void draw_bracket(Canvas& canvas, const Box& box, const Theme& theme) {
  const Palette& p = theme.palette;
  canvas.rectangle(box, {blend(p.window.with_alpha(40), p.card), {}});
  const double foot = std::min(theme.px(6), box.width);
  for (const double y : {box.y, box.bottom()}) {
    canvas.line({box.x, y}, {box.x + foot, y}, {p.window, theme.px(2)});
    canvas.line({box.right() - foot, y}, {box.right(), y}, {p.window, theme.px(2)});
  }
  canvas.line({box.x, box.y}, {box.x, box.bottom()}, {p.window, theme.px(2)});
  // The latest start is the side that matters.
  canvas.line({box.right(), box.y}, {box.right(), box.bottom()}, {p.window, theme.px(5)});
}

void draw_mark(Canvas& canvas, ChartMark::Kind kind, std::string_view text, Point centre,
               double size, const Theme& theme) {
  const Palette& p = theme.palette;
  const double r = size / 2;
  if (kind == ChartMark::Kind::step) {
    return canvas.text(
        centre, text,
        {theme.size(TextSize::label), p.ink, Weight::regular, Align::centre, Level::middle});
  }
  const Stroke edge{p.card, theme.px(1)};
  const auto at = [&](double x, double y) { return Point{centre.x + x * r, centre.y + y * r}; };
  Colour fill = p.danger;
  switch (kind) {
    case ChartMark::Kind::request:
      fill = p.caution;
      canvas.polygon({at(-0.3, 0.6), at(-0.75, 1.25), at(0.35, 0.8)}, {fill, edge});
      canvas.circle(centre, r * 0.95, {fill, {}});
      break;
    case ChartMark::Kind::error: {
      // As wide as its number: two figures need a flat top.
      const double top = text.size() < 2 ? 0 : 0.75;
      canvas.polygon({at(-top, -1.15), at(top, -1.15), at(1.15 + top / 3, 0), at(top, 1.15),
                      at(-top, 1.15), at(-1.15 - top / 3, 0)},
                     {fill, edge});
      break;
    }
    case ChartMark::Kind::signal:
      fill = p.accent;
      canvas.polygon({at(-0.9, -0.9), at(0.9, -0.9), at(0.9, 0.6), at(0, 1.2), at(-0.9, 0.6)},
                     {fill, edge});
      break;
    case ChartMark::Kind::step:
      break;
  }
  const double unit = canvas.measure(text, 1, Weight::bold).width;
  const double text_size =
      std::min({theme.size(TextSize::label), size * 0.72, size * 0.95 / std::max(unit, 0.1)});
  canvas.text(centre, text, {text_size, p.on_accent, Weight::bold, Align::centre, Level::middle});
}

void draw_link(Canvas& canvas, Point ready, Point used, bool waited, const Theme& theme) {
  const Palette& p = theme.palette;
  const Colour colour = waited ? p.waited : p.need;
  const double way = used.y > ready.y ? 1 : -1;
  const double arrow = theme.px(6);
  const Point tip{used.x, used.y - way * theme.px(1)};
  const Point neck{used.x, used.y - way * arrow};
  const double bend = (neck.y - ready.y) * 0.55;
  std::vector<Point> path{ready};
  const auto rest = curve(ready, {ready.x, ready.y + bend}, {neck.x, neck.y - bend}, neck);
  path.insert(path.end(), rest.begin(), rest.end());
  const double dash = waited ? theme.px(5) : 0;
  canvas.polyline(path, {p.card.with_alpha(200), theme.px(4)});
  canvas.polyline(path, {colour, theme.px(1.75), dash, theme.px(3)});
  canvas.circle(ready, theme.px(3), {colour, {}});
  canvas.polygon(
      {tip, {neck.x - arrow * 0.6, neck.y - way * 1}, {neck.x + arrow * 0.6, neck.y - way * 1}},
      {colour, {}});
}

}  // namespace beforehand::picture
