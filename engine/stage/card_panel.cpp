// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include <algorithm>
#include <array>

#include "picture/text.hpp"
#include "stage/drill_panels.hpp"
#include "stage/widgets.hpp"

namespace beforehand::stage {
namespace {

using drill::Level;

constexpr std::array<const char*, corner_count> corner_keys{
    "corner.make-ready", "corner.hand-over", "corner.at-patient", "corner.clear-away"};

// A line of the panel: a corner's name, or a card.
struct Row {
  const ActionCard* card = nullptr;
  Corner corner = Corner::make_ready;
};

// Two columns, broken where they come out most alike; a corner's name never stands last.
std::array<std::vector<Row>, 2> columns_of(const std::vector<ActionCard>& cards) {
  std::vector<Row> rows;
  for (const auto& card : cards) {
    if (rows.empty() || rows.back().corner != card.corner) rows.push_back({nullptr, card.corner});
    rows.push_back({&card, card.corner});
  }
  std::size_t cut = rows.size(), best = rows.size();
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const std::size_t taller = std::max(i, rows.size() - i);
    if (rows[i].card == nullptr && taller < best) best = taller, cut = i;
  }
  if (best > (rows.size() * 2) / 3 + 1)
    cut = rows.size() - rows.size() / 2;  // one corner holds nearly all
  const auto middle = rows.begin() + static_cast<std::ptrdiff_t>(cut);
  return {std::vector<Row>(rows.begin(), middle), std::vector<Row>(middle, rows.end())};
}

struct CardLook {
  Colour fill, line, text;
  double line_width = 1;
  Weight weight = Weight::regular;
};

CardLook look_of(const Pen& pen, const CardNow& now, bool hovered) {
  const auto& ink = pen.ink();
  if (now.held) return {ink.cover, ink.ink, ink.ink, 2.5, Weight::bold};
  if (now.going_on) return {ink.work, ink.ink, ink.ink, 2, Weight::bold};
  if (now.lined_up) return {ink.accent_soft, ink.accent, ink.accent_strong, 2, Weight::bold};
  if (!now.possible()) return {ink.well, ink.edge, ink.ink_soft, 1, Weight::regular};
  return {hovered ? ink.accent_soft : ink.card, ink.accent, ink.ink, 1.5, Weight::regular};
}

// A clock hand's worth of warning: how much of the window is left, where the level shows it.
void draw_window(Pen& pen, const Box& box, const Sitting& sitting, ActionIx action) {
  if (sitting.level() != Level::guided) return;
  const Ms now = sitting.run().now();
  for (const auto& prep : sitting.ahead()) {
    if (prep.action != action || !prep.open(now)) continue;
    const Ms left = prep.left(now);
    const bool late = left < Ms{0};
    const auto text =
        late ? pen.t("card.late") : pen.t("card.left", {std::to_string(left.count() / 1000)});
    const double width =
        pen.canvas.measure(text, pen.size(TextSize::label), Weight::bold).width + pen.px(16);
    badge(pen, {box.right() - width - pen.px(4), box.centre().y}, text,
          late ? pen.ink().danger_soft : pen.ink().good_soft,
          late ? pen.ink().danger : pen.ink().good);
    return;
  }
}

double window_width(const Pen& pen, const Sitting& sitting, ActionIx action) {
  if (sitting.level() != Level::guided) return 0;
  for (const auto& prep : sitting.ahead())
    if (prep.action == action && prep.open(sitting.run().now())) return pen.px(66);
  return 0;
}

std::string state_word(const Pen& pen, const CardNow& now) {
  if (now.offered) return pen.t("card.offered");
  if (now.held) return pen.t("card.held");
  if (now.going_on) return pen.t("card.doing");
  if (now.lined_up) return pen.t("card.lined-up");
  return {};
}

void draw_card(Pen& pen, const Box& box, const Sitting& sitting, const ActionCard& card,
               const Typing& typing) {
  const auto now = card_now(sitting.procedure(), sitting.world(), sitting.trainee(), card.action);
  const auto look = look_of(pen, now, box.contains(pen.pointer));
  pen.canvas.rectangle(
      box,
      {look.fill,
       {look.line, pen.px(look.line_width), now.possible() ? 0.0 : pen.px(10), pen.px(6)}},
      pen.px(6));
  std::string keys = card.keys;
  std::transform(keys.begin(), keys.end(), keys.begin(),
                 [](char c) { return c >= 'a' && c <= 'z' ? static_cast<char>(c - 32) : c; });
  const bool begun = !typing.begun().empty() && card.keys.rfind(typing.begun(), 0) == 0;
  double x = key_cap(pen, {box.x + pen.px(4), box.centre().y}, keys) + pen.px(8);
  if (begun) focus_ring(pen, box.inset(pen.px(3)), pen.px(4));
  const auto word = state_word(pen, now);
  double right = box.right() - pen.px(8);
  if (!word.empty()) {
    auto style = pen.style(TextSize::label, look.text, Weight::bold);
    style.align = picture::Align::right;
    style.level = picture::Level::middle;
    pen.canvas.text({right, box.centre().y}, word, style);
    right -= pen.canvas.measure(word, style.size, Weight::bold).width + pen.px(8);
  } else {
    right -= window_width(pen, sitting, card.action);
    draw_window(pen, box, sitting, card.action);
  }
  auto style = pen.style(TextSize::label, look.text, look.weight);
  style.level = picture::Level::middle;
  pen.canvas.text({x, box.centre().y},
                  picture::shorten(pen.canvas, card.label, right - x, style.size, look.weight),
                  style);
  pen.hits.add(box, press_card + static_cast<int>(card.action.at()));
}

// The whole title and, for what cannot be done, the reason, beside the pointer.
void draw_hint(Pen& pen, const Box& panel_box, const Sitting& sitting, const ActionCard& card) {
  const auto now = card_now(sitting.procedure(), sitting.world(), sitting.trainee(), card.action);
  std::string text = card.title;
  if (!now.possible())
    text += ": " + sentence_of(sitting.procedure(), now.reason, card.action, pen.t);
  const double width = panel_box.width - pen.px(24);
  const double height =
      picture::paragraph_height(pen.canvas, text, width - pen.px(20), pen.size(TextSize::label)) +
      pen.px(14);
  double y = pen.pointer.y + pen.px(20);
  if (y + height > panel_box.bottom()) y = pen.pointer.y - height - pen.px(10);
  const Box box{panel_box.x + pen.px(12), y, width, height};
  pen.canvas.rectangle(box, {pen.ink().ink, {}}, pen.px(6));
  paragraph(pen, {box.x + pen.px(10), box.y + pen.px(7)}, width - pen.px(20), text, TextSize::label,
            pen.ink().card);
}

}  // namespace

void draw_cards(Pen& pen, const Box& box, const Sitting& sitting, const Typing& typing) {
  const Box in = panel(pen, box).inset(-pen.px(4));
  const auto columns = columns_of(sitting.cards());
  const auto rows = std::max(columns[0].size(), columns[1].size());
  const double gap = pen.px(4), between = pen.px(10);
  const double row =
      std::min(pen.px(42), (in.height + gap) / static_cast<double>(std::max<std::size_t>(rows, 1)));
  const double width = (in.width - between) / 2;
  const ActionCard* hovered = nullptr;
  for (std::size_t c = 0; c < columns.size(); ++c)
    for (std::size_t r = 0; r < columns[c].size(); ++r) {
      const auto& content = columns[c][r];
      const Box place{in.x + (width + between) * static_cast<double>(c),
                      in.y + row * static_cast<double>(r), width, row - gap};
      if (content.card == nullptr) {
        auto style = pen.style(TextSize::label, pen.ink().accent_strong, Weight::bold);
        style.level = picture::Level::middle;
        pen.canvas.text(
            {place.x, place.centre().y},
            picture::shorten(pen.canvas,
                             pen.t(corner_keys[static_cast<std::size_t>(content.corner)]), width,
                             style.size, Weight::bold),
            style);
        continue;
      }
      draw_card(pen, place, sitting, *content.card, typing);
      if (place.contains(pen.pointer)) hovered = content.card;
    }
  if (hovered != nullptr) draw_hint(pen, box, sitting, *hovered);
}

}  // namespace beforehand::stage
