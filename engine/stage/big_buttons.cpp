// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/big_buttons.hpp"

#include <algorithm>

#include "picture/text.hpp"

namespace beforehand::stage {
namespace {

std::string key_name(char32_t key) {
  return std::string(1, static_cast<char>(key >= U'a' && key <= U'z' ? key - 32 : key));
}

void draw_button(Pen& pen, const Box& row, const BigButton& b, const std::string& key) {
  const auto& ink = pen.ink();
  const Colour fill = b.on ? ink.accent : b.enabled ? ink.accent_soft : ink.well;
  pen.canvas.rectangle(row, {fill, {b.enabled ? ink.accent : ink.edge, pen.px(1)}}, pen.px(8));
  if (b.marked) focus_ring(pen, row, pen.px(8));
  const bool two = !b.under.empty() && row.height >= pen.px(44);
  const double middle = row.y + row.height / 2, first = two ? row.y + row.height * 0.32 : middle;
  double x = row.x + pen.px(8);
  if (!key.empty()) x = key_cap(pen, {x, middle}, key);
  x += pen.px(10);
  const auto line = [&](double y, const std::string& text, TextSize size, Colour colour, Weight w) {
    auto style = pen.style(size, colour, w);
    style.level = picture::Level::middle;
    const double width = row.right() - x - pen.px(8);
    pen.canvas.text({x, y}, picture::shorten(pen.canvas, text, width, style.size, w), style);
  };
  line(first, b.label, TextSize::body,
       b.on        ? ink.on_accent
       : b.enabled ? ink.ink
                   : ink.ink_soft,
       b.on ? Weight::bold : Weight::regular);
  if (two)
    line(row.y + row.height * 0.72, b.under, TextSize::label, b.on ? ink.on_accent : ink.ink_soft,
         Weight::regular);
}

}  // namespace

void big_buttons(Pen& pen, const Box& box, std::string_view title, bool focused, std::size_t column,
                 const std::vector<BigButton>& buttons, bool keys, int first_id) {
  const Box in = panel(pen, box);
  if (focused) focus_ring(pen, box, pen.px(10));
  const double top = heading(pen, {in.x, in.y}, in.width, title);
  const double gap = pen.px(6), n = static_cast<double>(buttons_a_column);
  const double height = (in.bottom() - top + gap) / n - gap;
  for (std::size_t i = 0; i < buttons.size() && i < buttons_a_column; ++i) {
    const Box row{in.x, top + static_cast<double>(i) * (height + gap), in.width, height};
    if (buttons[i].enabled) pen.hits.add(row, first_id + static_cast<int>(i));
    draw_button(pen, row, buttons[i], keys ? key_name(column_keys[column][i]) : std::string());
  }
}

int button_of(char32_t key, std::size_t columns) {
  for (std::size_t column = 0; column < std::min(columns, std::size(column_keys)); ++column) {
    const auto at = column_keys[column].find(key);
    if (at != std::u32string_view::npos) return static_cast<int>(column * buttons_a_column + at);
  }
  return -1;
}

}  // namespace beforehand::stage
