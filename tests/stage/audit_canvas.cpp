// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "audit_canvas.hpp"

#include <algorithm>
#include <iterator>

#include "picture/palette.hpp"

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

bool AuditCanvas::Ground::covers(picture::Point p) const {
  if (!box.contains(p)) return false;
  if (outline.empty()) return true;
  bool inside = false;
  for (std::size_t i = 0, j = outline.size() - 1; i < outline.size(); j = i++) {
    const auto &a = outline[i], &b = outline[j];
    if ((a.y > p.y) != (b.y > p.y) && p.x < (b.x - a.x) * (p.y - a.y) / (b.y - a.y) + a.x)
      inside = !inside;
  }
  return inside;
}

void AuditCanvas::lay(const Box& box, std::vector<picture::Point> outline, picture::Colour fill) {
  const Box shown = box.common(clips_.back());
  if (grounds_ && fill.visible() && shown.width > 0 && shown.height > 0)
    laid_.push_back({shown, std::move(outline), fill});
}

picture::Colour AuditCanvas::ground_at(picture::Point p) const {
  picture::Colour colour = picture::Colour::hex(0xFFFFFF);
  for (const auto& ground : laid_)
    if (ground.covers(p)) colour = picture::blend(ground.fill, colour);
  return colour;
}

// At points along and across the text.
double AuditCanvas::contrast_on(const Box& visible, picture::Colour text) const {
  double least = 21;
  for (const double along : {0.02, 0.25, 0.5, 0.75, 0.98})
    for (const double across : {0.1, 0.5, 0.9}) {
      const auto ground =
          ground_at({visible.x + visible.width * along, visible.y + visible.height * across});
      least = std::min(least, picture::contrast(picture::blend(text, ground), ground));
    }
  return least;
}

void AuditCanvas::rectangle(const Box& box, const picture::Paint& paint, double) {
  lay(box, {}, paint.fill);
  if (paint.fill.alpha < 100) return;
  const Box shown = box.common(clips_.back());
  // What something opaque is drawn over does not show any more.
  for (Seen::Text& text : seen_.texts)
    if (text.visible.overlaps(shown)) text.visible = left_of(text.visible, shown);
  std::erase_if(seen_.texts, [](const Seen::Text& text) {
    return text.visible.width <= 0 || text.visible.height <= 0;
  });
}

void AuditCanvas::polygon(std::span<const picture::Point> points, const picture::Paint& paint) {
  if (!grounds_ || points.empty()) return;
  Box box{points[0].x, points[0].y, 0, 0};
  for (const auto& p : points) {
    const double x = std::min(box.x, p.x), y = std::min(box.y, p.y);
    box = {x, y, std::max(box.right(), p.x) - x, std::max(box.bottom(), p.y) - y};
  }
  lay(box, {points.begin(), points.end()}, paint.fill);
}

void AuditCanvas::circle(picture::Point centre, double radius, const picture::Paint& paint) {
  if (grounds_) polygon(picture::circle_outline(centre, radius), paint);
}

void AuditCanvas::ring_segment(picture::Point centre, double inner, double outer, double from,
                               double to, const picture::Paint& paint) {
  if (grounds_) polygon(picture::ring_outline(centre, inner, outer, from, to), paint);
}

void AuditCanvas::text(picture::Point at, std::string_view line, const picture::TextStyle& style) {
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
  if (visible.width <= 0 || visible.height <= 0) return;
  const double contrast = grounds_ ? contrast_on(visible, style.colour) : 21;
  const bool clipped = visible.width < box.width - 1;
  seen_.texts.push_back({std::string(line), box, visible, style.size, contrast, clipped});
}

void AuditCanvas::push_clip(const Box& box) { clips_.push_back(box.common(clips_.back())); }

void AuditCanvas::pop_clip() { clips_.pop_back(); }

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

std::vector<std::string> Seen::clipped() const {
  std::vector<std::string> result;
  for (const auto& text : texts)
    if (text.clipped) result.push_back(text.line);
  return result;
}

std::vector<std::string> Seen::pale(double least) const {
  std::vector<std::string> result;
  for (const auto& text : texts)
    if (text.contrast < least)
      result.push_back(text.line + ": " + std::to_string(text.contrast) + " to 1");
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
