// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include <algorithm>
#include <array>
#include <numeric>

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

// In as many lines as the row has room for, if its words stay whole. Gives whether all of it is
// there.
bool write_title(Pen& pen, const Box& room, const std::string& title, const CardLook& look) {
  auto style = pen.style(TextSize::label, look.text, look.weight);
  const auto lines = picture::wrap(pen.canvas, title, room.width, style.size, look.weight);
  std::string words;
  for (const auto& line : lines) words += (words.empty() ? "" : " ") + line;
  const double line = pen.canvas.measure("X", style.size, look.weight).height;
  const auto fit = static_cast<std::size_t>(room.height / (0.95 * line));
  if (lines.size() > 1 && fit > 1 && words == title) {
    const double half = static_cast<double>(std::min(lines.size(), fit)) * line / 2;
    paragraph(pen, {room.x, room.centre().y - half}, room.width, title, TextSize::label, look.text,
              look.weight, room.centre().y + half + pen.px(1));
    return lines.size() <= fit;
  }
  style.level = picture::Level::middle;
  const auto written = picture::shorten(pen.canvas, title, room.width, style.size, look.weight);
  pen.canvas.text({room.x, room.centre().y}, written, style);
  return written == title;
}

// Gives whether the card says all there is to say: its whole title, and that it can be done.
bool draw_card(Pen& pen, const Box& box, const Box& view, const Sitting& sitting,
               const ActionCard& card, const Typing& typing) {
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
  pen.hits.add(box.common(view), press_card + static_cast<int>(card.action.at()));
  return write_title(pen, {x, box.y, right - x, box.height}, card.label, look) && now.possible();
}

// The whole title and, for what cannot be done, the reason, beside the card.
void draw_hint(Pen& pen, const Box& panel_box, const Box& card_box, const Sitting& sitting,
               const ActionCard& card) {
  const auto now = card_now(sitting.procedure(), sitting.world(), sitting.trainee(), card.action);
  std::string text = card.title;
  if (!now.possible())
    text += ": " + sentence_of(sitting.procedure(), now.reason, card.action, pen.t);
  const double width = panel_box.width - pen.px(24);
  const double height =
      picture::paragraph_height(pen.canvas, text, width - pen.px(20), pen.size(TextSize::label)) +
      pen.px(14);
  double y = card_box.bottom() + pen.px(4);
  if (y + height > panel_box.bottom()) y = card_box.y - height - pen.px(4);
  const Box box{panel_box.x + pen.px(12), y, width, height};
  pen.canvas.rectangle(box, {pen.ink().ink, {}}, pen.px(6));
  paragraph(pen, {box.x + pen.px(10), box.y + pen.px(7)}, width - pen.px(20), text, TextSize::label,
            pen.ink().card);
}

// Where each row stands, and which card asks to be explained.
struct Placed {
  const ActionCard* card = nullptr;
  Box box;
};

void draw_corner_name(Pen& pen, const Box& place, Corner corner) {
  auto style = pen.style(TextSize::label, pen.ink().accent_strong, Weight::bold);
  style.level = picture::Level::middle;
  const auto name = pen.t(corner_keys[static_cast<std::size_t>(corner)]);
  pen.canvas.text({place.x, place.centre().y},
                  picture::shorten(pen.canvas, name, place.width, style.size, Weight::bold), style);
}

std::vector<std::vector<Row>> arranged(const std::vector<ActionCard>& cards, bool one_column) {
  auto two = columns_of(cards);
  if (!one_column) return {std::move(two[0]), std::move(two[1])};
  two[0].insert(two[0].end(), two[1].begin(), two[1].end());
  return {std::move(two[0])};
}

/// How high each row is, with the gap below it.
struct RowHeights {
  std::vector<std::vector<double>> rows;
  double height = 0;  ///< of the higher column
};

// A title too long for one line has more, where the rows then fit or are scrolled anyway; the room
// that is left is shared out.
RowHeights placed(const Pen& pen, const std::vector<std::vector<Row>>& columns, double width,
                  double room) {
  const double line = pen.px(28), further = pen.px(20);
  const auto wanted = [&](const Row& row) {
    if (row.card == nullptr) return line;
    const double beside = key_cap_width(pen, row.card->keys) + pen.px(20);
    const auto lines = picture::wrap(pen.canvas, row.card->label, width - beside,
                                     pen.size(TextSize::label), Weight::regular);
    return line + further * static_cast<double>(std::min<std::size_t>(lines.size(), 3) - 1);
  };
  RowHeights result;
  std::size_t most = 1;
  for (const auto& column : columns) {
    auto& rows = result.rows.emplace_back();
    for (const auto& row : column) rows.push_back(wanted(row));
    result.height = std::max(result.height, std::accumulate(rows.begin(), rows.end(), 0.0));
    most = std::max(most, column.size());
  }
  const double share = room / static_cast<double>(most);
  const double more =
      std::clamp((room - result.height) / static_cast<double>(most), 0.0, pen.px(14));
  const bool whole = result.height <= room || share < line;
  result.height = 0;
  for (auto& rows : result.rows) {
    for (double& height : rows) height = whole ? height + more : std::min(share, pen.px(42));
    result.height = std::max(result.height, std::accumulate(rows.begin(), rows.end(), 0.0));
  }
  return result;
}

}  // namespace

void draw_cards(Pen& pen, const Box& box, const Sitting& sitting, const Typing& typing,
                CardsShown& shown) {
  const Box in = panel(pen, box).inset(-pen.px(6));
  const auto columns = arranged(sitting.cards(), box.width < pen.px(420));
  const double gap = pen.px(4), between = pen.px(10);
  if (shown.scroll.view != in.height) shown.followed = false;  // the window has another size
  const auto count = static_cast<double>(columns.size());
  double width = (in.width - between * (count - 1)) / count;
  auto at = placed(pen, columns, width, in.height + gap);
  shown.scroll.view = in.height;
  if (at.height - gap > in.height + pen.px(1)) {  // the bar takes its share
    width -= pen.px(10) / count;
    at = placed(pen, columns, width, in.height + gap);
  }
  shown.scroll.content = at.height - gap - pen.px(1);
  shown.scroll.move(0);
  const ActionCard* marked = shown.marked ? &sitting.cards()[*shown.marked] : nullptr;
  Placed explained;
  const auto each = [&](auto&& act) {
    for (std::size_t c = 0; c < columns.size(); ++c) {
      double y = in.y - shown.scroll.offset;
      for (std::size_t r = 0; r < columns[c].size(); y += at.rows[c][r++])
        act(columns[c][r],
            Box{in.x + (width + between) * static_cast<double>(c), y, width, at.rows[c][r] - gap});
    }
  };
  if (marked != nullptr && !shown.followed) {
    each([&](const Row& content, const Box& place) {
      if (content.card != marked) return;
      const double top = place.y - in.y + shown.scroll.offset;
      shown.scroll.offset =
          std::clamp(shown.scroll.offset, std::min(top, top + place.height + gap - in.height), top);
      shown.scroll.move(0);
    });
    shown.followed = true;
  }
  {
    const picture::Clip clip(pen.canvas, in.inset(-pen.px(3)));
    each([&](const Row& content, const Box& place) {
      if (!place.overlaps(in)) return;
      if (content.card == nullptr) return draw_corner_name(pen, place, content.corner);
      const bool says_all = draw_card(pen, place, in, sitting, *content.card, typing);
      if (content.card == marked) focus_ring(pen, place, pen.px(6));
      const bool hovered = place.contains(pen.pointer) && in.contains(pen.pointer);
      if (!says_all && (hovered || (content.card == marked && explained.card == nullptr)))
        explained = {content.card, place};
    });
  }
  scroll_bar(pen, in, shown.scroll);
  if (explained.card != nullptr) draw_hint(pen, box, explained.box, sitting, *explained.card);
}

}  // namespace beforehand::stage
