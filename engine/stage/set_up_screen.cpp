// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/set_up_screen.hpp"

#include <algorithm>

#include "picture/review_words.hpp"
#include "picture/text.hpp"
#include "stage/list_view.hpp"
#include "stage/page.hpp"

namespace beforehand::stage {
namespace {

using drill::SetUpFault;

enum Id { id_done, id_skip, id_back, id_again, id_drill, id_cabinet = 100, id_tray = 1000 };

}  // namespace

void SetUpScreen::go_on_from(const SetUpScreen& older) {
  newer_ = true;
  taken_ = older.taken_;
  for (const auto lay : older.laid_)
    for (std::size_t i = 0; i < items_.size(); ++i)
      if (items_[i].name == older.items_[lay].name) {
        laid_.push_back(i);
        break;
      }
}

SetUpScreen::Outcome SetUpScreen::handle(const Input& input) {
  switch (input.kind) {
    case Input::Kind::key:
      return on_key(input);
    case Input::Kind::press:
      return on_press({input.x, input.y});
    case Input::Kind::wheel:
      if (check_)
        page_.move(-input.wheel * 60);
      else
        (tray_.contains({input.x, input.y}) ? tray_scroll_ : cabinet_scroll_)
            .move(-input.wheel * 60);
      break;
    default:
      break;
  }
  return Outcome::stay;
}

void SetUpScreen::pass(std::chrono::microseconds real) {
  if (!check_) taken_ += real;
}

SetUpScreen::Outcome SetUpScreen::on_key(const Input& input) {
  if (check_) {
    if (input.key == Key::enter) return Outcome::drill;
    if (input.key == Key::escape || input.key == Key::backspace) check_.reset();
    page_.follow(input.key);
    return Outcome::stay;
  }
  switch (input.key) {
    case Key::up:
      move(-1);
      break;
    case Key::down:
      move(1);
      break;
    case Key::left:
    case Key::back_tab:
      turn(-1);
      break;
    case Key::right:
    case Key::tab:
      turn(1);
      break;
    case Key::enter:
    case Key::space:
      return act();
    case Key::backspace:
      if (!laid_.empty()) take_back(laid_.size() - 1);
      break;
    case Key::escape:
      return Outcome::back;
    case Key::symbol:
      if (input.symbol == U'd') return Outcome::drill;
      if (input.symbol == U'r') look_at_it();
      break;
    default:
      break;
  }
  return Outcome::stay;
}

SetUpScreen::Outcome SetUpScreen::act() {
  if (focus_ == Focus::skip) return Outcome::drill;
  if (focus_ == Focus::done) look_at_it();
  if (focus_ == Focus::cabinet) lay(row_);
  if (focus_ == Focus::tray) take_back(tray_row_);
  return Outcome::stay;
}

SetUpScreen::Outcome SetUpScreen::on_press(Point at) {
  const int id = hits_.at(at).value_or(-1);
  if (id == id_back) return Outcome::back;
  if (id == id_skip || id == id_drill) return Outcome::drill;
  if (id == id_done) look_at_it();
  if (id == id_again) check_.reset();
  if (id >= id_tray) {
    focus_ = Focus::tray;
    take_back(static_cast<std::size_t>(id - id_tray));
  } else if (id >= id_cabinet) {
    focus_ = Focus::cabinet;
    lay(static_cast<std::size_t>(id - id_cabinet));
  }
  return Outcome::stay;
}

void SetUpScreen::look_at_it() {
  page_ = {};
  check_ = drill::check_set_up(items_, laid_);
}

std::vector<std::size_t> SetUpScreen::left_in_cabinet() const {
  std::vector<std::size_t> rest;
  for (std::size_t i = 0; i < items_.size(); ++i)
    if (std::find(laid_.begin(), laid_.end(), i) == laid_.end()) rest.push_back(i);
  return rest;
}

void SetUpScreen::move(int by) {
  const auto step = [by](std::size_t& row, std::size_t count) {
    if (count == 0) return;
    row = static_cast<std::size_t>(
        std::clamp(static_cast<long>(row) + by, 0L, static_cast<long>(count) - 1));
  };
  if (focus_ == Focus::cabinet) step(row_, items_.size() - laid_.size());
  if (focus_ == Focus::tray) step(tray_row_, laid_.size());
}

void SetUpScreen::turn(int by) {
  constexpr int stops = 4;
  focus_ = static_cast<Focus>((static_cast<int>(focus_) + stops + by) % stops);
}

void SetUpScreen::lay(std::size_t row) {
  const auto rest = left_in_cabinet();
  if (row >= rest.size()) return;
  laid_.push_back(rest[row]);
  row_ = std::min(row, rest.size() < 2 ? 0 : rest.size() - 2);
  tray_row_ = laid_.size() - 1;
}

void SetUpScreen::take_back(std::size_t row) {
  if (row >= laid_.size()) return;
  laid_.erase(laid_.begin() + static_cast<std::ptrdiff_t>(row));
  tray_row_ = std::min(row, laid_.empty() ? 0 : laid_.size() - 1);
}

std::string SetUpScreen::summary(const Strings& t) const {
  const auto task = record();
  return task ? picture::tray_words(*task, t) : std::string();
}

std::optional<records::TaskRecord> SetUpScreen::record() const {
  if (!check_) return std::nullopt;
  records::TaskRecord task{static_cast<int>(check_->right),
                           static_cast<int>(check_->wanted),
                           std::chrono::duration_cast<Ms>(taken_),
                           {}};
  for (const auto& finding : check_->findings) {
    records::TaskRecord::Fault fault{std::string(word(finding.fault)), {items_[finding.item].name}};
    if (finding.fault == drill::SetUpFault::out_of_order)
      fault.about.push_back(items_[finding.before].name);
    task.faults.push_back(std::move(fault));
  }
  return task;
}

void SetUpScreen::draw(Pen& outer, const Box& box) {
  hits_.clear();
  Pen pen{outer.canvas, outer.theme, outer.t, hits_, outer.pointer};
  if (!check_) return draw_laying(pen, box);
  page(pen, box, page_, [&](Flow& flow) { write_check(flow, pen.t, pen.ink()); },
       {{pen.t("setup.again"), pen.t("key.backspace"), id_again},
        {pen.t("briefing.begin"), pen.t("key.enter"), id_drill, {true, true, true}}});
}

void SetUpScreen::draw_laying(Pen& pen, const Box& box) {
  const double gap = pen.px(12), width = box.width - 2 * gap;
  const std::vector<BarButton> buttons{
      {pen.t("briefing.back"), pen.t("key.escape"), id_back},
      {pen.t("setup.skip"), "D", id_skip, {false, focus_ == Focus::skip, true}},
      {pen.t("setup.done"), "R", id_done, {true, focus_ == Focus::done, true}}};
  const double bar = button_bar_height(pen, width, buttons);
  Flow top(pen, {box.x + gap, box.y + gap}, width);
  top.heading(pen.t("setup.title"));
  if (newer_) top.text(pen.t("setup.newer"), pen.ink().caution, Weight::bold, TextSize::label);
  const bool roomy = box.height > pen.px(560);
  if (roomy) top.text(pen.t("quote", {procedure_.plan}), pen.ink().ink);
  top.text(pen.t("setup.how"), pen.ink().ink_soft, Weight::regular, TextSize::label);
  const double y = top.y + pen.px(8), height = box.bottom() - bar - 2 * gap - y;
  const double half = (width - gap) / 2;
  draw_list(pen, {box.x + gap, y, half, height}, false);
  draw_list(pen, {box.x + 2 * gap + half, y, half, height}, true);
  button_bar(pen, {box.x + gap, box.bottom() - bar - gap, width, bar}, buttons);
}

void SetUpScreen::draw_list(Pen& pen, const Box& box, bool tray) {
  if (tray) tray_ = box;
  const Box in = panel(pen, box).inset(-pen.px(4));
  const double top =
      heading(pen, {in.x, in.y}, in.width, pen.t(tray ? "setup.tray" : "setup.cabinet"));
  const Box view{in.x, top, in.width, in.bottom() - top};
  const auto shown = tray ? laid_ : left_in_cabinet();
  if (tray && shown.empty()) {
    paragraph(pen, {view.x, view.y}, view.width, pen.t("setup.empty"), TextSize::body,
              pen.ink().ink_soft, Weight::regular, view.bottom());
    return;
  }
  const bool here = focus_ == (tray ? Focus::tray : Focus::cabinet);
  const auto text_of = [&](std::size_t i) {
    const auto& name = items_[shown[i]].name;
    return tray ? std::to_string(i + 1) + ". " + name : name;
  };
  std::vector<double> heights;
  for (std::size_t i = 0; i < shown.size(); ++i)
    heights.push_back(list_row_height(pen, view.width, text_of(i)));
  list_view(pen, view, tray ? tray_scroll_ : cabinet_scroll_,
            {std::move(heights), tray ? tray_row_ : row_, here, tray ? id_tray : id_cabinet, tray},
            [&](const Box& row, std::size_t i) {
              list_line(pen, row, text_of(i), Weight::regular, items_[shown[i]].icon);
            });
}

void SetUpScreen::write_check(Flow& flow, const Strings& t, const picture::Palette& ink) const {
  flow.heading(t("setup.checked"));
  flow.text(summary(t), ink.ink);
  flow.text(t("setup.apart"), ink.ink_soft, Weight::regular, TextSize::label);
  flow.gap(8);
  if (check_->findings.empty()) flow.item("✓", t("setup.perfect"), ink.good, Weight::bold);
  for (const auto& finding : check_->findings) {
    const auto& item = items_[finding.item];
    const auto what =
        t("setup." + std::string(word(finding.fault)), {item.name, items_[finding.before].name});
    flow.item("!", what, ink.caution, Weight::bold);
    if (finding.fault == drill::SetUpFault::from_counter)
      flow.under(t("setup.from-counter.why"), ink.ink);
    if (item.first_use) {
      const auto& step = procedure_.step(item.first_use);
      flow.under(t("setup.used-for", {step.title}), ink.ink);
      if (!step.why.empty()) flow.under(step.why, ink.ink_soft);
    }
  }
  flow.gap(8);
  flow.heading(t("setup.order"));
  std::vector<std::size_t> right;
  for (std::size_t i = 0; i < items_.size(); ++i)
    if (items_[i].belongs == drill::Belongs::tray) right.push_back(i);
  std::stable_sort(right.begin(), right.end(), [&](std::size_t a, std::size_t b) {
    return items_[a].first_use.at() < items_[b].first_use.at();
  });
  for (std::size_t i = 0; i < right.size(); ++i)
    flow.item(std::to_string(i + 1), items_[right[i]].name, ink.ink);
  for (const auto& item : items_)
    if (item.belongs == drill::Belongs::back_up)
      flow.item("+", t("setup.back-up", {item.name}), ink.ink);
}

}  // namespace beforehand::stage
