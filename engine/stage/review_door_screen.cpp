// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/review_door_screen.hpp"

#include <algorithm>

#include "picture/text.hpp"
#include "stage/page.hpp"
#include "stage/text_input.hpp"
#include "stage/widgets.hpp"

namespace beforehand::stage {
namespace {

enum Id { id_back, id_enter, id_field = 10, id_row = 100 };
constexpr std::size_t longest = 60;  // letters

}  // namespace

std::string dots_for(const std::string& secret) {
  std::string dots;
  for (std::size_t i = 0; i < letters_in(secret); ++i) dots += "•";
  return dots;
}

std::string passcode_words(const records::Store::PasscodeAnswer& answer, const Strings& t) {
  if (answer.right) return {};
  if (answer.wait.count() == 0) return t("people.passcode.wrong");
  return t("review.passcode.wait", {std::to_string(answer.wait.count())});
}

ReviewDoor::ReviewDoor(ReviewDesk& desk) : desk_(desk), trainers_(desk.trainers()) {
  if (!setting_up()) field_ = Field::passcode;
}

void ReviewDoor::fell_shut(const records::Person& behind, int minutes) {
  shut_after_ = minutes;
  for (std::size_t i = 0; i < trainers_.size(); ++i)
    if (trainers_[i].id == behind.id) row_ = i;
}

std::string& ReviewDoor::text() {
  if (field_ == Field::name) return name_;
  return field_ == Field::passcode ? passcode_ : again_;
}

ReviewDoor::Outcome ReviewDoor::handle(const Input& input) {
  if (input.kind == Input::Kind::press) return on_press({input.x, input.y});
  if (input.kind == Input::Kind::text && letters_in(text()) < longest) append(text(), input.symbol);
  if (input.kind == Input::Kind::wheel) move(input.wheel > 0 ? -1 : 1);
  return input.kind == Input::Kind::key ? on_key(input.key) : Outcome::stay;
}

ReviewDoor::Outcome ReviewDoor::on_key(Key key) {
  if (key == Key::escape) return Outcome::leave;
  if (key == Key::enter) return enter();
  if (key == Key::backspace) erase_last(text());
  if (key == Key::up || key == Key::down) move(key == Key::up ? -1 : 1);
  if (key == Key::tab || key == Key::back_tab) next_field(key == Key::tab ? 1 : -1);
  return Outcome::stay;
}

void ReviewDoor::move(int by) {
  if (setting_up()) return next_field(by);
  const auto last = static_cast<long>(trainers_.size()) - 1;
  row_ = static_cast<std::size_t>(std::clamp(static_cast<long>(row_) + by, 0L, last));
  passcode_.clear();
}

void ReviewDoor::next_field(int by) {
  if (setting_up()) field_ = static_cast<Field>((static_cast<int>(field_) + 3 + by) % 3);
}

ReviewDoor::Outcome ReviewDoor::on_press(Point at) {
  const int id = hits_.at(at).value_or(-1);
  if (id == id_back) return Outcome::leave;
  if (id == id_enter) return enter();
  if (id >= id_row)
    row_ = static_cast<std::size_t>(id - id_row);
  else if (id >= id_field)
    field_ = static_cast<Field>(id - id_field);
  return Outcome::stay;
}

ReviewDoor::Outcome ReviewDoor::enter() {
  if (!desk_.problem().empty()) {  // try again
    trainers_ = desk_.trainers();
    if (!setting_up()) field_ = Field::passcode;
    return Outcome::stay;
  }
  if (setting_up()) return set_up();
  const auto& who = trainers_[row_];
  const auto answer = desk_.try_passcode(who.id, passcode_);
  passcode_.clear();
  if (answer.right) {
    trainer_ = who;
    return Outcome::open;
  }
  told_ = !who.locked               ? "review.door.unset"
          : answer.wait.count() > 0 ? std::to_string(answer.wait.count())
                                    : "people.passcode.wrong";
  return Outcome::stay;
}

ReviewDoor::Outcome ReviewDoor::set_up() {
  if (field_ != Field::again && (passcode_.empty() || again_.empty())) {
    next_field(1);
    return Outcome::stay;
  }
  if (passcode_ != again_) {
    told_ = "review.door.differ";
    again_.clear();
    return Outcome::stay;
  }
  const auto added = desk_.add_first_trainer(name_, passcode_);
  if (added) {
    trainer_ = *added;
    return Outcome::open;
  }
  told_ = desk_.problem();
  trainers_ = desk_.trainers();  // also: somebody else was first
  return Outcome::stay;
}

double ReviewDoor::draw_trainers(Pen& pen, const Box& box) {
  const double height = pen.px(38), step = height + pen.px(8);
  const auto fit = std::max<std::size_t>(1, static_cast<std::size_t>(box.height / step));
  const auto first = row_ < fit ? 0 : row_ - fit + 1;
  double y = box.y;
  for (std::size_t i = first; i < std::min(trainers_.size(), first + fit); ++i, y += step) {
    const bool chosen = i == row_;
    const Box row{box.x, y, box.width, height};
    pen.canvas.rectangle(row,
                         {chosen ? pen.ink().accent_soft : pen.ink().well,
                          {chosen ? pen.ink().accent : pen.ink().edge, pen.px(chosen ? 2 : 1)}},
                         pen.px(8));
    pen.hits.add(row, id_row + static_cast<int>(i));
    auto style = pen.style(TextSize::body, pen.ink().ink, chosen ? Weight::bold : Weight::regular);
    style.level = picture::Level::middle;
    pen.canvas.text({row.x + pen.px(12), row.centre().y},
                    picture::shorten(pen.canvas, trainers_[i].name, row.width - pen.px(24),
                                     style.size, style.weight),
                    style);
  }
  return y;
}

double ReviewDoor::draw_field(Pen& pen, const Box& box, double y, Field field, const char* hint) {
  const auto& value = field == Field::name ? name_ : field == Field::passcode ? passcode_ : again_;
  text_field(pen, {box.x, y, box.width, pen.px(36)}, field == Field::name ? value : dots_for(value),
             pen.t(hint), field_ == field, id_field + static_cast<int>(field));
  return y + pen.px(44);
}

void ReviewDoor::draw(Pen& outer, const Box& box) {
  hits_.clear();
  Pen pen{outer.canvas, outer.theme, outer.t, hits_, outer.pointer};
  const double gap = pen.px(12);
  const bool broken = trainers_.empty() && !desk_.problem().empty();
  const std::vector<BarButton> buttons = {{pen.t("review.back"), pen.t("key.escape"), id_back},
                                          {pen.t(broken         ? "people.again"
                                                 : setting_up() ? "review.door.set-up"
                                                                : "review.door.open"),
                                           pen.t("key.enter"),
                                           id_enter,
                                           {true}}};
  const double width = std::min(box.width - 2 * gap, pen.px(820));
  const double bar = button_bar_height(pen, width, buttons) + pen.px(8);
  const Box view{box.x + (box.width - width) / 2, box.y + gap, width, box.height - 2 * gap - bar};
  const Box in = panel(pen, view);
  double y = heading(pen, {in.x, in.y}, in.width, pen.t("review.door.title"));
  if (broken) {
    y = paragraph(pen, {in.x, y}, in.width, desk_.problem(), TextSize::body, pen.ink().danger,
                  Weight::regular, in.bottom());
  } else {
    if (shut_after_ > 0)
      y = paragraph(pen, {in.x, y}, in.width,
                    pen.t("review.door.asleep", {std::to_string(shut_after_)}), TextSize::body,
                    pen.ink().caution, Weight::bold);
    y = paragraph(pen, {in.x, y}, in.width,
                  pen.t(setting_up() ? "review.door.first" : "review.door.about"), TextSize::label,
                  pen.ink().ink_soft) +
        pen.px(8);
    if (setting_up()) {
      y = draw_field(pen, in, y, Field::name, "review.door.name");
      y = draw_field(pen, in, y, Field::passcode, "review.door.passcode");
      y = draw_field(pen, in, y, Field::again, "review.door.again");
    } else {
      y = draw_trainers(pen, {in.x, y, in.width, in.bottom() - y - pen.px(90)});
      y = draw_field(pen, in, y, Field::passcode, "people.passcode.hint");
    }
    if (!told_.empty()) {
      const bool wait = told_.find_first_not_of("0123456789") == std::string::npos;
      const auto words = wait               ? pen.t("review.passcode.wait", {told_})
                         : pen.t.has(told_) ? pen.t(told_)
                                            : told_;
      paragraph(pen, {in.x, y}, in.width, words, TextSize::label, pen.ink().danger, Weight::bold,
                in.bottom());
    }
  }
  button_bar(pen, {view.x, view.bottom() + pen.px(8), width, bar}, buttons);
}

}  // namespace beforehand::stage
