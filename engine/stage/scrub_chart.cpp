// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/scrub_chart.hpp"

#include <algorithm>
#include <cmath>

#include "picture/chart_layout.hpp"
#include "picture/plan_chart.hpp"

namespace beforehand::stage {
namespace {

constexpr Ms zoom_length{90'000};

}  // namespace

ScrubChart::ScrubChart(picture::ActivityChart chart, picture::ChartWords words)
    : chart_(std::move(chart)) {
  view_.words = std::move(words);
  show_whole();
}

void ScrubChart::show_whole() {
  const auto all = picture::whole(chart_);
  view_.from = all.from;
  view_.to = std::max(all.to, least_end_);
  zoomed_ = false;
}

void ScrubChart::refer_to(const procedure::Procedure& procedure, const timing::Plan& plan) {
  picture::add_planned(chart_, procedure, plan);
  if (!zoomed_) show_whole();
}

void ScrubChart::reach_to(Ms end) {
  least_end_ = end;
  if (!zoomed_) show_whole();
}

void ScrubChart::zoom(Ms around) {
  const bool whole = zoomed_;
  show_whole();
  if (whole) return;
  zoomed_ = true;
  const Ms end = view_.to;
  view_.from = std::clamp(around - zoom_length / 3, Ms{0}, std::max(Ms{0}, end - zoom_length));
  view_.to = std::min(end, view_.from + zoom_length);
}

void ScrubChart::pan(int direction) {
  if (!zoomed_) return;
  const Ms length = view_.to - view_.from;
  const Ms last = std::max(Ms{0}, std::max(end(), least_end_) - length);
  view_.from = std::clamp(view_.from + direction * (length / 3), Ms{0}, last);
  view_.to = view_.from + length;
}

void ScrubChart::follow(Ms moment) {
  if (!zoomed_ || dragging_ || (moment >= view_.from && moment <= view_.to)) return;
  show_whole();
  zoom(moment);
}

Ms ScrubChart::moment_of(double x) const {
  const double share = std::clamp((x - plot_.x) / plot_.width, 0.0, 1.0);
  return view_.from +
         Ms{std::llround(share * static_cast<double>((view_.to - view_.from).count()))};
}

std::optional<Ms> ScrubChart::handle(const Input& input) {
  if (input.kind == Input::Kind::release) dragging_ = false;
  if (input.kind == Input::Kind::press)
    dragging_ = plot_.width > 0 && plot_.contains({input.x, input.y});
  const bool points = input.kind == Input::Kind::press || input.kind == Input::Kind::pointer;
  return points && dragging_ ? std::optional(moment_of(input.x)) : std::nullopt;
}

std::string ScrubChart::going_on(Ms moment) const {
  std::string words;
  for (const auto& lane : chart_.lanes) {
    std::string doing;
    for (const auto& bar : lane.bars)
      if (picture::is_named(bar) && bar.from <= moment && moment < bar.to)
        doing += (doing.empty() ? "" : "; ") + bar.label;
    if (!doing.empty()) words += (words.empty() ? "" : " · ") + lane.name + ": " + doing;
  }
  return words;
}

double ScrubChart::height(const Pen& pen, double width) const {
  return picture::chart_height(pen.canvas, chart_, view_, pen.theme, width);
}

void ScrubChart::draw(Pen& pen, const Box& box, std::optional<Ms> now) {
  chart_.now = now;
  plot_ = picture::lay_out(pen.canvas, chart_, view_, pen.theme, box).plot;
  picture::draw_chart(pen.canvas, chart_, view_, pen.theme, box);
}

}  // namespace beforehand::stage
