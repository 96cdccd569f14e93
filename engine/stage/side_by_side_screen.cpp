// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/side_by_side_screen.hpp"

#include <algorithm>

#include "base/time.hpp"
#include "picture/chart_build.hpp"
#include "stage/picture_words.hpp"
#include "stage/widgets.hpp"

namespace beforehand::stage {
namespace {

enum Id { id_back, id_first, id_second, id_zoom, id_view };

}  // namespace

SideBySideScreen::Side::Side(Played p, const Strings& t)
    : played(std::move(p)),
      score(scoring::score(*played.procedure, played.session, played.trainee())),
      chart(picture::played_chart(*played.procedure, played.session, score, t), chart_words(t)) {
  chart.view().legend = chart.view().shares = false;
}

SideBySideScreen::SideBySideScreen(Played first, Played second, const Strings& t,
                                   const std::string& back)
    : t_(t),
      back_(back),
      sides_{Side(std::move(first), t), Side(std::move(second), t)},
      needs_(differences(sides_[0].played, sides_[0].score, sides_[1].played, sides_[1].score, t)) {
  const Ms end = std::max(sides_[0].chart.end(), sides_[1].chart.end());
  for (auto& side : sides_) side.chart.reach_to(end);
}

void SideBySideScreen::point(Ms moment) {
  const Ms end = std::max(sides_[0].score.chair_time, sides_[1].score.chair_time);
  moment_ = std::clamp(moment, Ms{0}, end);
  for (auto& side : sides_) side.chart.follow(moment_);
}

void SideBySideScreen::zoom() {
  for (auto& side : sides_) side.chart.zoom(moment_);
}

void SideBySideScreen::watch(std::size_t side) {
  watching_ = std::make_unique<ReplayScreen>(sides_[side].played, t_, t_("compare.back"));
  watching_->show(moment_);
}

SideBySideScreen::Outcome SideBySideScreen::handle(const Input& input) {
  if (watching_) {
    if (watching_->handle(input) == ReplayScreen::Outcome::back) {
      point(watching_->now());
      watching_.reset();
    }
    return Outcome::stay;
  }
  for (auto& side : sides_)
    if (const auto moment = charts_shown_ || !compact_ ? side.chart.handle(input) : std::nullopt)
      point(*moment);
  if (input.kind == Input::Kind::wheel) scroll_.move(-input.wheel * 60);
  if (input.kind == Input::Kind::press) {
    const int id = hits_.at({input.x, input.y}).value_or(-1);
    if (id == id_back) return Outcome::back;
    if (id == id_first || id == id_second) watch(id == id_second ? 1 : 0);
    if (id == id_zoom) zoom();
    if (id >= id_view) charts_shown_ = id > id_view;
  }
  return input.kind == Input::Kind::key ? on_key(input) : Outcome::stay;
}

SideBySideScreen::Outcome SideBySideScreen::on_key(const Input& input) {
  switch (input.key) {
    case Key::escape:
      return Outcome::back;
    case Key::left:
      move(Ms{-1000});
      break;
    case Key::right:
      move(Ms{1000});
      break;
    case Key::enter:
      watch(0);
      break;
    case Key::symbol:
      if (input.symbol == U'1' || input.symbol == U'2') watch(input.symbol == U'2' ? 1 : 0);
      if (input.symbol == U'z') zoom();
      if (input.symbol == U'v' && compact_) charts_shown_ = !charts_shown_;
      break;
    default:
      scroll_.follow(input.key);
      break;
  }
  return Outcome::stay;
}

void SideBySideScreen::pass(std::chrono::microseconds real) {
  if (watching_) watching_->pass(real);
}

std::string SideBySideScreen::name_of(const Side& side, std::size_t position) const {
  std::string name = std::to_string(position + 1);
  for (const auto& part : {side.played.who, side.played.when})
    if (!part.empty()) name += " · " + part;
  return name;
}

void SideBySideScreen::draw(Pen& outer, const Box& box) {
  if (watching_) return watching_->draw(outer, box);
  hits_.clear();
  Pen pen{outer.canvas, outer.theme, outer.t, hits_, outer.pointer};
  compact_ = is_compact(pen, box);
  const auto bar = buttons(pen);
  const double gap = pen.px(compact_ ? 8 : 12), width = box.width - 2 * gap;
  const double foot = button_bar_height(pen, width, bar);
  Box in{box.x + gap, box.y + gap, width, box.height - foot - 3 * gap};
  button_bar(pen, {in.x, in.bottom() + gap, width, foot}, bar);
  if (compact_) {  // figures and charts take turns
    const double tabs = pen.px(30), cap = key_cap(pen, {in.x, in.y + tabs / 2}, "V") + gap;
    switcher(pen, {cap, in.y, in.right() - cap, tabs},
             {pen.t("view.figures"), pen.t("view.charts")}, charts_shown_ ? 1 : 0, false, id_view);
    in = {in.x, in.y + tabs + gap, in.width, in.height - tabs - gap};
    return charts_shown_ ? draw_charts(pen, in) : draw_words(pen, in, true);
  }
  // Where there is room the bars are so high that a label has two lines.
  double charts = 2 * pen.px(34 + 20);
  for (const auto& side : sides_) charts += 1.35 * side.chart.height(pen, box.width - 4 * gap);
  charts = std::min(charts, in.height * 0.58);
  draw_words(pen, {in.x, in.y, in.width, in.height - charts - gap}, false);
  draw_charts(pen, {in.x, in.bottom() - charts, in.width, charts});
}

// Side by side where there is room, else one below the other.
void SideBySideScreen::draw_words(Pen& pen, const Box& view, bool compact) {
  const Box in = panel(pen, view);
  {
    const picture::Clip clip(pen.canvas, in);
    const double between = pen.px(28), width = in.width - pen.px(14);
    const double left_width = compact ? width : (width - between) * 0.52,
                 start = in.y - scroll_.offset;
    Flow left(pen, {in.x, start}, left_width);
    write_figures(pen, left);
    if (compact) left.gap(10);
    const double x = compact ? in.x : in.x + left_width + between;
    Flow right(pen, {x, compact ? left.y : start}, in.x + width - x);
    write_needs(pen, right);
    right.gap(6);
    right.text(t_("compare.keys"), pen.ink().ink_soft, Weight::regular, TextSize::label);
    scroll_.view = in.height;
    scroll_.content = std::max(left.y, right.y) - start;
    scroll_.move(0);
  }
  scroll_bar(pen, in, scroll_);
}

void SideBySideScreen::write_figures(Pen& pen, Flow& flow) const {
  flow.heading(sides_[0].played.procedure->title);
  if (sides_[0].played.procedure->id != sides_[1].played.procedure->id)
    flow.text(t_("compare.other", {sides_[1].played.procedure->title}), pen.ink().caution,
              Weight::bold, TextSize::label);
  write_comparison(pen, flow, name_of(sides_[0], 0),
                   {{name_of(sides_[1], 1),
                     compared(figures_of(sides_[0].score), figures_of(sides_[1].score), t_)}});
}

// Only what went differently: the rest is the same in both.
void SideBySideScreen::write_needs(Pen& pen, Flow& flow) const {
  flow.heading(t_("compare.needs"));
  for (const auto& need : needs_) {
    flow.item("•", need.need, pen.ink().ink);
    flow.under(t_("compare.both", {need.first, need.second}), pen.ink().ink_soft);
  }
  if (needs_.empty()) flow.text(t_("compare.needs.same"), pen.ink().ink_soft);
}

void SideBySideScreen::draw_charts(Pen& pen, const Box& box) {
  const auto& ink = pen.ink();
  const double each = box.height / 2;
  for (std::size_t i = 0; i < sides_.size(); ++i) {
    const Box ground{box.x, box.y + each * static_cast<double>(i), box.width, each - pen.px(4)};
    pen.canvas.rectangle(ground, {ink.card, {ink.edge, pen.px(1)}}, pen.px(10));
    const Box in = ground.inset(pen.px(6));
    const double named = paragraph(pen, {in.x, in.y}, in.width, name_of(sides_[i], i),
                                   TextSize::label, ink.ink, Weight::bold);
    const double said = paragraph(pen, {in.x, named}, in.width, sides_[i].chart.going_on(moment_),
                                  TextSize::label, ink.ink);
    // Two lines are kept free where they may be needed: the chart is not to jump.
    const double top = std::max(said, named + pen.px(compact_ ? 40 : 20)) + pen.px(2);
    sides_[i].chart.view().words.now = clock_text(moment_);
    sides_[i].chart.draw(pen, {in.x, top, in.width, in.bottom() - top}, moment_);
  }
}

std::vector<BarButton> SideBySideScreen::buttons(const Pen& pen) const {
  return {{back_, pen.t("key.escape"), id_back},
          {t_(sides_[0].chart.zoomed() ? "debrief.whole" : "debrief.zoom"), "Z", id_zoom},
          {t_("compare.watch", {"2"}), "2", id_second},
          {t_("compare.watch", {"1"}), "1", id_first, {true, false, true}}};
}

}  // namespace beforehand::stage
