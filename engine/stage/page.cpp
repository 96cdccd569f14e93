// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/page.hpp"

#include <algorithm>

namespace beforehand::stage {
namespace {

double wanted_width(const Pen& pen, const BarButton& b) {
  return button_width(pen, b.label, b.key) + (b.look.primary ? pen.px(24) : 0);
}

// Where each stands, relative to the bar's corner.
std::vector<Box> places(const Pen& pen, double width, const std::vector<BarButton>& buttons) {
  const double gap = pen.px(12), height = button_height(pen), step = height + pen.px(8);
  std::vector<Box> result;
  double x = 0, y = 0;
  for (std::size_t i = 0; i < buttons.size(); ++i) {
    const double wide = std::min(width, wanted_width(pen, buttons[i]));
    if (x > 0 && x + wide > width + 0.5) x = 0, y += step;
    const bool last = i + 1 == buttons.size() && (i > 0 || buttons[i].look.primary);
    result.push_back({last ? width - wide : x, y, wide, height});
    x += wide + gap;
  }
  return result;
}

}  // namespace

bool is_compact(const Pen& pen, const Box& window) {
  return window.width < pen.px(900) || window.height < pen.px(560);
}

double button_bar_height(const Pen& pen, double width, const std::vector<BarButton>& buttons) {
  return buttons.empty() ? 0 : places(pen, width, buttons).back().bottom();
}

double button_bar(Pen& pen, const Box& box, const std::vector<BarButton>& buttons) {
  const auto at = places(pen, box.width, buttons);
  for (std::size_t i = 0; i < buttons.size(); ++i)
    button(pen, {box.x + at[i].x, box.y + at[i].y, at[i].width, at[i].height}, buttons[i].label,
           buttons[i].key, buttons[i].look, buttons[i].id);
  return buttons.empty() ? 0 : at.back().bottom();
}

void FlowButtons::add(std::string_view label, std::string_view key, int id, ButtonLook look) {
  const double right = flow_.x() + flow_.width();
  const double width = std::min(right - left_, button_width(pen_, label, key));
  if (x_ > left_ && x_ + width > right + 0.5) {
    end();
    x_ = left_;
  }
  button(pen_, {x_, flow_.y, width, pen_.px(34)}, label, key, look, id);
  x_ += width + pen_.px(8);
}

void FlowButtons::end() { flow_.gap(34 + 6); }

Box scrolling_card(Pen& pen, const Box& card, Scroll& scroll,
                   const std::function<void(Flow&)>& write) {
  const Box in = panel(pen, card);
  const double stood = scroll.offset;
  {
    const picture::Clip clip(pen.canvas, in);
    const double start = in.y - scroll.offset;
    Flow flow(pen, {in.x, start}, in.width - pen.px(14));
    write(flow);
    scroll.view = in.height;
    scroll.content = flow.y - start;
    scroll.move(0);
  }
  // In another size what is written is shorter, and stands lower.
  if (scroll.offset < stood) return scrolling_card(pen, card, scroll, write);
  scroll_bar(pen, in, scroll);
  return in;
}

void page(Pen& pen, const Box& box, Scroll& scroll, const std::function<void(Flow&)>& write,
          const std::vector<BarButton>& buttons) {
  const double gap = pen.px(12), width = box.width - 2 * gap;
  const double bar = button_bar_height(pen, width, buttons);
  scrolling_card(pen, {box.x + gap, box.y + gap, width, box.height - bar - 3 * gap}, scroll, write);
  button_bar(pen, {box.x + gap, box.bottom() - bar - gap, width, bar}, buttons);
}

}  // namespace beforehand::stage
