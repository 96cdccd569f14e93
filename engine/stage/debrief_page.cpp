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

// A row of a table: texts at shares of the width, in as many lines as they need.
void row(Pen& pen, Flow& flow, const std::vector<std::pair<double, std::string>>& cells,
         Colour colour, Weight weight) {
  double bottom = flow.y + pen.px(24);
  for (std::size_t i = 0; i < cells.size(); ++i) {
    const double x = flow.x() + flow.width() * cells[i].first;
    const double end = i + 1 < cells.size() ? cells[i + 1].first : 1.0;
    const double room = flow.width() * (end - cells[i].first) - pen.px(8);
    bottom = std::max(bottom, paragraph(pen, {x, flow.y}, room, cells[i].second, TextSize::label,
                                        colour, weight) +
                                  pen.px(4));
  }
  flow.y = bottom;
}

void rule(Pen& pen, Flow& flow) {
  pen.canvas.line({flow.x(), flow.y}, {flow.x() + flow.width(), flow.y},
                  {pen.ink().edge, pen.px(1)});
  flow.gap(5);
}

}  // namespace

void DebriefScreen::draw(Pen& outer, const Box& box) {
  if (watching_) return watching_->draw(outer, box);
  hits_.clear();
  Pen pen{outer.canvas, outer.theme, outer.t, hits_, outer.pointer};
  narrow_ = box.width < pen.px(1100) || box.height < pen.px(620);
  const double gap = pen.px(12), width = box.width - 2 * gap, totals = narrow_ ? 0 : pen.px(132);
  const auto buttons = buttons_for(pen, width);
  const double bar = button_bar_height(pen, width, buttons) + 2 * gap;
  if (!narrow_) draw_totals(pen, {box.x + gap, box.y + gap, width, totals});
  const double top = box.y + gap + (narrow_ ? 0 : totals + gap);
  const Box view{box.x + gap, top, width, box.bottom() - bar - top};
  pen.canvas.rectangle(view, {pen.ink().card, {pen.ink().edge, pen.px(1)}}, pen.px(10));
  const Box in = view.inset(pen.px(14));
  const double stood = scroll_.offset;
  {
    const picture::Clip clip(pen.canvas, in);
    draw_page(pen, in);
  }
  scroll_bar(pen, in, scroll_);
  button_bar(pen, {view.x, box.bottom() - bar + gap, width, bar}, buttons);
  if (scroll_.offset < stood) return draw(outer, box);  // in another size the page is shorter
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
  if (narrow_) write_totals(pen, above);
  write_stretch(pen, above);
  write_chart(pen, above);
  Flow below(pen, {in.x, above.y}, width);
  if (narrow_) {
    write_points(pen, below, below);
  } else {
    Flow left(pen, {in.x, above.y}, left_width);
    Flow right(pen, {in.x + left_width + between, above.y}, width - between - left_width);
    write_points(pen, left, right);
    below.y = std::max(left.y, right.y);
  }
  below.gap(12);
  write_earlier(pen, below);
  write_errors(pen, below);
  write_needs(pen, below);
  write_time(pen, below);
  write_saved(pen, below);
  scroll_.content = below.y - page_top_;
  scroll_.move(0);
  page.inside(in, hits_);
}

// In a narrow window the ways to try a stretch again stand in the page alone, and the keys of the
// rest are left out where they find no room.
std::vector<BarButton> DebriefScreen::buttons_for(const Pen& pen, double width) const {
  const auto& t = pen.t;
  std::vector<BarButton> all{
      {t(stored_ ? "review.back" : "debrief.home"), t("key.escape"), id_home}};
  if (!plays_) return all;
  if (const auto phase = next_stretch(); phase && !narrow_)
    all.push_back({t("debrief.try", {procedure_.phases[phase.at()].title}), "T", id_stretch});
  all.push_back({t("debrief.fresh"), "N", id_fresh});
  all.push_back({t("debrief.again"),
                 marked_ ? std::string() : t("key.enter"),
                 id_again,
                 {!marked_, !marked_, true}});
  if (narrow_ && button_bar_height(pen, width, all) > button_height(pen) + 1)
    for (auto& one : all) one.key.clear();
  return all;
}

namespace {

struct VerdictLook {
  std::string word;
  Colour soft, strong;
};

VerdictLook look_of(const Pen& pen, Verdict verdict) {
  const auto& ink = pen.ink();
  const auto words = pen.t("verdict." + std::string(scoring::word(verdict)));
  if (verdict == Verdict::ready) return {words, ink.good_soft, ink.good};
  if (verdict == Verdict::repeat) return {words, ink.danger_soft, ink.danger};
  return {words, ink.caution_soft, ink.caution};
}

// A part of the score: its name with its figure, a bar, and what is behind it. Gives the y below.
double write_part(Pen& pen, Point at, double width, const std::string& name, double value,
                  const std::string& about, double bottom) {
  const auto& ink = pen.ink();
  auto style = pen.style(TextSize::label, ink.ink, Weight::bold);
  style.level = picture::Level::top;
  pen.canvas.text(at, picture::shorten(pen.canvas, name, width, style.size, Weight::bold), style);
  const Box track{at.x, at.y + pen.px(25), width, pen.px(14)};
  pen.canvas.rectangle(track, {ink.well, {ink.edge_strong, pen.px(1)}}, pen.px(4));
  if (value > 0.01)
    pen.canvas.rectangle(
        {track.x, track.y, track.width * std::clamp(value, 0.0, 1.0), track.height},
        {ink.accent, {}}, pen.px(4));
  return paragraph(pen, {at.x, at.y + pen.px(45)}, width, about, TextSize::label, ink.ink_soft,
                   Weight::regular, bottom);
}

}  // namespace

std::vector<DebriefScreen::Part> DebriefScreen::parts(const Strings& t) const {
  const auto& time = score_.time[trainee_.at()];
  const auto named = [&](const char* key, double value, std::string about) {
    return Part{t(key, {whole_number(value * 100)}), value, std::move(about)};
  };
  return {named("debrief.anticipation", score_.anticipation,
                t("debrief.anticipation.about",
                  {std::to_string(score_.requests), time_text(score_.clinician_wait)})),
          named("debrief.idle", score_.idle, t("debrief.idle.about", {time_text(time.avoidable)})),
          named("debrief.sequence", score_.sequence,
                t("debrief.sequence.about",
                  {std::to_string(score_.order.kept), std::to_string(score_.order.steps)}))};
}

std::string DebriefScreen::story(const Strings& t) const {
  const auto best = t(score_.reference_proven ? "debrief.best" : "debrief.bound",
                      {time_text(score_.reference_chair_time)});
  return (whose_.empty() ? "" : whose_ + ": ") +
         t(endings[static_cast<int>(ending_)],
           {full_title(procedure_), time_text(score_.chair_time), best});
}

// The total with its verdict, their top at `at`.
void DebriefScreen::draw_total(Pen& pen, Point at) const {
  auto big = pen.style(TextSize::title, pen.ink().accent, Weight::bold);
  big.level = picture::Level::top;
  const auto total = pen.t("debrief.total", {whole_number(score_.total)});
  pen.canvas.text({at.x, at.y - pen.px(2)}, total, big);
  const double width = pen.canvas.measure(total, big.size, Weight::bold).width;
  auto look = look_of(pen, score_.verdict);
  if (score_.verdict == Verdict::nearly && score_.total >= scoring::ready_from)
    look.word = pen.t("debrief.barred");  // the points would be enough
  // What was left in time says little; what was unsafe stays unsafe.
  if (ending_ == Ending::left && score_.verdict != Verdict::repeat)
    look = {pen.t("debrief.left"), pen.ink().well, pen.ink().ink};
  badge(pen, {at.x + width + pen.px(16), at.y + pen.px(16)}, look.word, look.soft, look.strong);
}

void DebriefScreen::draw_totals(Pen& pen, const Box& box) {
  const Box in = panel(pen, box);
  draw_total(pen, {in.x, in.y});
  const double left = in.width * 0.47, bottom = in.bottom() + pen.px(6);
  paragraph(pen, {in.x, in.y + pen.px(40)}, left - pen.px(16), story(pen.t), TextSize::label,
            pen.ink().ink_soft, Weight::regular, bottom);
  const double width = (in.width - left) / 3;
  double x = in.x + left;
  for (const auto& part : parts(pen.t)) {
    write_part(pen, {x, in.y}, width - pen.px(16), part.name, part.value, part.about, bottom);
    x += width;
  }
}

// The same at the head of the page.
void DebriefScreen::write_totals(Pen& pen, Flow& flow) const {
  draw_total(pen, {flow.x(), flow.y});
  flow.gap(40);
  flow.text(story(pen.t), pen.ink().ink_soft, Weight::regular, TextSize::label);
  flow.gap(8);
  for (const auto& part : parts(pen.t)) {
    flow.y =
        write_part(pen, {flow.x(), flow.y}, flow.width(), part.name, part.value, part.about, 1e9);
    flow.gap(8);
  }
  flow.gap(6);
}

void DebriefScreen::begin_target(Pen& pen, const Flow& flow, std::size_t target) {
  if (marked_ != target) return;
  if (to_marked_) target_top_ = flow.y - page_top_;
  pen.canvas.rectangle({flow.x() - pen.px(6), flow.y - pen.px(2), pen.px(4), pen.px(24)},
                       {pen.ink().accent, {}}, pen.px(2));
}

// A line that says what can be done about it, pressed or by key.
void DebriefScreen::write_ways(Pen& pen, Flow& flow, std::size_t target) {
  const bool here = marked_ == target;
  flow.gap(2);
  FlowButtons row(pen, flow, pen.px(26));
  row.add(pen.t("debrief.see"), here ? pen.t("key.enter") : std::string(),
          id_see + static_cast<int>(target), {here, here, true});
  const bool change = plays_ && target < debrief_.change.size();
  if (const auto phase = phase_of(target); phase && change)
    row.add(pen.t("debrief.try", {procedure_.phases[phase.at()].title}), here ? "T" : "",
            id_try + static_cast<int>(target));
  row.end();
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
  FlowButtons row(pen, flow);
  row.add(t("debrief.stretch.watch"), "V", id_watch_stretch);
  row.end();
  flow.gap(10);
}

// The ways into it stand beside its heading where there is room, so that the words come up earlier.
void DebriefScreen::write_chart(Pen& pen, Flow& flow) {
  const bool roomy = scroll_.view > pen.px(560);
  const auto& t = pen.t;
  const ButtonLook along{false, false, chart_.zoomed()};
  const std::vector<BarButton> ways{
      {t("debrief.watch"), "W", id_watch},
      {t(chart_.zoomed() ? "debrief.whole" : "debrief.zoom"), "Z", id_zoom},
      {t("debrief.earlier"), "←", id_earlier, along},
      {t("debrief.later"), "→", id_later, along}};
  double wide = 0;
  for (const auto& way : ways) wide += button_width(pen, way.label, way.key) + pen.px(8);
  const auto words =
      pen.canvas.measure(t("debrief.chart"), pen.size(TextSize::heading), Weight::bold);
  Flow beside(pen, {flow.x() + flow.width() - wide, flow.y}, wide);
  const bool fits = words.width + pen.px(16) + wide < flow.width();
  if (fits) flow.gap(4);  // the middle of the buttons
  flow.heading(t("debrief.chart"));
  FlowButtons row(pen, fits ? beside : flow);
  for (const auto& way : ways) row.add(way.label, way.key, way.id, way.look);
  row.end();
  if (fits) flow.y = beside.y;
  auto& view = chart_.view();
  view.legend = roomy;
  view.shares = !narrow_;
  const double height = std::max(pen.px(180), chart_.height(pen, flow.width()));
  if (watched_) view.words.now = clock_text(*watched_);
  chart_.draw(pen, {flow.x(), flow.y, flow.width(), height}, watched_);
  pen.hits.add(chart_.plot(), id_chart);
  flow.y += height + pen.px(4);
  if (roomy)
    flow.text(t("debrief.chart.press"), pen.ink().ink_soft, Weight::regular, TextSize::label);
  flow.gap(6);
}

void DebriefScreen::write_earlier(Pen& pen, Flow& flow) const {
  if (earlier_.empty() && !first_attempt_) return;
  flow.heading(pen.t("debrief.compared"));
  if (earlier_.empty()) {
    flow.text(pen.t("debrief.compared.first"), pen.ink().ink_soft);
    flow.gap(12);
    return;
  }
  write_comparison(pen, flow, pen.t("debrief.compared.now"), earlier_);
  FlowButtons row(pen, flow);
  if (!last_.empty()) row.add(pen.t("debrief.beside.last"), "L", id_last);
  if (!best_.empty() && best_ != last_) row.add(pen.t("debrief.beside.best"), "B", id_best);
  row.end();
  flow.gap(8);
}

void DebriefScreen::write_needs(Pen& pen, Flow& flow) const {
  const auto& ink = pen.ink();
  const auto& t = pen.t;
  flow.heading(t("debrief.needs"));
  if (score_.needs.empty()) flow.text(t("debrief.needs.none"), ink.ink_soft);
  if (narrow_) return write_needs_narrow(pen, flow);
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
    const auto lead = lead_text(procedure_, need, t);
    row(pen, flow,
        {{0.0, clock_text(need.need_at)},
         {0.08, name_of(procedure_, need)},
         {0.36, procedure_.step(need.step).title},
         {0.68, (late ? "✗ " : "✓ ") + lead}},
        late ? ink.danger : ink.ink, Weight::regular);
  }
  flow.gap(12);
}

// What takes four columns elsewhere, in words.
void DebriefScreen::write_needs_narrow(Pen& pen, Flow& flow) const {
  for (const auto& need : score_.needs) {
    const bool late = !went_well(need);
    const Colour colour = late ? pen.ink().danger : pen.ink().ink;
    flow.item(late ? "✗" : "✓",
              pen.t("debrief.error", {clock_text(need.need_at), name_of(procedure_, need)}),
              colour);
    flow.under(pen.t("debrief.need.for",
                     {procedure_.step(need.step).title, lead_text(procedure_, need, pen.t)}),
               pen.ink().ink);
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
  if (!around_.empty()) flow.gap(12);
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
