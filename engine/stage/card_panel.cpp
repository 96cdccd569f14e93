// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include <algorithm>
#include <array>
#include <numeric>

#include "picture/text.hpp"
#include "scoring/hindsight.hpp"
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
};

CardLook look_of(const Pen& pen, const CardNow& now, bool hovered) {
  const auto& ink = pen.ink();
  if (now.held) return {ink.cover, ink.ink, ink.ink, 2.5};
  if (now.going_on) return {ink.work, ink.ink, ink.ink, 2};
  if (now.lined_up) return {ink.accent_soft, ink.accent, ink.accent_strong, 2};
  if (!now.possible()) return {ink.well, ink.edge, ink.ink_soft, 1};
  return {hovered ? ink.accent_soft : ink.card, ink.accent, ink.ink, 1.5};
}

// What stands at a card's right end: what is done with it now, or a clock hand's worth of warning,
// how much of the window is left, where the level shows it.
struct CardEnd {
  std::string text;
  bool window = false, late = false;
};

CardEnd end_of(const Pen& pen, const CardNow& now, const Sitting& sitting, ActionIx action) {
  if (now.offered) return {pen.t("card.offered")};
  if (now.held) return {pen.t("card.held")};
  if (now.going_on) return {pen.t("card.doing")};
  if (now.lined_up) return {pen.t("card.lined-up")};
  if (sitting.level() != Level::guided) return {};
  const Ms at = sitting.run().now();
  for (const auto& prep : sitting.ahead()) {
    if (prep.action != action || !prep.open(at)) continue;
    const Ms left = prep.left(at);
    if (left < -scoring::allowance) return {pen.t("card.late"), true, true};
    return {pen.t("card.left", {std::to_string(std::max(Ms{0}, left).count() / 1000)}), true};
  }
  return {};
}

double width_of(const Pen& pen, const CardEnd& end) {
  if (end.text.empty()) return pen.px(8);
  return pen.canvas.measure(end.text, pen.size(TextSize::label), Weight::bold).width +
         pen.px(end.window ? 20 : 12);
}

void draw_end(Pen& pen, const Box& box, const CardEnd& end, const CardLook& look) {
  const auto& ink = pen.ink();
  if (end.window) {
    badge(pen, {box.right() - width_of(pen, end) + pen.px(4), box.centre().y}, end.text,
          end.late ? ink.danger_soft : ink.good_soft, end.late ? ink.danger : ink.good);
    return;
  }
  auto style = pen.style(TextSize::label, look.text, Weight::bold);
  style.align = picture::Align::right;
  style.level = picture::Level::middle;
  pen.canvas.text({box.right() - pen.px(8), box.centre().y}, end.text, style);
}

/// A title in as many lines as its words need, and how many the room has place for.
struct Fitted {
  std::size_t lines, place;
  bool words_whole;
  bool whole() const { return words_whole && lines <= place; }
};

Fitted fitted(const Pen& pen, const Box& room, const std::string& title) {
  const double size = pen.size(TextSize::label);
  const auto lines = picture::wrap(pen.canvas, title, room.width, size, Weight::regular);
  std::string words;
  for (const auto& line : lines) words += (words.empty() ? "" : " ") + line;
  const double line = pen.canvas.measure("X", size, Weight::regular).height;
  return {lines.size(), static_cast<std::size_t>(room.height / (0.95 * line)), words == title};
}

// In as many lines as the row has room for, if its words stay whole. Gives whether all of it is
// there.
bool write_title(Pen& pen, const Box& room, const std::string& title, const CardLook& look) {
  auto style = pen.style(TextSize::label, look.text);
  const auto fit = fitted(pen, room, title);
  if (fit.lines > 1 && fit.place > 1 && fit.words_whole) {
    const double line = pen.canvas.measure("X", style.size, style.weight).height;
    const double half = static_cast<double>(std::min(fit.lines, fit.place)) * line / 2;
    paragraph(pen, {room.x, room.centre().y - half}, room.width, title, TextSize::label, look.text,
              Weight::regular, room.centre().y + half + pen.px(1));
    return fit.whole();
  }
  style.level = picture::Level::middle;
  const auto written = picture::shorten(pen.canvas, title, room.width, style.size, style.weight);
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
  const double x = key_cap(pen, {box.x + pen.px(4), box.centre().y}, keys) + pen.px(8);
  if (begun) focus_ring(pen, box.inset(pen.px(3)), pen.px(4));
  const Box whole{x, box.y, box.right() - x - pen.px(8), box.height};
  auto end = end_of(pen, now, sitting, card.action);
  Box room{x, box.y, box.right() - x - width_of(pen, end), box.height};
  // What is being done stands in the hands too: its title comes first.
  if (!end.window && !fitted(pen, room, card.label).whole() &&
      fitted(pen, whole, card.label).whole())
    end = {}, room = whole;
  if (!end.text.empty()) draw_end(pen, box, end, look);
  pen.hits.add(box.common(view), press_card + static_cast<int>(card.action.at()));
  return write_title(pen, room, card.label, look) && now.possible();
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

// A title too long for one line has as many as it needs beside what may stand at the card's end.
RowHeights rows_of(const Pen& pen, const std::vector<std::vector<Row>>& columns, double width,
                   double end) {
  const double one = pen.px(29), two = pen.px(43), further = pen.px(18);
  const auto wanted = [&](const Row& row) {
    if (row.card == nullptr) return one;
    const double beside = key_cap_width(pen, row.card->keys) + pen.px(12) + end;
    const auto lines = picture::wrap(pen.canvas, row.card->label, width - beside,
                                     pen.size(TextSize::label), Weight::regular);
    return lines.size() < 2 ? one : two + further * static_cast<double>(lines.size() - 2);
  };
  RowHeights result;
  for (const auto& column : columns) {
    auto& rows = result.rows.emplace_back();
    for (const auto& row : column) rows.push_back(wanted(row));
    result.height = std::max(result.height, std::accumulate(rows.begin(), rows.end(), 0.0));
  }
  return result;
}

// What stands at a card's end has room of its own, as far down as there is room without scrolling
// for that alone. The room that is left is shared out.
RowHeights placed(const Pen& pen, const std::vector<std::vector<Row>>& columns, double width,
                  double room) {
  const auto wide = rows_of(pen, columns, width, pen.px(76));
  auto result = rows_of(pen, columns, width, pen.px(8));
  if (result.height > room) {
    result = wide;
  } else {
    for (std::size_t c = 0; c < columns.size(); ++c) {
      auto& rows = result.rows[c];
      double height = std::accumulate(rows.begin(), rows.end(), 0.0);
      for (std::size_t r = 0; r < rows.size(); ++r) {
        const double more = wide.rows[c][r] - rows[r];
        if (height + more > room) continue;
        rows[r] += more;
        height += more;
      }
      result.height = std::max(result.height, height);
    }
  }
  std::size_t most = 1;
  for (const auto& column : columns) most = std::max(most, column.size());
  const double more =
      std::clamp((room - result.height) / static_cast<double>(most), 0.0, pen.px(14));
  for (auto& rows : result.rows)
    for (double& height : rows) height += more;
  result.height += more * static_cast<double>(most);
  return result;
}

}  // namespace

void draw_cards(Pen& pen, const Box& box, const Sitting& sitting, const Typing& typing,
                CardsShown& shown) {
  const Box in = panel(pen, box).inset(-pen.px(6));
  const auto columns = arranged(sitting.cards(), box.width < pen.px(500));
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
      const bool hovered = shown.pointed && place.contains(pen.pointer) && in.contains(pen.pointer);
      if (!says_all && (hovered || (content.card == marked && explained.card == nullptr)))
        explained = {content.card, place};
    });
  }
  scroll_bar(pen, in, shown.scroll);
  if (explained.card != nullptr) draw_hint(pen, box, explained.box, sitting, *explained.card);
}

}  // namespace beforehand::stage
