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

// A low column has smaller margins, and buttons that stay as high as they are.
bool is_low(const Pen& pen, double column_height) { return column_height < pen.px(330); }
double margin(const Pen& pen, bool low) { return pen.px(low ? 8 : 14); }
double head_height(const Pen& pen, bool low) { return pen.px(low ? 26 : 34); }
constexpr double low_button = 44, gap_between = 6;

struct Label {
  Box box;
  TextSize size;
  Colour colour;
  Weight weight;
};

// In one line, or in as many as the box has room for.
void write_label(Pen& pen, const Label& l, std::string_view text) {
  const double size = pen.size(l.size), width = l.box.width;
  const double height = picture::paragraph_height(pen.canvas, text, width, size, l.weight);
  const bool one = height < 2 * size || l.box.height < 2.4 * size;
  if (one) {
    auto style = pen.style(l.size, l.colour, l.weight);
    style.level = picture::Level::middle;
    pen.canvas.text({l.box.x, l.box.centre().y},
                    picture::shorten(pen.canvas, text, width, style.size, l.weight), style);
    return;
  }
  const double y = l.box.centre().y - std::min(height, l.box.height) / 2;
  paragraph(pen, {l.box.x, y}, width, text, l.size, l.colour, l.weight, l.box.bottom());
}

void draw_button(Pen& pen, const Box& row, const BigButton& b, const std::string& key) {
  const auto& ink = pen.ink();
  const Colour fill = b.on ? ink.accent : b.enabled ? ink.accent_soft : ink.well;
  pen.canvas.rectangle(row, {fill, {b.enabled ? ink.accent : ink.edge, pen.px(1)}}, pen.px(8));
  if (b.marked) focus_ring(pen, row, pen.px(8));
  const bool two = !b.under.empty() && row.height >= pen.px(44);
  double x = row.x + pen.px(8);
  if (!key.empty()) x = key_cap(pen, {x, row.centre().y}, key);
  x += pen.px(10);
  const double width = row.right() - x - pen.px(8), upper = two ? row.height * 0.6 : row.height;
  const Colour colour = b.on ? ink.on_accent : b.enabled ? ink.ink : ink.ink_soft;
  write_label(pen,
              {{x, row.y + pen.px(1), width, upper - pen.px(2)},
               row.height < pen.px(50) ? TextSize::label : TextSize::body,
               colour,
               b.on ? Weight::bold : Weight::regular},
              b.label);
  if (two)
    write_label(pen,
                {{x, row.y + row.height * 0.54, width, row.height * 0.4},
                 TextSize::label,
                 b.on ? ink.on_accent : ink.ink_soft,
                 Weight::regular},
                b.under);
}

}  // namespace

std::size_t buttons_that_fit(const Pen& pen, double column_height) {
  const bool low = is_low(pen, column_height);
  const double room = column_height - 2 * margin(pen, low) - head_height(pen, low);
  const auto n = static_cast<std::size_t>((room + pen.px(gap_between)) /
                                          pen.px((low ? low_button : 36) + gap_between));
  return std::clamp<std::size_t>(n, 1, buttons_a_column);
}

void big_buttons(Pen& pen, const Box& box, std::string_view title, bool focused, std::size_t column,
                 const std::vector<BigButton>& buttons, bool keys, int first_id) {
  const bool low = is_low(pen, box.height);
  pen.canvas.rectangle(box, {pen.ink().card, {pen.ink().edge, pen.px(1)}}, pen.px(10));
  if (focused) focus_ring(pen, box, pen.px(10));
  const Box in = box.inset(margin(pen, low));
  auto head = pen.style(low ? TextSize::label : TextSize::heading, pen.ink().ink, Weight::bold);
  head.level = picture::Level::top;
  pen.canvas.text({in.x, in.y},
                  picture::shorten(pen.canvas, title, in.width, head.size, head.weight), head);
  const double top = in.y + head_height(pen, low), gap = pen.px(gap_between);
  const auto most = buttons_that_fit(pen, box.height);
  const double share = (in.bottom() - top + gap) / static_cast<double>(most) - gap;
  const double height = low ? pen.px(low_button) : share;
  for (std::size_t i = 0; i < buttons.size() && i < most; ++i) {
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
