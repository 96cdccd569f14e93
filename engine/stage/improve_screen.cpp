// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/improve_screen.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "procedure/texts.hpp"
#include "procedure/title.hpp"
#include "procedure/with_card.hpp"
#include "stage/assistants.hpp"
#include "stage/page.hpp"
#include "stage/scenario_copy.hpp"
#include "stage/widgets.hpp"

namespace beforehand::stage {
namespace {

enum Id { id_home, id_assistant, id_write, id_item = 100 };
constexpr std::size_t runs = 400;

std::string seconds(double s) { return fmt::format("{:.1f} s", s); }

}  // namespace

ImproveScreen::ImproveScreen(procedure::Files files, std::string folder, std::string language)
    : files_(std::move(files)), folder_(std::move(folder)), language_(std::move(language)) {
  search();
}

void ImproveScreen::search() {
  search_.begin([files = files_, language = language_,
                 habit = habit_of(assistant_)](const study::Watch& watch) {
    study::ImproveRequest request;
    request.habit = habit;
    request.runs.count = runs;
    request.runs.threads = 1;  // the frames have the rest
    request.runs.watch = watch;
    request.plan_request = [&watch] {
      timing::PlanRequest plan;
      plan.stopped = watch.stopped;
      return plan;
    };
    auto now = study::planned(procedure::load_as_one(files), request.plan_request());
    if (auto read = procedure::load(files).reading.procedure)  // the same, in the words to show
      now.procedure = procedure::in_language(std::move(*read), files, language).procedure;
    auto all = study::improve(now, request);
    return Found{std::move(now), std::move(all)};
  });
}

void ImproveScreen::settle() {
  search_.wait();
  pass();
}

void ImproveScreen::pass() {
  try {
    if (auto found = search_.take()) {
      found_ = std::move(found);
      taken_.assign(found_->all.found.size(), false);
    }
  } catch (const std::exception& e) {
    problem_ = e.what();
  }
}

// What saves time with a slow assistant is not what saves it with an expert: all is looked at anew.
void ImproveScreen::change_assistant() {
  if (!copy_.empty()) return;
  search_.stop();
  search_.wait();
  pass();
  found_.reset();
  problem_.clear();
  taken_.clear();
  assistant_ = (assistant_ + 1) % assistant_count;
  search();
}

void ImproveScreen::choose(std::size_t number) {
  if (number < taken_.size() && copy_.empty()) taken_[number].flip();
}

void ImproveScreen::write() {
  if (std::none_of(taken_.begin(), taken_.end(), [](bool t) { return t; })) return;
  std::vector<study::Change> changes;
  for (std::size_t i = 0; i < taken_.size(); ++i)
    if (taken_[i]) changes.push_back(found_->all.found[i].change);
  try {
    copy_ = write_copy(folder_, study::applied(found_->now.yaml, changes), files_);
  } catch (const std::exception& e) {
    problem_ = e.what();
  }
}

// First into a copy, then the copy beside the original.
ImproveScreen::Outcome ImproveScreen::go_on() {
  if (!copy_.empty()) return Outcome::compare;
  write();
  return Outcome::stay;
}

ImproveScreen::Outcome ImproveScreen::handle(const Input& input) {
  if (input.kind == Input::Kind::wheel) scroll_.move(-input.wheel * 60);
  if (input.kind == Input::Kind::press) {
    const int id = hits_.at({input.x, input.y}).value_or(-1);
    if (id == id_home) return Outcome::home;
    if (id == id_write) return go_on();
    if (id == id_assistant) change_assistant();
    if (id >= id_item) choose(static_cast<std::size_t>(id - id_item));
  }
  if (input.kind != Input::Kind::key) return Outcome::stay;
  if (input.key == Key::escape) return Outcome::home;
  if (input.key == Key::enter) return go_on();
  if (input.key == Key::symbol && input.symbol == U'a') change_assistant();
  if (input.key == Key::symbol && input.symbol >= U'1' && input.symbol <= U'9')
    choose(input.symbol - U'1');
  scroll_.follow(input.key);
  return Outcome::stay;
}

void ImproveScreen::draw(Pen& outer, const Box& box) {
  hits_.clear();
  Pen pen{outer.canvas, outer.theme, outer.t, hits_, outer.pointer};
  const bool any = std::any_of(taken_.begin(), taken_.end(), [](bool t) { return t; });
  page(pen, box, scroll_, [&](Flow& flow) { write_list(pen, flow); },
       {{pen.t("debrief.home"), pen.t("key.escape"), id_home},
        {pen.t("improve.by", {assistant_text(assistant_, pen.t)}),
         "A",
         id_assistant,
         {false, false, copy_.empty()}},
        {pen.t(copy_.empty() ? "improve.write" : "improve.compare"),
         pen.t("key.enter"),
         id_write,
         {true, any, any}}});
}

void ImproveScreen::write_list(Pen& pen, Flow& flow) {
  const auto& ink = pen.ink();
  const auto& t = pen.t;
  flow.heading(t("improve.title"));
  if (found_) flow.text(procedure::full_title(found_->now.procedure), ink.ink, Weight::bold);
  flow.text(t("improve.about"), ink.ink_soft);
  if (materials_) flow.text(t("protocols.materials"), ink.caution);
  if (!problem_.empty()) flow.text(problem_, ink.danger);
  if (!copy_.empty()) flow.text(t("improve.written", {copy_}), ink.good, Weight::bold);
  flow.gap(8);
  if (!found_) {
    if (!problem_.empty()) return;
    const auto done = search_.done(), of = search_.of();
    flow.text(of == 0 ? t("improve.planning")
                      : t("improve.looking", {std::to_string(done), std::to_string(of)}),
              ink.ink);
    flow.gap(6);
    progress_bar(pen, {flow.x(), flow.y, flow.width(), pen.px(18)},
                 of == 0 ? 0 : static_cast<double>(done) / static_cast<double>(of));
    flow.gap(18);
    return;
  }
  const auto& all = found_->all;
  if (all.found.empty()) flow.text(t("improve.none", {std::to_string(all.looked_at)}), ink.ink);
  for (std::size_t i = 0; i < all.found.size(); ++i) {
    const auto& one = all.found[i];
    const double top = flow.y;
    flow.item(taken_[i] ? "✓" : std::to_string(i + 1), one.change.words,
              taken_[i] ? ink.accent_strong : ink.ink, taken_[i] ? Weight::bold : Weight::regular);
    flow.under(t("improve.saves", {seconds(to_seconds(one.plan_gain)), seconds(one.gain_s()),
                                   seconds(one.chair_time.b_less_a.mean_sure.half_width())}),
               ink.ink);
    flow.under(one.change.caution, ink.caution);
    pen.hits.add({flow.x(), top, flow.width(), flow.y - top}, id_item + static_cast<int>(i));
    flow.gap(6);
  }
}

}  // namespace beforehand::stage
