// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/turnover_screen.hpp"

#include <algorithm>

#include "base/time.hpp"
#include "procedure/relations.hpp"
#include "stage/list_view.hpp"
#include "stage/page.hpp"

namespace beforehand::stage {
namespace {

using drill::Destination;

enum Id { id_skip, id_back, id_debrief, id_to = 10, id_item = 100 };

std::string words_of(const drill::Leftover& left, const Strings& t) {
  std::string all;
  for (std::size_t d = 0; d < drill::destination_count; ++d) {
    const auto destination = static_cast<Destination>(d);
    if (!left.goes_to(destination)) continue;
    const auto name = t("turnover." + std::string(word(destination)));
    all = all.empty() ? name : t("turnover.or", {all, name});
  }
  return all;
}

std::string reason_of(const drill::Leftover& left, const Strings& t) {
  auto key = "turnover.because." + std::string(word(left.because));
  for (std::size_t d = 0; d < drill::destination_count; ++d)
    if (const auto to = static_cast<Destination>(d);
        left.because == drill::ClearedBecause::says && left.goes_to(to))
      key += "." + std::string(word(to));
  return t(key);
}

std::string listed(const std::vector<std::string>& names) {
  std::string all;
  for (const auto& name : names) all += (all.empty() ? "" : ", ") + name;
  return all;
}

bool is_done(const drill::Session& session, StepIx step) {
  return std::any_of(session.events.begin(), session.events.end(), [step](const drill::Event& e) {
    return e.what == drill::What::step_done && e.step == step && e.person;
  });
}

}  // namespace

void TurnoverScreen::tell_used(const drill::World& world, const drill::Session& session) {
  const auto uses = procedure::lives(procedure_);
  for (std::size_t i = 0; i < uses.size(); ++i) {
    const auto& supply = procedure_.supplies[i];
    const auto& now = world.supplies[i];
    const bool asked = std::any_of(left_.begin(), left_.end(), [i](const drill::Leftover& left) {
      return left.supply == SupplyIx{i};
    });
    const bool used = std::any_of(uses[i].begin(), uses[i].end(),
                                  [&](StepIx step) { return is_done(session, step); });
    const bool patient =
        supply.at && procedure_.place(supply.at).kind == procedure::PlaceKind::patient;
    if (asked || !used || patient) continue;
    const bool put = now.state == procedure::SupplyState::discarded ||
                     now.state == procedure::SupplyState::stored ||
                     (supply.ends && now.place == supply.ends);
    (put ? put_ : open_).push_back(supply.name);
  }
}

TurnoverScreen::Outcome TurnoverScreen::handle(const Input& input) {
  if (input.kind == Input::Kind::key) return on_key(input);
  if (input.kind == Input::Kind::press) return on_press({input.x, input.y});
  if (input.kind == Input::Kind::wheel) scroll_at({input.x, input.y}).move(-input.wheel * 60);
  return Outcome::stay;
}

// Of the two lists, the one under the pointer.
Scroll& TurnoverScreen::scroll_at(Point at) {
  if (check_) return page_;
  return where_.contains(at) ? destinations_ : list_;
}

void TurnoverScreen::pass(std::chrono::microseconds real) {
  if (!check_) taken_ += real;
}

TurnoverScreen::Outcome TurnoverScreen::on_key(const Input& input) {
  if (check_) {
    if (input.key == Key::enter || input.key == Key::escape) return Outcome::debrief;
    page_.follow(input.key);
    return Outcome::stay;
  }
  const auto count = left_.size() - cleared_.size();
  switch (input.key) {
    case Key::up:
      row_ = row_ == 0 ? 0 : row_ - 1;
      break;
    case Key::down:
      row_ = std::min(row_ + 1, count - 1);
      break;
    case Key::left:
      destination_ = destination_ == 0 ? 0 : destination_ - 1;
      break;
    case Key::right:
      destination_ = std::min(destination_ + 1, drill::destination_count - 1);
      break;
    case Key::tab:
    case Key::back_tab:
      on_skip_ = !on_skip_;
      break;
    case Key::enter:
    case Key::space:
      if (on_skip_) return Outcome::debrief;
      clear(static_cast<Destination>(destination_));
      break;
    case Key::backspace:
      take_back();
      break;
    case Key::escape:
      on_skip_ = true;
      break;
    case Key::symbol:
      if (input.symbol >= U'1' && input.symbol < U'1' + drill::destination_count)
        clear(static_cast<Destination>(input.symbol - U'1'));
      if (input.symbol == U'd') return Outcome::debrief;
      break;
    default:
      break;
  }
  return Outcome::stay;
}

TurnoverScreen::Outcome TurnoverScreen::on_press(Point at) {
  const int id = hits_.at(at).value_or(-1);
  if (id == id_skip || id == id_debrief) return Outcome::debrief;
  if (id == id_back) take_back();
  if (id >= id_item)
    row_ = static_cast<std::size_t>(id - id_item);
  else if (id >= id_to)
    clear(static_cast<Destination>(id - id_to));
  return Outcome::stay;
}

std::vector<std::size_t> TurnoverScreen::waiting() const {
  std::vector<std::size_t> rest;
  for (std::size_t i = 0; i < left_.size(); ++i)
    if (std::none_of(cleared_.begin(), cleared_.end(),
                     [i](const drill::Cleared& c) { return c.leftover == i; }))
      rest.push_back(i);
  return rest;
}

void TurnoverScreen::clear(Destination to) {
  const auto rest = waiting();
  if (row_ >= rest.size()) return;
  on_skip_ = false;
  destination_ = static_cast<std::size_t>(to);
  cleared_.push_back({rest[row_], to});
  row_ = std::min(row_, rest.size() < 2 ? 0 : rest.size() - 2);
  if (rest.size() == 1) check_ = drill::check_turnover(left_, cleared_);
}

void TurnoverScreen::take_back() {
  if (!cleared_.empty()) cleared_.pop_back();
}

std::string TurnoverScreen::summary(const Strings& t) const {
  if (!check_) return {};
  const auto taken = std::chrono::duration_cast<std::chrono::milliseconds>(taken_);
  return t("turnover.summary",
           {std::to_string(check_->right), std::to_string(left_.size()), clock_text(taken)});
}

std::optional<records::TaskRecord> TurnoverScreen::record() const {
  if (!check_) return std::nullopt;
  records::TaskRecord task{static_cast<int>(check_->right),
                           static_cast<int>(left_.size()),
                           std::chrono::duration_cast<Ms>(taken_),
                           {}};
  const auto name_of = [&](std::size_t i) {
    return procedure_.supply(left_[cleared_[i].leftover].supply).name;
  };
  for (const auto i : check_->wrong) {
    records::TaskRecord::Fault fault{"wrong", {name_of(i), std::string(word(cleared_[i].to))}};
    for (std::size_t d = 0; d < drill::destination_count; ++d)
      if (const auto to = static_cast<Destination>(d); left_[cleared_[i].leftover].goes_to(to))
        fault.about.emplace_back(word(to));
    task.faults.push_back(std::move(fault));
  }
  for (const auto i : check_->sharps_late) task.faults.push_back({"sharps-late", {name_of(i)}});
  return task;
}

void TurnoverScreen::draw(Pen& outer, const Box& box) {
  hits_.clear();
  Pen pen{outer.canvas, outer.theme, outer.t, hits_, outer.pointer};
  if (!check_) return draw_clearing(pen, box);
  page(pen, box, page_, [&](Flow& flow) { write_check(flow, pen.t, pen.ink()); },
       {{pen.t("turnover.debrief"), pen.t("key.enter"), id_debrief, {true, true, true}}});
}

void TurnoverScreen::draw_clearing(Pen& pen, const Box& box) {
  const double gap = pen.px(12), width = box.width - 2 * gap;
  const std::vector<BarButton> buttons{
      {pen.t("turnover.skip"), "D", id_skip, {false, on_skip_, true}},
      {pen.t("turnover.back"), pen.t("key.backspace"), id_back, {false, false, !cleared_.empty()}}};
  const double bar = button_bar_height(pen, width, buttons);
  Flow top(pen, {box.x + gap, box.y + gap}, width);
  top.heading(pen.t("turnover.title"));
  if (newer_) top.text(pen.t("newer.kept"), pen.ink().caution, Weight::bold, TextSize::label);
  top.text(pen.t("turnover.how"), pen.ink().ink_soft, Weight::regular, TextSize::label);
  const double y = top.y + pen.px(8), height = box.bottom() - bar - 2 * gap - y;
  const double half = (width - gap) / 2;
  const Box in = panel(pen, {box.x + gap, y, half, height}).inset(-pen.px(4));
  const double list_top = heading(pen, {in.x, in.y}, in.width, pen.t("turnover.left"));
  const auto rest = waiting();
  std::vector<double> heights;
  for (const auto i : rest)
    heights.push_back(list_row_height(pen, in.width, procedure_.supply(left_[i].supply).name));
  list_view(pen, {in.x, list_top, in.width, in.bottom() - list_top}, list_,
            {std::move(heights), row_, !on_skip_, id_item}, [&](const Box& row, std::size_t i) {
              const auto& supply = procedure_.supply(left_[rest[i]].supply);
              list_line(pen, row, supply.name, Weight::regular, supply.icon);
            });
  draw_destinations(pen, {box.x + 2 * gap + half, y, half, height});
  button_bar(pen, {box.x + gap, box.bottom() - bar - gap, width, bar}, buttons);
}

void TurnoverScreen::draw_destinations(Pen& pen, const Box& box) {
  where_ = box;
  const Box in = panel(pen, box).inset(-pen.px(4));
  const double top = heading(pen, {in.x, in.y}, in.width, pen.t("turnover.where"));
  const auto text_of = [&](std::size_t i) {
    const auto to = static_cast<Destination>(i);
    const auto name = pen.t("turnover." + std::string(word(to)));
    const auto sent = std::count_if(cleared_.begin(), cleared_.end(),
                                    [to](const drill::Cleared& c) { return c.to == to; });
    return sent == 0 ? name : pen.t("turnover.so-far", {name, std::to_string(sent)});
  };
  std::vector<double> heights;
  for (std::size_t i = 0; i < drill::destination_count; ++i)
    heights.push_back(list_row_height(pen, in.width, text_of(i)));
  list_view(
      pen, {in.x, top, in.width, in.bottom() - top}, destinations_,
      {std::move(heights), destination_, false, id_to, true}, [&](const Box& row, std::size_t i) {
        const double x = key_cap(pen, {row.x, row.centre().y}, std::to_string(i + 1)) + pen.px(10);
        list_line(pen, {x, row.y, row.right() - x, row.height}, text_of(i));
      });
}

void TurnoverScreen::write_check(Flow& flow, const Strings& t, const picture::Palette& ink) const {
  flow.heading(t("turnover.checked"));
  if (newer_) flow.text(t("newer.kept"), ink.caution, Weight::bold, TextSize::label);
  flow.text(summary(t), ink.ink);
  flow.text(t("setup.apart"), ink.ink_soft, Weight::regular, TextSize::label);
  flow.text(t("turnover.caution"), ink.caution, Weight::regular, TextSize::label);
  flow.gap(8);
  const auto name_of = [&](std::size_t i) {
    return procedure_.supply(left_[cleared_[i].leftover].supply).name;
  };
  for (const auto i : check_->wrong) {
    const auto& left = left_[cleared_[i].leftover];
    const auto went = t("turnover." + std::string(word(cleared_[i].to)));
    flow.item("!", t("turnover.wrong", {name_of(i), went, words_of(left, t)}), ink.caution,
              Weight::bold);
    flow.under(reason_of(left, t), ink.ink);
  }
  for (const auto i : check_->sharps_late)
    flow.item("!", t("turnover.sharps-late", {name_of(i)}), ink.caution, Weight::bold);
  for (std::size_t i = 0; i < cleared_.size(); ++i) {
    const auto& left = left_[cleared_[i].leftover];
    if (left.goes_to(cleared_[i].to))
      flow.item("✓", t("turnover.right", {name_of(i), words_of(left, t)}), ink.good);
  }
  write_not_asked(flow, t, ink);
}

void TurnoverScreen::write_not_asked(Flow& flow, const Strings& t,
                                     const picture::Palette& ink) const {
  if (put_.empty() && open_.empty()) return;
  flow.gap(8);
  flow.heading(t("turnover.not-asked"));
  if (!put_.empty()) flow.item("•", t("turnover.not-asked.put", {listed(put_)}), ink.ink);
  if (!open_.empty()) flow.item("•", t("turnover.not-asked.open", {listed(open_)}), ink.ink);
}

}  // namespace beforehand::stage
