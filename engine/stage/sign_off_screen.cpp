// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/sign_off_screen.hpp"

#include <algorithm>

#include "picture/review_words.hpp"
#include "stage/page.hpp"
#include "stage/review_door_screen.hpp"
#include "stage/text_input.hpp"
#include "stage/widgets.hpp"

namespace beforehand::stage {
namespace {

enum Id { id_back, id_do, id_words, id_passcode };
constexpr std::size_t longest_words = 400, longest_passcode = 60;  // letters

}  // namespace

SignOffDialog::SignOffDialog(ReviewDesk& desk, Subject subject)
    : desk_(desk), subject_(std::move(subject)) {}

// A signature against the criteria, a revocation and a note need a reason in words.
bool SignOffDialog::needs_words() const {
  return subject_.kind != Kind::sign || !records::all_met(subject_.criteria);
}

SignOffDialog::Outcome SignOffDialog::handle(const Input& input) {
  const auto longest = field_ == Field::words ? longest_words : longest_passcode;
  if (input.kind == Input::Kind::text && letters_in(text()) < longest) append(text(), input.symbol);
  if (input.kind == Input::Kind::wheel) scroll_.move(-input.wheel * 60);
  if (input.kind == Input::Kind::press) return on_press({input.x, input.y});
  return input.kind == Input::Kind::key ? on_key(input.key) : Outcome::stay;
}

SignOffDialog::Outcome SignOffDialog::on_key(Key key) {
  switch (key) {
    case Key::escape:
      return Outcome::leave;
    case Key::enter:
      return enter();
    case Key::tab:
    case Key::back_tab:
      if (signs()) field_ = field_ == Field::words ? Field::passcode : Field::words;
      break;
    case Key::backspace:
      erase_last(text());
      break;
    case Key::up:
    case Key::down:
    case Key::page_up:
    case Key::page_down:
      scroll_.follow(key);
      break;
    default:
      break;
  }
  return Outcome::stay;
}

SignOffDialog::Outcome SignOffDialog::on_press(Point at) {
  const int id = hits_.at(at).value_or(-1);
  if (id == id_back) return Outcome::leave;
  if (id == id_do) return enter();
  if (id == id_words) field_ = Field::words;
  if (id == id_passcode) field_ = Field::passcode;
  return Outcome::stay;
}

SignOffDialog::Outcome SignOffDialog::enter() {
  answer_.right = true;
  told_.clear();
  if (words_.find_first_not_of(' ') == std::string::npos && needs_words()) {
    told_ = subject_.kind == Kind::sign ? "review.sign.say-why" : "review.words.needed";
    field_ = Field::words;
    return Outcome::stay;
  }
  if (signs()) {
    if (passcode_.empty()) {
      field_ = Field::passcode;
      return Outcome::stay;
    }
    answer_ = desk_.try_passcode(subject_.trainer.id, passcode_);
    passcode_.clear();
    if (!answer_.right) {
      told_ = desk_.problem();
      return Outcome::stay;
    }
  }
  if (carry_out()) return Outcome::done;
  told_ = desk_.problem();
  return Outcome::stay;
}

bool SignOffDialog::carry_out() {
  const auto& trainee = subject_.file->trainee.id;
  if (subject_.kind == Kind::revoke)
    return desk_.revoke(subject_.sign_off, subject_.trainer.id, words_);
  if (subject_.kind == Kind::note) {
    records::Note n;
    n.trainee = trainee;
    n.trainer = subject_.trainer.id;
    n.text = words_;
    return desk_.note(std::move(n));
  }
  records::SignOff s;
  s.trainee = trainee;
  s.trainer = subject_.trainer.id;
  s.scenario = subject_.procedure->id;
  s.scenario_hash = subject_.scenario_hash;
  s.criteria = records::in_words(*subject_.procedure, subject_.criteria);
  s.note = words_;
  return desk_.sign(std::move(s));
}

void SignOffDialog::draw(Pen& outer, const Box& box) {
  hits_.clear();
  Pen pen{outer.canvas, outer.theme, outer.t, hits_, outer.pointer};
  const double gap = pen.px(12), width = std::min(box.width - 2 * gap, pen.px(900));
  static constexpr const char* deeds[] = {"review.sign", "review.revoke", "review.note"};
  const std::vector<BarButton> buttons = {
      {pen.t("review.cancel"), pen.t("key.escape"), id_back},
      {pen.t(deeds[static_cast<int>(subject_.kind)]), pen.t("key.enter"), id_do, {true}}};
  const double bar = button_bar_height(pen, width, buttons) + pen.px(8);
  const Box view{box.x + (box.width - width) / 2, box.y + gap, width, box.height - 2 * gap - bar};
  const Box in = panel(pen, view);
  const double fields = draw_fields(pen, in);
  const Box text{in.x, in.y, in.width, fields - in.y - gap};
  {
    const picture::Clip clip(pen.canvas, text);
    const double start = text.y - scroll_.offset;
    Flow flow(pen, {text.x, start}, text.width - pen.px(14));
    write_subject(flow, pen);
    scroll_.view = text.height;
    scroll_.content = flow.y - start;
    scroll_.move(0);
  }
  scroll_bar(pen, text, scroll_);
  button_bar(pen, {view.x, view.bottom() + pen.px(8), width, bar}, buttons);
}

void SignOffDialog::write_subject(Flow& flow, Pen& pen) const {
  const auto& t = pen.t;
  const auto& name = subject_.file->trainee.name;
  if (subject_.kind == Kind::note) {
    flow.heading(t("review.note.title", {name}));
    flow.text(t("review.note.about"), pen.ink().ink_soft);
    return;
  }
  const auto& title = subject_.review->title;
  if (subject_.kind == Kind::revoke) {
    flow.heading(t("review.revoke.title", {name, title}));
    flow.text(t("review.revoke.about"), pen.ink().ink);
    return;
  }
  flow.heading(t("review.sign.title", {name, title}));
  for (const auto& c : subject_.criteria) {
    flow.item(c.met ? "✓" : "✗",
              picture::criterion_words(c, *subject_.procedure, t) + " – " +
                  t(c.met ? "review.met" : "review.unmet"),
              c.met ? pen.ink().good : pen.ink().danger, Weight::bold);
    for (const auto& line : picture::evidence_words(c, *subject_.review, t))
      flow.under(line, pen.ink().ink);
  }
  flow.gap(6);
  if (!records::all_met(subject_.criteria))
    flow.text(t("review.sign.unmet"), pen.ink().caution, Weight::bold);
  flow.text(t("review.sign.about"), pen.ink().ink_soft, Weight::regular, TextSize::label);
}

// From the bottom up; gives the y of the first.
double SignOffDialog::draw_fields(Pen& pen, const Box& box) {
  const double line = pen.px(36), step = line + pen.px(8);
  std::string told = answer_.right || !told_.empty() ? told_ : passcode_words(answer_, pen.t);
  if (pen.t.has(told)) told = pen.t(told);
  double y = box.bottom() - (signs() ? 2 : 1) * step - (told.empty() ? 0 : pen.px(28));
  const double first = y;
  static constexpr const char* hints[] = {"review.sign.hint", "review.revoke.hint",
                                          "review.note.hint"};
  text_field(pen, {box.x, y, box.width, line}, words_,
             pen.t(hints[static_cast<int>(subject_.kind)]), field_ == Field::words, id_words);
  y += step;
  if (signs()) {
    text_field(pen, {box.x, y, box.width, line}, dots_for(passcode_),
               pen.t("review.sign.passcode", {subject_.trainer.name}), field_ == Field::passcode,
               id_passcode);
    y += step;
  }
  if (!told.empty())
    paragraph(pen, {box.x, y}, box.width, told, TextSize::label, pen.ink().danger, Weight::bold,
              box.bottom() + pen.px(6));
  return first;
}

}  // namespace beforehand::stage
