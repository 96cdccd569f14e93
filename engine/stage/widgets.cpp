// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/widgets.hpp"

#include <algorithm>
#include <iterator>

#include "picture/text.hpp"

namespace beforehand::stage {
namespace {

using picture::Align;
using picture::Level;
using picture::Paint;
using picture::Stroke;

TextStyle middle(TextStyle style, Align align = Align::left) {
  style.level = Level::middle;
  style.align = align;
  return style;
}

double label_width(const Pen& pen, std::string_view text, Weight weight = Weight::regular) {
  return pen.canvas.measure(text, pen.size(TextSize::label), weight).width;
}

}  // namespace

Box panel(Pen& pen, const Box& box) {
  pen.canvas.rectangle(box, {pen.ink().card, {pen.ink().edge, pen.px(1)}}, pen.px(10));
  return box.inset(pen.px(14));
}

double heading(Pen& pen, Point at, double width, std::string_view text) {
  return paragraph(pen, at, width, text, TextSize::heading, pen.ink().ink, Weight::bold) +
         pen.px(6);
}

double paragraph(Pen& pen, Point at, double width, std::string_view text, TextSize size,
                 Colour colour, Weight weight, double bottom) {
  const Box box{at.x, at.y, width, bottom - at.y};
  return at.y + picture::paragraph(pen.canvas, box, text, pen.style(size, colour, weight));
}

double key_cap_width(const Pen& pen, std::string_view key) {
  if (key.empty()) return 0;
  return std::max(pen.px(24), label_width(pen, key, Weight::bold) + pen.px(12));
}

double key_cap(Pen& pen, Point at, std::string_view key) {
  if (key.empty()) return at.x;
  const double height = pen.px(22), width = key_cap_width(pen, key);
  const Box cap{at.x, at.y - height / 2, width, height};
  pen.canvas.rectangle(cap, {pen.ink().well, {pen.ink().edge_strong, pen.px(1)}}, pen.px(5));
  pen.canvas.text(cap.centre(), key,
                  middle(pen.style(TextSize::label, pen.ink().ink, Weight::bold), Align::centre));
  return cap.right();
}

double badge(Pen& pen, Point at, std::string_view text, Colour fill, Colour text_colour) {
  const double width = label_width(pen, text, Weight::bold) + pen.px(13);
  const Box box{at.x, at.y - pen.px(12), width, pen.px(24)};
  pen.canvas.rectangle(box, {fill, {text_colour, pen.px(1)}}, pen.px(12));
  pen.canvas.text(box.centre(), text,
                  middle(pen.style(TextSize::label, text_colour, Weight::bold), Align::centre));
  return box.right();
}

double button_height(const Pen& pen) { return pen.px(40); }

double button_width(const Pen& pen, std::string_view label, std::string_view key) {
  const double cap = key.empty() ? 0 : key_cap_width(pen, key) + pen.px(8);
  return label_width(pen, label, Weight::bold) + cap + pen.px(28);
}

void ButtonRow::add(std::string_view label, std::string_view key, int id, ButtonLook look) {
  const double width = button_width(pen, label, key);
  button(pen, {leftward ? x - width : x, y, width, height}, label, key, look, id);
  x += leftward ? -width - gap : width + gap;
}

void button(Pen& pen, const Box& box, std::string_view label, std::string_view key, ButtonLook look,
            int id) {
  const auto& ink = pen.ink();
  const bool hovered = look.enabled && box.contains(pen.pointer);
  Colour fill = look.primary ? ink.accent : ink.card,
         text = look.primary ? ink.on_accent : ink.accent;
  Colour line = ink.accent;
  if (hovered) fill = look.primary ? ink.accent_strong : ink.accent_soft;
  if (!look.enabled) fill = ink.well, text = ink.ink_soft, line = ink.edge;
  pen.canvas.rectangle(box, {fill, {line, pen.px(1.5)}}, pen.px(7));
  if (look.focused) focus_ring(pen, box, pen.px(7));
  const double cap = key.empty() ? 0 : key_cap_width(pen, key) + pen.px(8);
  const double room = box.width - cap - pen.px(16);
  const auto shown =
      picture::shorten(pen.canvas, label, room, pen.size(TextSize::label), Weight::bold);
  const double used = label_width(pen, shown, Weight::bold) + cap;
  const double left = box.x + (box.width - used) / 2, y = box.centre().y;
  if (cap > 0) key_cap(pen, {left, y}, key);
  pen.canvas.text({left + cap, y}, shown, middle(pen.style(TextSize::label, text, Weight::bold)));
  if (look.enabled) pen.hits.add(box, id);
}

namespace {

// All alike; where a word is too long for that, each as its own word is long.
std::vector<double> cell_widths(const Pen& pen, const Box& box,
                                const std::vector<std::string>& options) {
  const auto count = static_cast<double>(std::max<std::size_t>(1, options.size()));
  std::vector<double> words;
  double all = 0, longest = 0;
  for (const auto& option : options) {
    words.push_back(label_width(pen, option, Weight::bold));
    all += words.back();
    longest = std::max(longest, words.back());
  }
  if (longest <= box.width / count - pen.px(10))
    return std::vector<double>(words.size(), box.width / count);
  for (double& width : words) width += std::max(pen.px(6), (box.width - all) / count);
  return words;
}

}  // namespace

void switcher(Pen& pen, const Box& box, const std::vector<std::string>& options, std::size_t chosen,
              bool focused, int first_id) {
  const auto& ink = pen.ink();
  const auto widths = cell_widths(pen, box, options);
  pen.canvas.rectangle(box, {ink.well, {ink.edge_strong, pen.px(1)}}, pen.px(7));
  double x = box.x;
  for (std::size_t i = 0; i < options.size(); ++i) {
    const double width = std::min(widths[i], box.right() - x);
    const Box cell{x, box.y, width, box.height};
    x += width;
    const bool is_chosen = i == chosen;
    if (is_chosen)
      pen.canvas.rectangle(cell.inset(pen.px(3)), {ink.accent, {}}, pen.px(5));
    else if (cell.contains(pen.pointer))
      pen.canvas.rectangle(cell.inset(pen.px(3)), {ink.accent_soft, {}}, pen.px(5));
    const auto weight = is_chosen ? Weight::bold : Weight::regular;
    const auto shown = picture::shorten(pen.canvas, options[i], width - pen.px(4),
                                        pen.size(TextSize::label), weight);
    pen.canvas.text(cell.centre(), shown,
                    middle(pen.style(TextSize::label, is_chosen ? ink.on_accent : ink.ink, weight),
                           Align::centre));
    pen.hits.add(cell, first_id + static_cast<int>(i));
  }
  if (focused) focus_ring(pen, box, pen.px(7));
}

void stepper(Pen& pen, const Box& box, std::string_view text, bool focused, int back_id,
             int on_id) {
  const double arrow = pen.px(38);
  pen.canvas.rectangle(box, {pen.ink().well, {pen.ink().edge_strong, pen.px(1)}}, pen.px(7));
  const auto end = [&](const Box& cell, std::string_view sign, int id) {
    if (cell.contains(pen.pointer))
      pen.canvas.rectangle(cell.inset(pen.px(3)), {pen.ink().accent_soft, {}}, pen.px(5));
    pen.canvas.text(
        cell.centre(), sign,
        middle(pen.style(TextSize::label, pen.ink().accent, Weight::bold), Align::centre));
    pen.hits.add(cell, id);
  };
  end({box.x, box.y, arrow, box.height}, "←", back_id);
  end({box.right() - arrow, box.y, arrow, box.height}, "→", on_id);
  const auto shown =
      picture::shorten(pen.canvas, text, box.width - 2 * arrow, pen.size(TextSize::label));
  pen.canvas.text(box.centre(), shown,
                  middle(pen.style(TextSize::label, pen.ink().ink), Align::centre));
  if (focused) focus_ring(pen, box, pen.px(7));
}

void text_field(Pen& pen, const Box& box, std::string_view text, std::string_view hint,
                bool focused, int id) {
  const auto& ink = pen.ink();
  pen.canvas.rectangle(box, {ink.card, {ink.edge_strong, pen.px(1)}}, pen.px(7));
  if (focused) focus_ring(pen, box, pen.px(7));
  const Box inside = box.inset(pen.px(8));
  {
    const picture::Clip clip(pen.canvas, {inside.x, box.y, inside.width, box.height});
    const double over = std::max(0.0, label_width(pen, text) + pen.px(3) - inside.width);
    const double x = inside.x - over, y = box.centre().y;
    const bool empty = text.empty();
    pen.canvas.text({empty && focused ? x + pen.px(5) : x, y}, empty ? hint : text,
                    middle(pen.style(TextSize::label, empty ? ink.ink_soft : ink.ink)));
    if (focused) {
      const double caret = x + label_width(pen, text) + pen.px(1);
      pen.canvas.line({caret, y - pen.px(10)}, {caret, y + pen.px(10)}, {ink.accent, pen.px(2)});
    }
  }
  pen.hits.add(box, id);
}

namespace {

// What is cut by the edge of a view pales towards it: it goes on there.
void pale(Pen& pen, const Box& view, Colour ground, bool at_bottom) {
  constexpr std::uint8_t depths[] = {235, 195, 150, 95, 45};
  const double step = pen.px(3);
  for (std::size_t i = 0; i < std::size(depths); ++i) {
    const double in = step * static_cast<double>(i);
    const double y = at_bottom ? view.bottom() - in - step : view.y + in;
    pen.canvas.rectangle({view.x, y, view.width, step}, {ground.with_alpha(depths[i]), {}});
  }
}

}  // namespace

void scroll_bar(Pen& pen, const Box& view, const Scroll& scroll, std::optional<Colour> ground) {
  if (scroll.longest() <= 0) return;
  const Colour paper = ground.value_or(pen.ink().card);
  if (scroll.offset > 0.5) pale(pen, view, paper, false);
  if (scroll.offset < scroll.longest() - 0.5) pale(pen, view, paper, true);
  const double share = scroll.view / scroll.content;
  const double height = std::max(pen.px(30), view.height * share);
  const double y = view.y + (view.height - height) * scroll.offset / scroll.longest();
  pen.canvas.rectangle({view.right() - pen.px(6), y, pen.px(6), height},
                       {pen.ink().edge_strong, {}}, pen.px(3));
}

void progress_bar(Pen& pen, const Box& box, double share) {
  const auto& ink = pen.ink();
  pen.canvas.rectangle(box, {ink.well, {ink.edge_strong, pen.px(1)}}, box.height / 2);
  const Box done{box.x, box.y, std::max(box.height, box.width * std::min(1.0, share)), box.height};
  if (share > 0) pen.canvas.rectangle(done, {ink.accent, {}}, box.height / 2);
}

void focus_ring(Pen& pen, const Box& box, double radius) {
  pen.canvas.rectangle(box.inset(-pen.px(3)), {picture::nothing, {pen.ink().accent, pen.px(2.5)}},
                       radius + pen.px(3));
}

}  // namespace beforehand::stage
