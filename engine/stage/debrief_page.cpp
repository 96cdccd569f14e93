// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// The debrief's page.
#include <algorithm>
#include <cmath>

#include "base/time.hpp"
#include "picture/text.hpp"
#include "procedure/title.hpp"
#include "stage/debrief_ids.hpp"
#include "stage/debrief_screen.hpp"
#include "stage/need_lines.hpp"
#include "stage/replay_moments.hpp"
#include "stage/widgets.hpp"

namespace beforehand::stage {
namespace {

using namespace debrief_ids;
using scoring::Verdict;

constexpr const char* endings[] = {"debrief.about", "debrief.closed", "debrief.incomplete"};

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

// Below what is written already.
ButtonRow row_in(Pen& pen, const Flow& flow) {
  return {pen, flow.x(), flow.y, pen.px(34), pen.px(8)};
}

}  // namespace

void DebriefScreen::draw(Pen& outer, const Box& box) {
  if (watching_) return watching_->draw(outer, box);
  hits_.clear();
  Pen pen{outer.canvas, outer.theme, outer.t, hits_, outer.pointer};
  const double gap = pen.px(12), top = pen.px(132), bar = button_height(pen) + 2 * gap;
  draw_totals(pen, {box.x + gap, box.y + gap, box.width - 2 * gap, top});
  const Box view{box.x + gap, box.y + top + 2 * gap, box.width - 2 * gap,
                 box.height - top - bar - 2 * gap};
  pen.canvas.rectangle(view, {pen.ink().card, {pen.ink().edge, pen.px(1)}}, pen.px(10));
  const Box in = view.inset(pen.px(14));
  {
    const picture::Clip clip(pen.canvas, in);
    draw_page(pen, in);
  }
  scroll_bar(pen, in, scroll_);
  draw_buttons(pen, {view.x, box.bottom() - bar, view.width, bar});
  if (!to_marked_) return;
  to_marked_ = false;
  scroll_.offset = std::max(0.0, target_top_ - pen.px(60));
  scroll_.move(0);
  draw(outer, box);
}

// What can be pressed lies inside the view only.
void DebriefScreen::draw_page(Pen& outer, const Box& in) {
  Hits page;
  Pen pen{outer.canvas, outer.theme, outer.t, page, outer.pointer};
  const double between = pen.px(28), width = in.width - pen.px(14);
  const double left_width = (width - between) * 0.36;
  scroll_.view = in.height;
  page_top_ = in.y - scroll_.offset;
  Flow above(pen, {in.x, page_top_}, width);
  if (newer_) above.text(pen.t("newer.next"), pen.ink().caution, Weight::bold, TextSize::label);
  write_stretch(pen, above);
  write_chart(pen, above);
  Flow left(pen, {in.x, above.y}, left_width);
  Flow right(pen, {in.x + left_width + between, above.y}, width - between - left_width);
  write_points(pen, left, right);
  Flow below(pen, {in.x, std::max(left.y, right.y) + pen.px(12)}, width);
  write_earlier(pen, below);
  write_errors(pen, below);
  write_needs(pen, below);
  write_time(pen, below);
  write_saved(pen, below);
  scroll_.content = below.y - page_top_;
  scroll_.move(0);
  page.inside(in, hits_);
}

void DebriefScreen::draw_buttons(Pen& pen, const Box& box) {
  const double height = button_height(pen), y = box.centre().y - height / 2, gap = pen.px(12);
  const auto& t = pen.t;
  ButtonRow on{pen, box.right(), y, height, gap, true}, back{pen, box.x, y, height, gap};
  back.add(t(stored_ ? "review.back" : "debrief.home"), t("key.escape"), id_home);
  if (!plays_) return;
  on.add(t("debrief.again"), marked_ ? "" : t("key.enter"), id_again, {!marked_, !marked_, true});
  on.add(t("debrief.fresh"), "N", id_fresh);
  if (const auto phase = next_stretch())
    on.add(t("debrief.try", {procedure_.phases[phase.at()].title}), "T", id_stretch);
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
  const auto sub = t(endings[static_cast<int>(ending_)],
                     {full_title(procedure_), time_text(score_.chair_time), best});
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

void DebriefScreen::begin_target(Pen& pen, const Flow& flow, std::size_t target) {
  if (marked_ != target) return;
  if (to_marked_) target_top_ = flow.y - page_top_;
  pen.canvas.rectangle({flow.x() - pen.px(6), flow.y - pen.px(2), pen.px(4), pen.px(24)},
                       {pen.ink().accent, {}}, pen.px(2));
}

// A line that says what can be done about it, pressed or by key.
void DebriefScreen::write_ways(Pen& pen, Flow& flow, std::size_t target) {
  const double height = pen.px(32), gap = pen.px(8);
  double x = flow.x() + pen.px(26);
  const bool here = marked_ == target;
  const auto add = [&](const std::string& label, std::string_view cap, int id) {
    const double room = flow.x() + flow.width() - x;
    const double width = std::min(room, button_width(pen, label, cap));
    button(pen, {x, flow.y, width, height}, label, cap,
           {here && id < id_try, here && id < id_try, true}, id);
    x += width + gap;
  };
  flow.gap(2);
  add(pen.t("debrief.see"), here ? pen.t("key.enter") : std::string(),
      id_see + static_cast<int>(target));
  const bool change = plays_ && target < debrief_.change.size();
  if (const auto phase = phase_of(target); phase && change)
    add(pen.t("debrief.try", {procedure_.phases[phase.at()].title}), here ? "T" : "",
        id_try + static_cast<int>(target));
  flow.gap(40);
}

void DebriefScreen::write_points(Pen& pen, Flow& well, Flow& change) {
  const auto& ink = pen.ink();
  well.heading(pen.t("debrief.well"));
  for (const auto& point : debrief_.well) well.item("✓", point, ink.good);
  if (debrief_.well.empty()) well.item("✓", pen.t("debrief.well.begun"), ink.good);
  change.heading(pen.t("debrief.change"));
  if (debrief_.change.empty()) change.text(pen.t("debrief.change.nothing"), ink.ink);
  for (std::size_t i = 0; i < debrief_.change.size(); ++i) {
    const auto& advice = debrief_.change[i];
    begin_target(pen, change, i);
    change.item(std::to_string(i + 1), advice.change, ink.ink, Weight::bold);
    change.under(pen.t("debrief.at", {clock_text(advice.first), advice.example}), ink.ink);
    if (!advice.why.empty()) change.under(pen.t("coach.why", {advice.why}), ink.ink_soft);
    if (!advice.instead.empty() && advice.instead != advice.change)
      change.under(pen.t("debrief.instead", {advice.instead}), ink.accent_strong);
    write_ways(pen, change, i);
  }
}

void DebriefScreen::write_stretch(Pen& pen, Flow& flow) {
  if (!tried_) return;
  const auto& t = pen.t;
  const auto& title = procedure_.phases[tried_->phase.at()].title;
  flow.heading(t("debrief.stretch", {title}));
  if (!tried_->complete) flow.text(t("debrief.stretch.left"), pen.ink().caution, Weight::bold);
  write_comparison(pen, flow, t("debrief.stretch.now", {std::to_string(tried_->times)}),
                   {{t("debrief.stretch.then"), compared(tried_->now, tried_->then, t)}});
  if (!tried_->still.empty())
    flow.item("→", t("debrief.stretch.still", {tried_->still}), pen.ink().ink);
  else if (tried_->complete)
    flow.item("✓", t("debrief.stretch.clean"), pen.ink().good);
  row_in(pen, flow).add(t("debrief.stretch.watch"), "V", id_watch_stretch);
  flow.gap(50);
}

void DebriefScreen::write_chart(Pen& pen, Flow& flow) {
  flow.heading(pen.t("debrief.chart"));
  chart_.view().legend = scroll_.view > pen.px(560);  // in a small window the words come first
  const double height = std::max(pen.px(180), chart_.height(pen, flow.width()));
  if (watched_) chart_.view().words.now = clock_text(*watched_);
  chart_.draw(pen, {flow.x(), flow.y, flow.width(), height}, watched_);
  pen.hits.add(chart_.plot(), id_chart);
  flow.y += height + pen.px(6);
  const ButtonLook along{false, false, chart_.zoomed()};
  auto row = row_in(pen, flow);
  row.add(pen.t("debrief.watch"), "W", id_watch);
  row.add(pen.t(chart_.zoomed() ? "debrief.whole" : "debrief.zoom"), "Z", id_zoom);
  row.add(pen.t("debrief.earlier"), "←", id_earlier, along);
  row.add(pen.t("debrief.later"), "→", id_later, along);
  auto style = pen.style(TextSize::label, pen.ink().ink_soft);
  style.level = picture::Level::middle;
  if (const double room = flow.x() + flow.width() - row.x; room > pen.px(60))
    pen.canvas.text({row.x, flow.y + pen.px(17)},
                    picture::shorten(pen.canvas, pen.t("debrief.chart.press"), room, style.size),
                    style);
  flow.gap(48);
}

void DebriefScreen::write_earlier(Pen& pen, Flow& flow) const {
  if (earlier_.empty() && !first_attempt_) return;
  flow.heading(pen.t("debrief.compared"));
  if (earlier_.empty()) {
    flow.text(pen.t("debrief.compared.first"), pen.ink().ink_soft);
    flow.gap(12);
  }
  write_comparison(pen, flow, pen.t("debrief.compared.now"), earlier_);
  auto row = row_in(pen, flow);
  if (!last_.empty()) row.add(pen.t("debrief.beside.last"), "L", id_last);
  if (!best_.empty() && best_ != last_) row.add(pen.t("debrief.beside.best"), "B", id_best);
  if (!earlier_.empty()) flow.gap(48);
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

void DebriefScreen::write_errors(Pen& pen, Flow& flow) {
  const auto& ink = pen.ink();
  flow.heading(pen.t("debrief.errors"));
  if (score_.errors.empty()) flow.text(pen.t("debrief.errors.none"), ink.good);
  for (std::size_t i = 0; i < score_.errors.size(); ++i) {
    const auto& error = score_.errors[i];
    const auto target = debrief_.change.size() + i;
    const bool unsafe = error.kind == scoring::ErrorKind::unsafe;
    const double top = flow.y;
    begin_target(pen, flow, target);
    flow.item(std::to_string(i + 1),
              pen.t("debrief.error", {clock_text(error.at), error_line(error, pen.t)}),
              unsafe ? ink.danger : ink.ink, marked_ == target ? Weight::bold : Weight::regular);
    const auto words = words_under(procedure_, error, pen.t);
    if (!words.why.empty()) flow.under(words.why, ink.ink_soft);
    if (!words.instead.empty()) flow.under(words.instead, ink.accent_strong);
    if (!words.followed.empty()) flow.under("→ " + words.followed, ink.ink);
    pen.hits.add({flow.x(), top, flow.width(), flow.y - top}, id_see + static_cast<int>(target));
    if (marked_ == target) write_ways(pen, flow, target);
  }
  if (!score_.errors.empty())
    flow.text(pen.t("debrief.errors.press"), ink.ink_soft, Weight::regular, TextSize::label);
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
  if (!around_.empty()) flow.heading(pen.t("debrief.around"));
  for (const auto& line : around_) flow.item("•", line, pen.ink().ink);
  flow.heading(pen.t("debrief.recording"));
  if (!saved_.empty() && problem_.empty())
    flow.text(pen.t("debrief.saved", {saved_}), pen.ink().ink, Weight::regular, TextSize::label);
  if (!told_.empty()) flow.text(told_, pen.ink().ink, Weight::regular, TextSize::label);
  if (!problem_.empty())
    flow.text(pen.t("debrief.not-saved", {problem_}), pen.ink().danger, Weight::bold,
              TextSize::label);
  flow.text(pen.t("debrief.seed", {std::to_string(session_.setup.seed)}), pen.ink().ink_soft,
            Weight::regular, TextSize::label);
  flow.gap(8);
  flow.text(pen.t("program.caution"), pen.ink().ink_soft, Weight::regular, TextSize::label);
}

}  // namespace beforehand::stage
