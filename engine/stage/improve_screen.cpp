// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/improve_screen.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <fstream>

#include "procedure/edit.hpp"
#include "procedure/reader.hpp"
#include "stage/page.hpp"
#include "stage/widgets.hpp"

namespace beforehand::stage {
namespace {

enum Id { id_home, id_write, id_item = 100 };
constexpr std::size_t runs = 400;

template <class T>
bool ready(const std::future<T>& f) {
  return f.valid() && f.wait_for(std::chrono::seconds(0)) == std::future_status::ready;
}

std::string seconds(double s) { return fmt::format("{:.1f} s", s); }

}  // namespace

ImproveScreen::ImproveScreen(std::string file, std::string folder)
    : file_(std::move(file)), folder_(std::move(folder)) {
  search_ = std::async(std::launch::async, [this] {
    study::ImproveRequest request;
    request.runs.count = runs;
    request.runs.threads = 1;  // the frames have the rest
    request.runs.watch.stopped = [this] { return stopped_.load(); };
    request.runs.watch.progress = [this](std::size_t done, std::size_t of) {
      done_ = done;
      of_ = of;
    };
    request.plan_request = [this] {
      timing::PlanRequest plan;
      plan.stopped = [this] { return stopped_.load(); };
      return plan;
    };
    auto now = study::planned(procedure::load_text(file_), request.plan_request());
    auto all = study::improve(now, request);
    return Found{std::move(now), std::move(all)};
  });
}

ImproveScreen::~ImproveScreen() {
  stopped_ = true;
  if (search_.valid()) search_.wait();
  if (trial_.valid()) trial_.wait();
}

void ImproveScreen::settle() {
  if (search_.valid()) search_.wait();
  pass();
  if (trial_.valid()) trial_.wait();
  pass();
}

void ImproveScreen::pass() {
  try {
    if (ready(search_)) {
      found_ = search_.get();
      taken_.assign(found_->all.found.size(), false);
    }
    if (ready(trial_)) tried_ = trial_.get();
  } catch (const std::exception& e) {
    problem_ = e.what();
  }
}

void ImproveScreen::choose(std::size_t number) {
  if (number < taken_.size() && copy_.empty()) taken_[number].flip();
}

// A folder of its own beside the others, with an id that no other has.
void ImproveScreen::write() {
  namespace fs = std::filesystem;
  if (!copy_.empty() || std::none_of(taken_.begin(), taken_.end(), [](bool t) { return t; }))
    return;
  std::vector<study::Change> changes;
  for (std::size_t i = 0; i < taken_.size(); ++i)
    if (taken_[i]) changes.push_back(found_->all.found[i].change);
  const auto& p = found_->now.procedure;
  std::error_code failed;
  int number = 2;
  while (fs::exists(fs::path(folder_) / fmt::format("{}-{}", p.id, number), failed)) ++number;
  const auto id = fmt::format("{}-{}", p.id, number);
  try {
    auto text = study::applied(found_->now.yaml, changes);
    text = procedure::with_value(text, "id", id);
    text = procedure::with_value(text, "title",
                                 procedure::yaml_text(fmt::format("{} ({})", p.title, number)));
    if (!procedure::read(text).procedure) throw procedure::EditError("these do not go together");
    fs::create_directories(fs::path(folder_) / id);
    const auto file = (fs::path(folder_) / id / "scenario.yaml").string();
    std::ofstream out(file, std::ios::binary);
    out << text << std::flush;
    if (!out) throw std::runtime_error(file);
    copy_ = file;
    try_out();
  } catch (const std::exception& e) {
    problem_ = e.what();
  }
}

void ImproveScreen::try_out() {
  trial_ = std::async(std::launch::async, [this] {
    timing::PlanRequest plan;
    plan.stopped = [this] { return stopped_.load(); };
    auto then = study::planned(procedure::load_text(copy_), plan);
    study::CompareRequest request;
    request.runs.count = 2000;
    request.runs.threads = 1;
    request.runs.watch.stopped = plan.stopped;
    auto c = study::compare(found_->now.procedure, then.procedure, {}, request);
    return Trial{std::move(then), std::move(c)};
  });
}

ImproveScreen::Outcome ImproveScreen::handle(const Input& input) {
  if (input.kind == Input::Kind::wheel) scroll_.move(-input.wheel * 60);
  if (input.kind == Input::Kind::press) {
    const int id = hits_.at({input.x, input.y}).value_or(-1);
    if (id == id_home) return Outcome::home;
    if (id == id_write) write();
    if (id >= id_item) choose(static_cast<std::size_t>(id - id_item));
  }
  if (input.kind != Input::Kind::key) return Outcome::stay;
  if (input.key == Key::escape) return Outcome::home;
  if (input.key == Key::enter) write();
  if (input.key == Key::symbol && input.symbol >= U'1' && input.symbol <= U'9')
    choose(input.symbol - U'1');
  scroll_.follow(input.key);
  return Outcome::stay;
}

void ImproveScreen::draw(Pen& outer, const Box& box) {
  hits_.clear();
  Pen pen{outer.canvas, outer.theme, outer.t, hits_, outer.pointer};
  const bool any = std::any_of(taken_.begin(), taken_.end(), [](bool t) { return t; });
  page(pen, box, scroll_,
       [&](Flow& flow) {
         write_list(pen, flow);
         write_trial(pen, flow);
       },
       {{pen.t("debrief.home"), pen.t("key.escape"), id_home},
        {pen.t("improve.write"), pen.t("key.enter"), id_write, {true, any, any && copy_.empty()}}});
}

void ImproveScreen::write_list(Pen& pen, Flow& flow) {
  const auto& ink = pen.ink();
  const auto& t = pen.t;
  flow.heading(t("improve.title"));
  flow.text(t("improve.about"), ink.ink_soft);
  if (!problem_.empty()) flow.text(problem_, ink.danger);
  flow.gap(8);
  if (!found_) {
    if (problem_.empty())
      flow.text(t("improve.looking", {std::to_string(done_), std::to_string(of_)}), ink.ink);
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

void ImproveScreen::write_trial(Pen& pen, Flow& flow) const {
  if (copy_.empty()) return;
  const auto& ink = pen.ink();
  flow.gap(8);
  flow.heading(pen.t("improve.written", {copy_}));
  if (!tried_) {
    if (problem_.empty()) flow.text(pen.t("improve.trying"), ink.ink);
    return;
  }
  const auto& plan = tried_->then.plan;
  flow.text(pen.t("improve.plans",
                  {duration_text(found_->now.plan.chair_time), duration_text(plan.chair_time)}),
            ink.ink);
  for (const auto m : {study::Measure::chair_time, study::Measure::clinician_wait}) {
    const auto& d = tried_->comparison[m];
    flow.item(
        "•",
        pen.t(
            m == study::Measure::chair_time ? "improve.chair" : "improve.wait",
            {seconds(d.a.mean), seconds(d.b.mean), fmt::format("{:+.1f} s", d.b_less_a.mean),
             seconds(d.b_less_a.mean_sure.half_width()), fmt::format("{:.0f}", 100 * d.b_better)}),
        ink.ink);
  }
}

}  // namespace beforehand::stage
