// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/list_view.hpp"

#include <algorithm>

#include "picture/text.hpp"

namespace beforehand::stage {
namespace {

/// The chosen row is tinted; the one under the pointer only has a stronger edge.
picture::Paint row_paint(const Pen& pen, const Box& row, bool chosen) {
  const auto& ink = pen.ink();
  if (chosen) return {ink.accent_soft, {ink.accent, pen.px(2)}};
  if (row.contains(pen.pointer)) return {ink.card, {ink.edge_strong, pen.px(2)}};
  return {ink.well, {ink.edge, pen.px(1)}};
}

void row_frame(Pen& pen, const Box& row, bool chosen, bool focused) {
  pen.canvas.rectangle(row, row_paint(pen, row, chosen), pen.px(8));
  if (chosen && focused) focus_ring(pen, row, pen.px(8));
}

}  // namespace

void list_view(Pen& pen, const Box& view, Scroll& scroll, const ListView& list,
               const std::function<void(const Box&, std::size_t)>& write) {
  const double gap = pen.px(8), ring = pen.px(5), bar = pen.px(12);
  std::vector<double> tops{ring};
  for (const double height : list.heights) tops.push_back(tops.back() + height + gap);
  const bool resized = scroll.view != view.height;
  scroll.view = view.height;
  scroll.content = tops.back() - gap + ring;
  const bool followed = list.focused || list.follow;
  const long wanted = list.chosen && followed ? static_cast<long>(*list.chosen) : -1;
  if (wanted >= 0 && (resized || wanted != scroll.kept) && *list.chosen < list.heights.size()) {
    const double top = tops[*list.chosen] - ring;
    const double lowest = tops[*list.chosen + 1] - gap + ring - view.height;
    scroll.offset = std::clamp(scroll.offset, std::min(top, lowest), top);
  }
  scroll.kept = wanted;
  scroll.move(0);
  {
    const picture::Clip clip(pen.canvas, view);
    for (std::size_t i = 0; i < list.heights.size(); ++i) {
      const Box row{view.x + ring, view.y - scroll.offset + tops[i], view.width - bar - ring,
                    list.heights[i]};
      if (!row.overlaps(view)) continue;
      row_frame(pen, row, list.chosen == i, list.focused);
      pen.hits.add(row.common(view), list.first_id + static_cast<int>(i));
      write(row.inset(pen.px(10)), i);
    }
  }
  scroll_bar(pen, view, scroll);
}

double list_row_height(const Pen& pen) { return pen.px(40); }

double list_row_height(const Pen& pen, double view_width, std::string_view text, Weight weight) {
  const double beside = pen.px(12 + 5 + 20 + 36);  // the bar, the ring, the margins, the icon
  const double height = picture::paragraph_height(pen.canvas, text, view_width - beside,
                                                  pen.size(TextSize::body), weight);
  return std::max(list_row_height(pen), height + pen.px(14));
}

void list_line(Pen& pen, const Box& inside, std::string_view text, Weight weight,
               std::string_view icon) {
  double x = inside.x;
  if (!icon.empty()) {
    const double size = pen.px(28);
    pen.canvas.icon(icon, {x, inside.centre().y - size / 2, size, size},
                    {pen.ink().card, {pen.ink().ink, pen.px(1.5)}});
    x += size + pen.px(8);
  }
  const double width = inside.right() - x, size = pen.size(TextSize::body);
  const double height = picture::paragraph_height(pen.canvas, text, width, size, weight);
  const bool one = height < 2 * size;  // a line too long for a row of one is cut
  auto style = pen.style(TextSize::body, pen.ink().ink, weight);
  if (!one && height <= inside.height + pen.px(10)) {
    paragraph(pen, {x, inside.centre().y - height / 2}, width, text, TextSize::body, pen.ink().ink,
              weight);
    return;
  }
  style.level = picture::Level::middle;
  pen.canvas.text({x, inside.centre().y},
                  picture::shorten(pen.canvas, text, width, style.size, weight), style);
}

}  // namespace beforehand::stage
