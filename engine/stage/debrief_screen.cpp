// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/debrief_screen.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>

#include "base/time.hpp"
#include "picture/chart_build.hpp"
#include "picture/plan_chart.hpp"
#include "picture/text.hpp"
#include "stage/need_lines.hpp"
#include "stage/picture_words.hpp"
#include "stage/widgets.hpp"

namespace beforehand::stage {
namespace {

using scoring::Verdict;

enum Id { id_again, id_fresh, id_home, id_zoom, id_earlier, id_later };

constexpr const char* endings[] = {"debrief.about", "debrief.closed", "debrief.incomplete"};
constexpr Ms zoom_length{90'000};

std::string whole_number(double value) {
  return std::to_string(static_cast<int>(std::lround(value)));
}

// Long times are easier to read without tenths.
std::string time_text(Ms t) {
  return duration_text(t < Ms{60'000} ? t : Ms{(t.count() + 500) / 1000 * 1000});
}

// A row of a table: texts at shares of the width.
void row(Pen& pen, Flow& flow, const std::vector<std::pair<double, std::string>>& cells,
         Colour colour, Weight weight) {
  for (std::size_t i = 0; i < cells.size(); ++i) {
    const double x = flow.x() + flow.width() * cells[i].first;
    const double end = i + 1 < cells.size() ? cells[i + 1].first : 1.0;
    const double room = flow.width() * (end - cells[i].first) - pen.px(8);
    auto style = pen.style(TextSize::label, colour, weight);
    style.level = picture::Level::top;
    pen.canvas.text({x, flow.y},
                    picture::shorten(pen.canvas, cells[i].second, room, style.size, weight), style);
  }
  flow.gap(24);
}

void rule(Pen& pen, Flow& flow) {
  pen.canvas.line({flow.x(), flow.y}, {flow.x() + flow.width(), flow.y},
                  {pen.ink().edge, pen.px(1)});
  flow.gap(5);
}

}  // namespace

DebriefScreen::DebriefScreen(const procedure::Procedure& procedure, const drill::Session& session,
                             PersonIx trainee, std::string saved, std::string problem,
                             const Strings& t)
    : procedure_(procedure),
      trainee_(trainee),
      ending_(session.complete() ? static_cast<Ending>(session.events.back().value) : Ending::left),
      seed_(session.setup.seed),
      saved_(std::move(saved)),
      problem_(std::move(problem)),
      score_(scoring::score(procedure, session, trainee)),
      debrief_(scoring::debrief(procedure, score_)),
      chart_(picture::played_chart(procedure, session, score_)),
      view_(picture::whole(chart_)) {
  view_.words = chart_words(t);
}

void DebriefScreen::refer_to(const timing::Plan& plan) {
  if (!plan.found()) return;
  if (plan.chair_time_proven) {
    score_.reference_chair_time = plan.chair_time;
    score_.reference_proven = true;
  }
  picture::add_planned(chart_, procedure_, plan);
  auto words = std::move(view_.words);
  view_ = picture::whole(chart_);
  view_.words = std::move(words);
  zoomed_ = false;
}

DebriefScreen::Outcome DebriefScreen::handle(const Input& input) {
  if (input.kind == Input::Kind::wheel) scroll_.move(-input.wheel * 60);
  if (input.kind == Input::Kind::press) {
    const int id = hits_.at({input.x, input.y}).value_or(-1);
    if (id == id_again) return Outcome::again;
    if (id == id_fresh) return Outcome::fresh;
    if (id == id_home) return Outcome::home;
    if (id == id_zoom) zoom();
    if (id == id_earlier || id == id_later) pan(id == id_later ? 1 : -1);
  }
  if (input.kind != Input::Kind::key) return Outcome::stay;
  switch (input.key) {
    case Key::enter:
      return Outcome::again;
    case Key::escape:
      return Outcome::home;
    case Key::left:
      pan(-1);
      break;
    case Key::right:
      pan(1);
      break;
    case Key::symbol:
      if (input.symbol == U'n') return Outcome::fresh;
      if (input.symbol == U'z') zoom();
      break;
    default:
      scroll_.follow(input.key);
      break;
  }
  return Outcome::stay;
}

void DebriefScreen::zoom() {
  zoomed_ = !zoomed_;
  auto words = view_.words;
  view_ = picture::whole(chart_);
  view_.words = std::move(words);
  if (zoomed_) view_.to = std::min(view_.to, view_.from + zoom_length);
}

void DebriefScreen::pan(int direction) {
  if (!zoomed_) return;
  const auto all = picture::whole(chart_);
  const Ms length = view_.to - view_.from;
  const Ms last = std::max(all.from, all.to - length);
  view_.from = std::clamp(view_.from + direction * (length / 3), all.from, last);
  view_.to = view_.from + length;
}

void DebriefScreen::draw(Pen& outer, const Box& box) {
  hits_.clear();
  Pen pen{outer.canvas, outer.theme, outer.t, hits_, outer.pointer};
  const double gap = pen.px(12), top = pen.px(132), height = button_height(pen),
               bar = height + 2 * gap;
  draw_totals(pen, {box.x + gap, box.y + gap, box.width - 2 * gap, top});
  const Box view{box.x + gap, box.y + top + 2 * gap, box.width - 2 * gap,
                 box.height - top - bar - 2 * gap};
  pen.canvas.rectangle(view, {pen.ink().card, {pen.ink().edge, pen.px(1)}}, pen.px(10));
  const Box in = view.inset(pen.px(14));
  {
    const picture::Clip clip(pen.canvas, in);
    const double between = pen.px(28), width = in.width - pen.px(14),
                 left_width = (width - between) * 0.42;
    const double start = in.y - scroll_.offset;
    Flow left(pen, {in.x, start}, left_width);
    Flow right(pen, {in.x + left_width + between, start}, width - between - left_width);
    write_points(pen, left, right);
    Flow below(pen, {in.x, std::max(left.y, right.y) + pen.px(12)}, width);
    write_chart(pen, below);
    write_needs(pen, below);
    write_errors(pen, below);
    write_time(pen, below);
    write_saved(pen, below);
    scroll_.view = in.height;
    scroll_.content = below.y - start;
    scroll_.move(0);
  }
  scroll_bar(pen, in, scroll_);
  double x = view.right();
  const auto add = [&](const char* key, std::string_view cap, ButtonLook look, int id) {
    const double width = button_width(pen, pen.t(key), cap);
    x -= width;
    button(pen, {x, box.bottom() - height - gap, width, height}, pen.t(key), cap, look, id);
    x -= gap;
  };
  add("debrief.again", pen.t("key.enter"), {true, true, true}, id_again);
  add("debrief.fresh", "N", {}, id_fresh);
  const double home = button_width(pen, pen.t("debrief.home"), pen.t("key.escape"));
  button(pen, {view.x, box.bottom() - height - gap, home, height}, pen.t("debrief.home"),
         pen.t("key.escape"), {}, id_home);
}

void DebriefScreen::draw_totals(Pen& pen, const Box& box) {
  const auto& ink = pen.ink();
  const auto& t = pen.t;
  const Box in = panel(pen, box);
  std::string verdict = "verdict.";
  verdict.append(scoring::word(score_.verdict));
  const bool good = score_.verdict == Verdict::ready, bad = score_.verdict == Verdict::repeat;
  const Colour soft = good ? ink.good_soft : bad ? ink.danger_soft : ink.caution_soft;
  const Colour strong = good ? ink.good : bad ? ink.danger : ink.caution;
  auto big = pen.style(TextSize::title, ink.accent, Weight::bold);
  big.size = pen.size(TextSize::title);
  big.level = picture::Level::top;
  const auto total = t("debrief.total", {whole_number(score_.total)});
  pen.canvas.text({in.x, in.y - pen.px(2)}, total, big);
  const double total_width = pen.canvas.measure(total, big.size, Weight::bold).width;
  badge(pen, {in.x + total_width + pen.px(16), in.y + pen.px(16)}, t(verdict), soft, strong);
  const auto best = t(score_.reference_proven ? "debrief.best" : "debrief.bound",
                      {time_text(score_.reference_chair_time)});
  const auto sub =
      t(endings[static_cast<int>(ending_)], {procedure_.title, time_text(score_.chair_time), best});
  const double left = in.width * 0.47;
  paragraph(pen, {in.x, in.y + pen.px(40)}, left - pen.px(16), sub, TextSize::label, ink.ink_soft,
            Weight::regular, in.bottom() + pen.px(6));
  const double width = (in.width - left) / 3;
  const auto part = [&](int i, const char* key, double value, const std::string& about) {
    const double x = in.x + left + width * i, inner = width - pen.px(16);
    auto style = pen.style(TextSize::label, ink.ink, Weight::bold);
    style.level = picture::Level::top;
    pen.canvas.text({x, in.y},
                    picture::shorten(pen.canvas, t(key, {whole_number(value * 100)}), inner,
                                     style.size, Weight::bold),
                    style);
    const Box track{x, in.y + pen.px(25), inner, pen.px(14)};
    pen.canvas.rectangle(track, {ink.well, {ink.edge_strong, pen.px(1)}}, pen.px(4));
    if (value > 0.01)
      pen.canvas.rectangle(
          {track.x, track.y, track.width * std::clamp(value, 0.0, 1.0), track.height},
          {ink.accent, {}}, pen.px(4));
    paragraph(pen, {x, in.y + pen.px(45)}, inner, about, TextSize::label, ink.ink_soft,
              Weight::regular, in.bottom() + pen.px(6));
  };
  const auto& time = score_.time[trainee_.at()];
  part(0, "debrief.anticipation", score_.anticipation,
       t("debrief.anticipation.about",
         {std::to_string(score_.requests), time_text(score_.clinician_wait)}));
  part(1, "debrief.idle", score_.idle, t("debrief.idle.about", {time_text(time.avoidable)}));
  part(2, "debrief.sequence", score_.sequence,
       t("debrief.sequence.about",
         {std::to_string(score_.order.kept), std::to_string(score_.order.steps)}));
}

void DebriefScreen::write_points(Pen& pen, Flow& well, Flow& change) const {
  const auto& ink = pen.ink();
  well.heading(pen.t("debrief.well"));
  for (const auto& point : debrief_.well) well.item("✓", point, ink.good);
  if (debrief_.well.empty()) well.item("✓", pen.t("debrief.well.begun"), ink.good);
  change.heading(pen.t("debrief.change"));
  if (debrief_.change.empty()) change.text(pen.t("debrief.change.nothing"), ink.ink);
  for (std::size_t i = 0; i < debrief_.change.size(); ++i) {
    const auto& advice = debrief_.change[i];
    change.item(std::to_string(i + 1), advice.change, ink.ink, Weight::bold);
    change.under(pen.t("debrief.at", {clock_text(advice.first), advice.example}), ink.ink);
    if (!advice.why.empty()) change.under(pen.t("coach.why", {advice.why}), ink.ink_soft);
    if (!advice.instead.empty())
      change.under(pen.t("debrief.instead", {advice.instead}), ink.accent_strong);
  }
}

void DebriefScreen::write_chart(Pen& pen, Flow& flow) {
  flow.heading(pen.t("debrief.chart"));
  const double height = std::max(
      pen.px(220), picture::chart_height(pen.canvas, chart_, view_, pen.theme, flow.width()));
  picture::draw_chart(pen.canvas, chart_, view_, pen.theme,
                      {flow.x(), flow.y, flow.width(), height});
  flow.y += height + pen.px(6);
  double x = flow.x();
  const auto add = [&](const char* key, std::string_view cap, int id, bool enabled) {
    const double width = button_width(pen, pen.t(key), cap);
    button(pen, {x, flow.y, width, pen.px(34)}, pen.t(key), cap, {false, false, enabled}, id);
    x += width + pen.px(8);
  };
  add(zoomed_ ? "debrief.whole" : "debrief.zoom", "Z", id_zoom, true);
  add("debrief.earlier", "←", id_earlier, zoomed_);
  add("debrief.later", "→", id_later, zoomed_);
  flow.gap(50);
}

void DebriefScreen::write_needs(Pen& pen, Flow& flow) const {
  const auto& ink = pen.ink();
  const auto& t = pen.t;
  flow.heading(t("debrief.needs"));
  if (score_.needs.empty()) flow.text(t("debrief.needs.none"), ink.ink_soft);
  if (!score_.needs.empty())
    row(pen, flow,
        {{0.0, t("debrief.column.at")},
         {0.08, t("debrief.column.need")},
         {0.36, t("debrief.column.for")},
         {0.68, t("debrief.column.lead")}},
        ink.ink_soft, Weight::bold);
  for (const auto& need : score_.needs) {
    rule(pen, flow);
    const bool late = !went_well(need);
    const auto lead = lead_text(need, t);
    row(pen, flow,
        {{0.0, clock_text(need.need_at)},
         {0.08, name_of(procedure_, need)},
         {0.36, procedure_.step(need.step).title},
         {0.68, (late ? "✗ " : "✓ ") + lead}},
        late ? ink.danger : ink.ink, Weight::regular);
  }
  flow.gap(12);
}

void DebriefScreen::write_errors(Pen& pen, Flow& flow) const {
  const auto& ink = pen.ink();
  flow.heading(pen.t("debrief.errors"));
  if (score_.errors.empty()) flow.text(pen.t("debrief.errors.none"), ink.good);
  int number = 0;
  for (const auto& error : score_.errors) {
    std::string kind = "error.", severity = "severity.";
    kind.append(scoring::word(error.kind));
    severity.append(procedure::word(error.severity));
    const auto head =
        pen.t("debrief.error", {clock_text(error.at), pen.t(kind), pen.t(severity), error.what});
    flow.item(std::to_string(++number), head,
              error.kind == scoring::ErrorKind::unsafe ? ink.danger : ink.ink);
    if (!error.why.empty()) flow.under(pen.t("coach.why", {error.why}), ink.ink_soft);
    if (!error.instead.empty())
      flow.under(pen.t("debrief.instead", {error.instead}), ink.accent_strong);
  }
  flow.gap(12);
}

void DebriefScreen::write_time(Pen& pen, Flow& flow) const {
  flow.heading(pen.t("debrief.time"));
  for (std::size_t i = 0; i < score_.time.size(); ++i) {
    const auto& time = score_.time[i];
    const auto name = PersonIx{i} == trainee_ ? pen.t("chart.you") : procedure_.people[i].name;
    flow.item("•",
              pen.t("debrief.split",
                    {name, time_text(time.work), time_text(time.cover), time_text(time.waiting),
                     time_text(time.standby), time_text(time.avoidable)}),
              pen.ink().ink);
  }
  flow.gap(12);
}

void DebriefScreen::write_saved(Pen& pen, Flow& flow) const {
  flow.heading(pen.t("debrief.recording"));
  if (!saved_.empty() && problem_.empty())
    flow.text(pen.t("debrief.saved", {saved_}), pen.ink().ink, Weight::regular, TextSize::label);
  if (!told_.empty()) flow.text(told_, pen.ink().ink, Weight::regular, TextSize::label);
  if (!problem_.empty())
    flow.text(pen.t("debrief.not-saved", {problem_}), pen.ink().danger, Weight::bold,
              TextSize::label);
  flow.text(pen.t("debrief.seed", {std::to_string(seed_)}), pen.ink().ink_soft, Weight::regular,
            TextSize::label);
  flow.gap(8);
  flow.text(pen.t("program.caution"), pen.ink().ink_soft, Weight::regular, TextSize::label);
}

}  // namespace beforehand::stage
