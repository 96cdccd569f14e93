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

constexpr double least_height = 44, edge = 1;

// What is beside a button's words.
double before_words(const Pen& pen, const std::string& key) {
  return pen.px(18) + (key.empty() ? 0 : key_cap_width(pen, key));
}

Box words_in(const Pen& pen, const Box& row, const std::string& key) {
  const double x = before_words(pen, key);
  return {row.x + x, row.y + pen.px(edge), row.width - x - pen.px(8),
          row.height - pen.px(2 * edge)};
}

Weight weight_of(const BigButton& b) { return b.on ? Weight::bold : Weight::regular; }

// The height at which the whole label has room.
double needed(const Pen& pen, const Box& column, const BigButton& b, const std::string& key) {
  return pen.px(2 * edge) + picture::paragraph_height(pen.canvas, b.label,
                                                      words_in(pen, column, key).width,
                                                      pen.size(TextSize::label), weight_of(b));
}

// A text and, under it, a quieter one, in the middle of the height. Where both do not find room,
// the first is the one that stays whole.
void write_labels(Pen& pen, const Box& box, const BigButton& b, TextSize size) {
  const auto& ink = pen.ink();
  const auto weight = weight_of(b);
  const auto height = [&](std::string_view text, TextSize of, Weight w) {
    return text.empty() ? 0
                        : picture::paragraph_height(pen.canvas, text, box.width, pen.size(of), w);
  };
  const double first = std::min(box.height, height(b.label, size, weight)),
               second = height(b.under, TextSize::label, Weight::regular);
  const bool both = first + second <= box.height;
  const double y = box.centre().y - (both ? first + second : first) / 2;
  const double below = paragraph(pen, {box.x, y}, box.width, b.label, size,
                                 b.on        ? ink.on_accent
                                 : b.enabled ? ink.ink
                                             : ink.ink_soft,
                                 weight, box.bottom());
  if (both && second > 0)
    paragraph(pen, {box.x, below}, box.width, b.under, TextSize::label,
              b.on ? ink.on_accent : ink.ink_soft);
}

void draw_button(Pen& pen, const Box& row, const BigButton& b, const std::string& key) {
  const auto& ink = pen.ink();
  const Colour fill = b.on ? ink.accent : b.enabled ? ink.accent_soft : ink.well;
  pen.canvas.rectangle(row, {fill, {b.enabled ? ink.accent : ink.edge, pen.px(1)}}, pen.px(8));
  if (b.marked) focus_ring(pen, row, pen.px(8));
  key_cap(pen, {row.x + pen.px(8), row.centre().y}, key);
  const Box words = words_in(pen, row, key);
  const bool roomy =
      row.height >= pen.px(64) &&
      picture::paragraph_height(pen.canvas, b.label, words.width, pen.size(TextSize::body),
                                weight_of(b)) <= words.height;
  write_labels(pen, words, b, roomy ? TextSize::body : TextSize::label);
}

}  // namespace

std::size_t big_buttons(Pen& pen, const Box& box, std::string_view title, bool focused,
                        std::size_t column, const std::vector<BigButton>& buttons, bool keys,
                        int first_id) {
  const bool low = box.height < pen.px(330);
  pen.canvas.rectangle(box, {pen.ink().card, {pen.ink().edge, pen.px(1)}}, pen.px(10));
  if (focused) focus_ring(pen, box, pen.px(10));
  const Box in = box.inset(pen.px(low ? 8 : 14));
  const double named =
      paragraph(pen, {in.x, in.y}, in.width, title, low ? TextSize::label : TextSize::heading,
                pen.ink().ink, Weight::bold);
  const double gap = pen.px(6);
  double y = std::max(in.y + pen.px(low ? 26 : 34), named + gap);
  const double share = (in.bottom() - y + gap) / static_cast<double>(buttons_a_column) - gap;
  std::size_t shown = 0;
  for (; shown < std::min(buttons.size(), buttons_a_column); ++shown) {
    const auto& b = buttons[shown];
    const auto key = keys ? key_name(column_keys[column][shown]) : std::string();
    const double height = std::max(low ? pen.px(least_height) : share, needed(pen, in, b, key));
    if (shown > 0 && y + height > in.bottom() + 0.5) break;
    const Box row{in.x, y, in.width, height};
    if (b.enabled) pen.hits.add(row, first_id + static_cast<int>(shown));
    draw_button(pen, row, b, key);
    y += height + gap;
  }
  return shown;
}

int button_of(char32_t key, std::size_t columns) {
  for (std::size_t column = 0; column < std::min(columns, std::size(column_keys)); ++column) {
    const auto at = column_keys[column].find(key);
    if (at != std::u32string_view::npos) return static_cast<int>(column * buttons_a_column + at);
  }
  return -1;
}

}  // namespace beforehand::stage
