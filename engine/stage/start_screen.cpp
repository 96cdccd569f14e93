// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/start_screen.hpp"

#include <algorithm>
#include <cmath>

#include "picture/text.hpp"
#include "stage/flow.hpp"
#include "stage/key_map.hpp"
#include "stage/list_view.hpp"
#include "stage/problem_list.hpp"
#include "stage/text_input.hpp"
#include "stage/widgets.hpp"

namespace beforehand::stage {
namespace {

using drill::Level;

enum Id {
  id_begin,
  id_name,
  id_seed,
  id_part_back,
  id_part_on,
  id_settings,
  id_learn,
  id_records,
  id_level = 10,
  id_pace = 20,
  id_item = 100
};

constexpr std::size_t longest_name = 60;  // letters
constexpr std::size_t longest_seed = 18;  // digits that always fit 64 bits
constexpr Pace offered_paces[] = {{50}, {75}, {100}, {125}, {150}, {200}, {250}, {300}};

std::size_t position_of(Pace pace) {
  std::size_t i = 0;
  while (i + 1 < std::size(offered_paces) && offered_paces[i].percent < pace.percent) ++i;
  return i;
}

}  // namespace

StartScreen::StartScreen(const std::vector<ShelfItem>& shelf, std::string folder, Choice first)
    : shelf_(shelf), folder_(std::move(folder)), choice_(std::move(first)) {
  if (choice_.item >= shelf_.size()) choice_.item = 0;
}

const procedure::Procedure* StartScreen::chosen() const {
  if (choice_.item >= shelf_.size() || !shelf_[choice_.item].procedure) return nullptr;
  return &*shelf_[choice_.item].procedure;
}

void StartScreen::shelf_changed(std::size_t item) {
  choice_.item = item;
  const auto* procedure = chosen();
  if (procedure == nullptr || choice_.part > procedure->phases.size()) choice_.part = 0;
}

StartScreen::Outcome StartScreen::handle(const Input& input) {
  switch (input.kind) {
    case Input::Kind::key:
      return on_key(input);
    case Input::Kind::text:
      type(input.symbol);
      break;
    case Input::Kind::press:
      return on_press({input.x, input.y});
    case Input::Kind::wheel:
      if (page_.longest() > 0)
        page_.move(-input.wheel * 60);
      else
        scroll_.move(-input.wheel * 60);
      break;
    default:
      break;
  }
  return Outcome::stay;
}

StartScreen::Outcome StartScreen::on_key(const Input& input) {
  switch (input.key) {
    case Key::enter:
      return row_ == Row::name && choice_.known ? Outcome::who : begin();
    case Key::escape:
      return Outcome::close;
    case Key::settings:
      return Outcome::settings;
    case Key::help:
      return Outcome::learn;
    case Key::f3:
      return choice_.known ? Outcome::records : Outcome::stay;
    case Key::up:
      move(-1);
      break;
    case Key::down:
      move(1);
      break;
    case Key::tab:
      row_ = row_ == Row::begin ? Row::shelf : static_cast<Row>(static_cast<int>(row_) + 1);
      break;
    case Key::back_tab:
      row_ = row_ == Row::shelf ? Row::begin : static_cast<Row>(static_cast<int>(row_) - 1);
      break;
    case Key::home:
    case Key::end:
      if (row_ == Row::shelf && !shelf_.empty())
        choose_item(input.key == Key::home ? 0 : shelf_.size() - 1);
      break;
    case Key::left:
      change(-1);
      break;
    case Key::right:
      change(1);
      break;
    case Key::backspace:
      if (row_ == Row::name && !choice_.known) erase_last(choice_.name);
      if (row_ == Row::seed) erase_last(choice_.seed);
      break;
    default:
      break;
  }
  return Outcome::stay;
}

void StartScreen::move(int by) {
  const bool within =
      row_ == Row::shelf && (by < 0 ? choice_.item > 0 : choice_.item + 1 < shelf_.size());
  if (within)
    choose_item(by < 0 ? choice_.item - 1 : choice_.item + 1);
  else
    row_ =
        static_cast<Row>(std::clamp(static_cast<int>(row_) + by, 0, static_cast<int>(Row::begin)));
}

void StartScreen::change(int by) {
  const auto step = [by](std::size_t value, std::size_t count) {
    if (by < 0) return value == 0 ? value : value - 1;
    return value + 1 < count ? value + 1 : value;
  };
  if (row_ == Row::level)
    choice_.level = static_cast<Level>(step(static_cast<std::size_t>(choice_.level), 3));
  if (row_ == Row::pace && choice_.level != Level::assessed)
    choice_.pace = offered_paces[step(position_of(choice_.pace), std::size(offered_paces))];
  if (row_ == Row::part && chosen() != nullptr)
    choice_.part = step(choice_.part, chosen()->phases.size() + 1);
}

void StartScreen::type(char32_t c) {
  if (row_ == Row::name && !choice_.known && letters_in(choice_.name) < longest_name)
    append(choice_.name, c);
  if (row_ == Row::seed && c >= U'0' && c <= U'9' && choice_.seed.size() < longest_seed)
    append(choice_.seed, c);
}

void StartScreen::choose_item(std::size_t item) {
  if (item != choice_.item) {
    choice_.part = 0;
    choice_.card.clear();
  }
  choice_.item = item;
}

StartScreen::Outcome StartScreen::begin() {
  return chosen() != nullptr ? Outcome::begin : Outcome::stay;
}

StartScreen::Outcome StartScreen::on_press(Point at) {
  const int id = hits_.at(at).value_or(-1);
  if (id == id_begin) return begin();
  if (id == id_name && choice_.known) return Outcome::who;
  if (id == id_settings) return Outcome::settings;
  if (id == id_learn) return Outcome::learn;
  if (id == id_records) return Outcome::records;
  if (id == id_name) row_ = Row::name;
  if (id == id_seed) row_ = Row::seed;
  if (id == id_part_back || id == id_part_on) {
    row_ = Row::part;
    change(id == id_part_on ? 1 : -1);
  }
  if (id >= id_item) {
    row_ = Row::shelf;
    choose_item(static_cast<std::size_t>(id - id_item));
  } else if (id >= id_pace) {
    row_ = Row::pace;
    if (choice_.level != Level::assessed) choice_.pace = offered_paces[id - id_pace];
  } else if (id >= id_level) {
    row_ = Row::level;
    choice_.level = static_cast<Level>(id - id_level);
  }
  return Outcome::stay;
}

void StartScreen::draw(Pen& pen, const Box& box) {
  hits_.clear();
  Pen own{pen.canvas, pen.theme, pen.t, hits_, pen.pointer};
  const double gap = own.px(16);
  const double top = draw_title(own, {box.x + gap, box.y, box.width - 2 * gap, box.height}) - box.y;
  if (box.width < own.px(1000) || box.height < own.px(600))
    return draw_stacked(own,
                        {box.x + gap, box.y + top, box.width - 2 * gap, box.height - top - gap});
  const double height = box.height - top - gap, left = (box.width - 3 * gap) * 0.54;
  const Box shelf{box.x + gap, box.y + top, left, height};
  if (shelf_.empty())
    draw_empty(own, shelf);
  else
    draw_shelf(own, shelf);
  const Box how{shelf.right() + gap, shelf.y, box.width - 3 * gap - left, height};
  const Box in = how.inset(own.px(14));
  draw_how(own, how, button_height(own) + own.px(8));
  draw_go(own, {in.x, in.bottom() - button_height(own), in.width, button_height(own)});
}

void StartScreen::draw_go(Pen& pen, const Box& box) {
  if (chosen() == nullptr && !shelf_.empty()) return;
  button(pen, box, pen.t("start.begin"), pen.t("key.enter"),
         {true, row_ == Row::begin, chosen() != nullptr}, id_begin);
}

// Gives the y below it. Whoever is new is told where to begin.
double StartScreen::draw_title(Pen& pen, const Box& box) {
  const auto& t = pen.t;
  const double height = button_height(pen), y = box.y + pen.px(14);
  const auto& title = t("program.name");
  const auto style = pen.style(TextSize::title, pen.ink().accent, Weight::bold);
  const double title_ends =
      box.x + pen.canvas.measure(title, style.size, style.weight).width + pen.px(12);
  ButtonRow row{pen, box.right(), y, height, pen.px(12), true};
  ButtonRow below{pen, box.right(), y + height + pen.px(6), height, pen.px(12), true};
  // What the title leaves no room for goes a row lower.
  const auto row_for = [&](const std::string& text, const std::string& cap) -> ButtonRow& {
    return row.x - button_width(pen, text, cap) > title_ends ? row : below;
  };
  row.add(t("start.settings"), cap_of(Key::settings, t), id_settings);
  const auto& learn = t("start.learn");
  if (!shelf_.empty()) {
    const auto cap = cap_of(Key::help, t);
    row_for(learn, cap).add(learn, cap, id_learn, {offers_lesson_, false, true});
  }
  const auto& records = t("start.records");
  if (choice_.known) row_for(records, "F3").add(records, "F3", id_records);
  pen.canvas.text({box.x, box.y + pen.px(44)}, title, style);
  // Where every line counts, the button alone has to say it.
  const bool offers = offers_lesson_ && !shelf_.empty() && box.height >= pen.px(420);
  Flow flow(pen, {box.x, below.y}, below.x - box.x);
  if (!problem_.empty()) flow.text(t("start.problem", {problem_}), pen.ink().danger, Weight::bold);
  if (offers)
    flow.text(t("start.learn.offer"), pen.ink().accent_strong, Weight::bold);
  else if (problem_.empty() && !(offers_lesson_ && !shelf_.empty()))
    flow.text(t("program.purpose"), pen.ink().ink_soft);
  return std::max(flow.y, below.x < box.right() ? below.y + height : 0) + pen.px(8);
}

// A small window or large letters: one above the other, and the page follows the keyboard. The way
// on stays in sight below.
void StartScreen::draw_stacked(Pen& pen, const Box& whole) {
  const double gap = pen.px(12), go = button_height(pen);
  draw_go(pen, {whole.x, whole.bottom() - go, whole.width, go});
  const Box box{whole.x, whole.y, whole.width, whole.height - go - gap};
  const double shelf = std::min(box.height, pen.px(330)), how = pen.px(450);
  page_.view = box.height;
  page_.content = shelf + gap + how;
  const double part = how / 6;
  const double top = row_ == Row::shelf ? 0 : shelf + gap + part * (static_cast<int>(row_) - 1);
  const double bottom = row_ == Row::shelf ? shelf : top + 1.4 * part;
  page_.offset = std::clamp(page_.offset, std::min(top, bottom - box.height), top);
  page_.move(0);
  const picture::Clip clip(pen.canvas, box.inset(-pen.px(4)));
  const double width = box.width - pen.px(12);
  const Box first{box.x, box.y - page_.offset, width, shelf};
  if (shelf_.empty())
    draw_empty(pen, first);
  else
    draw_shelf(pen, first);
  draw_how(pen, {box.x, first.bottom() + gap, width, how}, 0);
  scroll_bar(pen, box, page_, pen.ink().page);
}

void StartScreen::draw_empty(Pen& pen, const Box& box) {
  const Box inside = panel(pen, box);
  const double y = heading(pen, {inside.x, inside.y}, inside.width, pen.t("start.empty.title"));
  paragraph(pen, {inside.x, y}, inside.width, pen.t("start.empty.text", {folder_}), TextSize::body,
            pen.ink().ink);
}

void StartScreen::draw_shelf(Pen& pen, const Box& box) {
  const Box inside = panel(pen, box);
  const double top = heading(pen, {inside.x, inside.y}, inside.width, pen.t("start.shelf"));
  const Box view{inside.x, top, inside.width, inside.bottom() - top};
  std::vector<double> heights;
  for (std::size_t i = 0; i < shelf_.size(); ++i)
    heights.push_back(item_height(pen, view.width - pen.px(18), i));
  list_view(pen, view, scroll_, {heights, choice_.item, row_ == Row::shelf, id_item},
            [&](const Box& row, std::size_t i) { draw_item(pen, row, i); });
}

std::string StartScreen::side_of(const Pen& pen, const procedure::Procedure& procedure) const {
  const auto minutes = pen.t("start.minutes", {std::to_string(minutes_to_play(procedure))});
  const auto at = standing_.find(procedure.id);
  if (at == standing_.end() || at->second.completed == 0) return minutes;
  const auto points = [](double total) { return std::to_string(std::lround(total)); };
  return pen.t("start.standing", {minutes, points(at->second.last), points(at->second.best)});
}

std::string StartScreen::about(const Pen& pen, std::size_t i) const {
  const auto& item = shelf_[i];
  if (const auto laid = laid_.find(item.file); item.procedure && laid != laid_.end())
    return pen.t("start.laid", {laid->second, item.procedure->summary});
  if (item.procedure) return item.procedure->summary;
  return pen.t("start.unplayable", {std::to_string(item.problems.size()), item.file});
}

double StartScreen::item_height(const Pen& pen, double width, std::size_t i) const {
  return picture::paragraph_height(pen.canvas, about(pen, i), width - pen.px(20),
                                   pen.size(TextSize::label)) +
         pen.px(48);
}

void StartScreen::draw_item(Pen& pen, const Box& inside, std::size_t i) {
  const auto& ink = pen.ink();
  const auto& item = shelf_[i];
  std::string title = item.file, side;
  if (item.procedure) {
    title = item.procedure->title;
    side = side_of(pen, *item.procedure);
  }
  const double side_width =
      pen.canvas.measure(side, pen.size(TextSize::label), Weight::regular).width;
  auto style = pen.style(TextSize::body, ink.ink, Weight::bold);
  style.level = picture::Level::top;
  pen.canvas.text({inside.x, inside.y},
                  picture::shorten(pen.canvas, title, inside.width - side_width - pen.px(12),
                                   style.size, Weight::bold),
                  style);
  auto right = pen.style(TextSize::label, ink.ink_soft);
  right.align = picture::Align::right;
  right.level = picture::Level::top;
  pen.canvas.text({inside.right(), inside.y}, side, right);
  paragraph(pen, {inside.x, inside.y + pen.px(26)}, inside.width, about(pen, i), TextSize::label,
            item.procedure ? ink.ink : ink.danger, Weight::regular, inside.bottom() + pen.px(4));
}

std::vector<std::string> StartScreen::level_names(const Pen& pen) const {
  return {pen.t("level.guided"), pen.t("level.unaided"), pen.t("level.assessed")};
}

std::string StartScreen::part_name(const Pen& pen) const {
  const auto* procedure = chosen();
  if (choice_.part == 0 || procedure == nullptr) return pen.t("start.part.whole");
  return procedure->phases[choice_.part - 1].title;
}

// Instead of how to practise it: what keeps it from being practised.
void StartScreen::draw_mending(Pen& pen, const Box& box) const {
  const Box in = panel(pen, box);
  Flow flow(pen, {in.x, in.y}, in.width);
  write_problems(pen, flow, shelf_[choice_.item], in.bottom());
}

void StartScreen::draw_how(Pen& pen, const Box& box, double foot) {
  if (chosen() == nullptr && !shelf_.empty()) return draw_mending(pen, box);
  const Box in = panel(pen, box);
  const double line = pen.px(34), label = pen.px(24), gap = pen.px(8);
  double y = in.y;
  const auto caption = [&](std::string_view key) {
    y = paragraph(pen, {in.x, y}, in.width, pen.t(key), TextSize::label, pen.ink().ink,
                  Weight::bold);
    y += pen.px(3);
  };
  caption("start.level");
  switcher(pen, {in.x, y, in.width, line}, level_names(pen),
           static_cast<std::size_t>(choice_.level), row_ == Row::level, id_level);
  y += line + pen.px(4);
  static constexpr const char* about[] = {"level.guided.about", "level.unaided.about",
                                          "level.assessed.about"};
  paragraph(pen, {in.x, y}, in.width, pen.t(about[static_cast<int>(choice_.level)]),
            TextSize::label, pen.ink().ink_soft);
  y += 2 * label;
  caption("start.pace");
  if (choice_.level == Level::assessed) {
    text_field(pen, {in.x, y, in.width, line}, pen.t("start.pace.fixed"), "", row_ == Row::pace,
               -1);
  } else {
    std::vector<std::string> paces;
    for (const Pace pace : offered_paces) paces.push_back(text_of(pace));
    switcher(pen, {in.x, y, in.width, line}, paces, position_of(choice_.pace), row_ == Row::pace,
             id_pace);
  }
  y += line + gap;
  caption("start.part");
  stepper(pen, {in.x, y, in.width, line}, part_name(pen), row_ == Row::part, id_part_back,
          id_part_on);
  y += line + gap;
  const double half = (in.width - gap) / 2, fields = y;
  caption("start.name");
  text_field(pen, {in.x, y, half, line},
             choice_.known ? pen.t("start.name.change", {choice_.name}) : choice_.name,
             pen.t("start.name.hint"), row_ == Row::name, id_name);
  paragraph(pen, {in.x + half + gap, fields}, half, pen.t("start.seed"), TextSize::label,
            pen.ink().ink, Weight::bold);
  text_field(pen, {in.x + half + gap, y, half, line}, choice_.seed, pen.t("start.seed.hint"),
             row_ == Row::seed, id_seed);
  y += line + gap;
  paragraph(pen, {in.x, y}, in.width, pen.t("program.caution"), TextSize::label, pen.ink().ink_soft,
            Weight::regular, in.bottom() - foot);
}

}  // namespace beforehand::stage
