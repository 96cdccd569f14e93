// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "audit_canvas.hpp"

#include <algorithm>
#include <iterator>

namespace beforehand::stage {

using picture::Box;

namespace {

// The largest part of a box that another leaves uncovered.
Box left_of(const Box& box, const Box& cover) {
  const Box parts[] = {{box.x, box.y, cover.x - box.x, box.height},
                       {cover.right(), box.y, box.right() - cover.right(), box.height},
                       {box.x, box.y, box.width, cover.y - box.y},
                       {box.x, cover.bottom(), box.width, box.bottom() - cover.bottom()}};
  const auto area = [](const Box& b) { return std::max(0.0, b.width) * std::max(0.0, b.height); };
  return *std::max_element(std::begin(parts), std::end(parts),
                           [&](const Box& a, const Box& b) { return area(a) < area(b); });
}

}  // namespace

void AuditCanvas::rectangle(const Box& box, const picture::Paint& paint, double radius) {
  SvgCanvas::rectangle(box, paint, radius);
  if (paint.fill.alpha < 100) return;
  const Box shown = box.common(clips_.back());
  // What something opaque is drawn over does not show any more.
  for (Seen::Text& text : seen_.texts)
    if (text.visible.overlaps(shown)) text.visible = left_of(text.visible, shown);
  std::erase_if(seen_.texts, [](const Seen::Text& text) {
    return text.visible.width <= 0 || text.visible.height <= 0;
  });
}

void AuditCanvas::text(picture::Point at, std::string_view line, const picture::TextStyle& style) {
  SvgCanvas::text(at, line, style);
  const double width = measure(line, style.size, style.weight).width;
  double x = at.x;
  if (style.align == picture::Align::centre) x -= width / 2;
  if (style.align == picture::Align::right) x -= width;
  double top = at.y - style.size * 0.73;  // the height of a capital over the baseline
  if (style.level == picture::Level::middle) top = at.y - style.size * 0.365;
  if (style.level == picture::Level::top) top = at.y + style.size * 0.2;
  if (style.level == picture::Level::bottom) top = at.y - style.size * 0.95;
  const Box box{x, top, width, style.size * 0.73};
  const Box visible = box.common(clips_.back());
  if (visible.width > 0 && visible.height > 0)
    seen_.texts.push_back({std::string(line), box, visible, style.size});
}

void AuditCanvas::push_clip(const Box& box) {
  SvgCanvas::push_clip(box);
  clips_.push_back(box.common(clips_.back()));
}

void AuditCanvas::pop_clip() {
  SvgCanvas::pop_clip();
  clips_.pop_back();
}

bool Seen::shows(std::string_view part) const {
  return std::any_of(texts.begin(), texts.end(),
                     [&](const Text& text) { return text.line.find(part) != std::string::npos; });
}

std::vector<std::string> Seen::cut() const {
  constexpr std::string_view ellipsis = "…";
  std::vector<std::string> result;
  for (const auto& text : texts)
    if (text.line.size() >= ellipsis.size() &&
        text.line.compare(text.line.size() - ellipsis.size(), ellipsis.size(), ellipsis) == 0)
      result.push_back(text.line);
  return result;
}

std::vector<std::string> Seen::faults(double smallest) const {
  std::vector<std::string> result;
  for (std::size_t i = 0; i < texts.size(); ++i) {
    const auto& text = texts[i];
    const bool sign = text.line.size() <= 2;  // the letters on a supply without an icon of its own
    if (text.size < smallest - 0.01 && !sign) result.push_back("too small: " + text.line);
    if (text.box.x < window.x || text.box.right() > window.right() + 0.5)
      result.push_back("leaves the window: " + text.line);
    for (std::size_t j = i + 1; j < texts.size(); ++j)
      if (const Box both = text.visible.common(texts[j].visible); both.width > 1 && both.height > 1)
        result.push_back("on top of each other: " + text.line + " | " + texts[j].line);
  }
  return result;
}

}  // namespace beforehand::stage
