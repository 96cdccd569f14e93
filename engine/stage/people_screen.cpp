// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/people_screen.hpp"

#include <algorithm>

#include "picture/text.hpp"
#include "records/names.hpp"
#include "stage/list_view.hpp"
#include "stage/page.hpp"
#include "stage/text_input.hpp"
#include "stage/widgets.hpp"

namespace beforehand::stage {
namespace {

enum Id { id_typed, id_nobody, id_enter, id_review, id_row = 100 };

constexpr std::size_t longest_name = 60;  // letters

}  // namespace

PeopleScreen::PeopleScreen(RecordDesk& desk) : desk_(desk) { find_fitting(); }

void PeopleScreen::find_fitting() {
  const auto wanted = records::folded(typed_);
  fitting_.clear();
  for (std::size_t i = 0; i < desk_.people().size(); ++i)
    if (records::folded(desk_.people()[i].name).find(wanted) != std::string::npos)
      fitting_.push_back(i);
  row_ = 0;
  scroll_.offset = 0;
}

// A name that somebody has already is not offered again.
bool PeopleScreen::offers_new() const {
  if (typed_.find_first_not_of(' ') == std::string::npos || !desk_.problem().empty()) return false;
  const auto wanted = records::folded(typed_);
  return std::none_of(fitting_.begin(), fitting_.end(), [&](std::size_t i) {
    return records::folded(desk_.people()[i].name) == wanted;
  });
}

PeopleScreen::Outcome PeopleScreen::handle(const Input& input) {
  auto& text = asking_ ? passcode_ : typed_;
  switch (input.kind) {
    case Input::Kind::key:
      return on_key(input);
    case Input::Kind::text:
      if (letters_in(text) < longest_name) append(text, input.symbol);
      if (!asking_) find_fitting();
      break;
    case Input::Kind::press:
      return on_press({input.x, input.y});
    case Input::Kind::wheel:
      move(input.wheel > 0 ? -3 : 3);
      break;
    case Input::Kind::close:
      return Outcome::close;
    default:
      break;
  }
  return Outcome::stay;
}

PeopleScreen::Outcome PeopleScreen::on_key(const Input& input) {
  switch (input.key) {
    case Key::enter:
      return on_nobody_ ? Outcome::nobody : go_on();
    case Key::f3:
      return Outcome::review;
    case Key::f4:
      return Outcome::nobody;
    case Key::tab:
    case Key::back_tab:
      on_nobody_ = !on_nobody_;
      break;
    case Key::escape:
      if (!asking_) return Outcome::close;
      asking_ = false;
      told_.clear();
      break;
    case Key::backspace:
      erase_last(asking_ ? passcode_ : typed_);
      if (!asking_) find_fitting();
      break;
    case Key::up:
      move(-1);
      break;
    case Key::down:
      move(1);
      break;
    case Key::page_up:
      move(-10);
      break;
    case Key::page_down:
      move(10);
      break;
    default:
      break;
  }
  return Outcome::stay;
}

// Whatever stands to be done: the records opened, the passcode tried, the name taken.
PeopleScreen::Outcome PeopleScreen::go_on() {
  if (asking_) return try_passcode();
  if (desk_.problem().empty()) return take(row_);
  desk_.refresh();
  find_fitting();
  return Outcome::stay;
}

void PeopleScreen::move(int by) {
  if (rows() == 0 || asking_) return;
  const auto last = static_cast<long>(rows()) - 1;
  on_nobody_ = false;
  row_ = static_cast<std::size_t>(std::clamp(static_cast<long>(row_) + by, 0L, last));
}

PeopleScreen::Outcome PeopleScreen::take(std::size_t row) {
  if (row >= rows()) return Outcome::stay;
  row_ = row;
  told_.clear();
  if (row == fitting_.size()) {
    told_ = desk_.add(typed_);
    return told_.empty() ? Outcome::chosen : Outcome::stay;
  }
  const auto& who = desk_.people()[fitting_[row]];
  if (who.locked) {
    asking_ = true;
    passcode_.clear();
    return Outcome::stay;
  }
  desk_.choose(who);
  return Outcome::chosen;
}

PeopleScreen::Outcome PeopleScreen::try_passcode() {
  const auto& who = desk_.people()[fitting_[row_]];
  const auto answer = desk_.try_passcode(who, passcode_);
  passcode_.clear();
  if (answer == RecordDesk::Passcode::right) {
    desk_.choose(who);
    return Outcome::chosen;
  }
  told_ = answer == RecordDesk::Passcode::wrong ? "people.passcode.wrong" : "people.passcode.soon";
  return Outcome::stay;
}

PeopleScreen::Outcome PeopleScreen::on_press(Point at) {
  const int id = hits_.at(at).value_or(-1);
  if (id == id_nobody) return Outcome::nobody;
  if (id == id_review) return Outcome::review;
  if (id == id_enter) return go_on();
  return id >= id_row && !asking_ ? take(static_cast<std::size_t>(id - id_row)) : Outcome::stay;
}

void PeopleScreen::draw(Pen& outer, const Box& box) {
  hits_.clear();
  Pen pen{outer.canvas, outer.theme, outer.t, hits_, outer.pointer};
  const double gap = pen.px(16);
  const double width = std::min(box.width - 2 * gap, pen.px(820));
  const double x = box.x + (box.width - width) / 2;
  Flow top(pen, {x, box.y + gap}, width);
  top.text(pen.t("people.title"), pen.ink().accent, Weight::bold, TextSize::title);
  if (box.height >= pen.px(480))  // else the list needs the room more than the words do
    top.text(pen.t("people.why"), pen.ink().ink_soft);
  top.gap(10);
  const bool broken = !desk_.problem().empty();
  const std::vector<BarButton> buttons{
      {pen.t("people.nobody"), "F4", id_nobody, {false, on_nobody_, true}},
      {pen.t("people.review"), "F3", id_review},
      {pen.t(broken ? "people.again" : "people.go"),
       pen.t("key.enter"),
       id_enter,
       {true, false, asking_ || broken || rows() > 0}}};
  const double bar = button_bar_height(pen, width, buttons);
  const Box view{x, top.y, width, box.bottom() - bar - 2 * gap - top.y};
  if (broken)
    scrolling_card(pen, view, scroll_, [&](Flow& flow) { write_problem(flow, pen); });
  else if (asking_)
    draw_passcode(pen, panel(pen, view));
  else
    draw_list(pen, panel(pen, view));
  button_bar(pen, {x, box.bottom() - bar - gap, width, bar}, buttons);
}

void PeopleScreen::write_problem(Flow& flow, const Pen& pen) const {
  flow.heading(pen.t("people.problem"));
  flow.text(desk_.problem(), pen.ink().danger);
  flow.gap(8);
  flow.text(pen.t("people.problem.about"), pen.ink().ink);
}

void PeopleScreen::draw_list(Pen& pen, const Box& box) {
  const double line = pen.px(38), gap = pen.px(8);
  text_field(pen, {box.x, box.y, box.width, line}, typed_, pen.t("people.hint"), !on_nobody_,
             id_typed);
  double y = box.y + line + gap;
  if (!told_.empty())
    y = paragraph(pen, {box.x, y}, box.width, told_, TextSize::label, pen.ink().danger);
  if (rows() == 0) {
    paragraph(pen, {box.x, y + gap}, box.width, pen.t("people.empty"), TextSize::body,
              pen.ink().ink);
    return;
  }
  const std::vector<double> heights(rows(), list_row_height(pen));
  list_view(pen, {box.x, y, box.width, box.bottom() - y}, scroll_,
            {heights, row_, !on_nobody_, id_row}, [&](const Box& row, std::size_t i) {
              list_line(pen, row, row_text(pen, i), i == row_ ? Weight::bold : Weight::regular);
            });
}

std::string PeopleScreen::row_text(const Pen& pen, std::size_t row) const {
  if (row == fitting_.size()) return pen.t("people.add", {typed_});
  const auto& who = desk_.people()[fitting_[row]];
  return who.locked ? pen.t("people.locked", {who.name}) : who.name;
}

void PeopleScreen::draw_passcode(Pen& pen, const Box& box) {
  const auto& who = desk_.people()[fitting_[row_]];
  double y = heading(pen, {box.x, box.y}, box.width, pen.t("people.passcode", {who.name}));
  std::string dots;
  for (std::size_t i = 0; i < letters_in(passcode_); ++i) dots += "•";
  text_field(pen, {box.x, y, box.width, pen.px(38)}, dots, pen.t("people.passcode.hint"), true,
             id_typed);
  y += pen.px(46);
  if (!told_.empty())
    paragraph(pen, {box.x, y}, box.width, pen.t(told_), TextSize::body, pen.ink().danger);
}

}  // namespace beforehand::stage
