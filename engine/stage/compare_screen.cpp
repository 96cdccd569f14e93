// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/compare_screen.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <thread>

#include "picture/plan_chart.hpp"
#include "picture/text.hpp"
#include "procedure/texts.hpp"
#include "procedure/title.hpp"
#include "stage/assistants.hpp"
#include "stage/columns.hpp"
#include "stage/list_view.hpp"
#include "stage/page.hpp"
#include "stage/page_chart.hpp"
#include "stage/picture_words.hpp"
#include "stage/widgets.hpp"

namespace beforehand::stage {
namespace {

using study::Measure;

enum Id { id_back, id_go, id_fewer, id_more, id_list = 1000 };
constexpr int ids_a_list = 1000;
constexpr std::size_t most_pairs = 200'000;
constexpr std::chrono::seconds longest_search{20};

// One core is left to the frames where there is more than one.
unsigned threads() { return std::max(2u, std::thread::hardware_concurrency()) - 1; }

std::string figure(double v, Measure m) {
  return fmt::format("{:.1f}{}", v, m == Measure::requests || m == Measure::total ? "" : " s");
}

std::string measure_key(Measure m) { return "measure." + std::string(key(m)); }

}  // namespace

std::vector<Protocol> protocols_on(const std::vector<ShelfItem>& shelf,
                                   const std::string& language) {
  std::vector<Protocol> out;
  for (const auto& item : shelf) {
    if (!item.procedure) continue;
    const auto& id = item.procedure->id;
    out.push_back({id, item.procedure->title, {item.file, "", ""}});
    for (const auto& card : procedure::cards_of(item.file)) {
      const procedure::Files files{item.file, card, ""};
      auto read = procedure::load(files).reading.procedure;
      if (!read) continue;
      const auto in = procedure::in_language(std::move(*read), files, language).procedure;
      out.push_back({id, procedure::full_title(in), files});
    }
  }
  return out;
}

std::size_t other_than(const std::vector<Protocol>& all, std::size_t a) {
  const auto copy_of = [](const std::string& id, const std::string& other) {
    return other.starts_with(id + "-") || id.starts_with(other + "-");
  };
  for (std::size_t i = 0; i < all.size(); ++i)
    if (i != a && copy_of(all[a].id, all[i].id)) return i;
  for (std::size_t i = 0; i < all.size(); ++i)
    if (i != a && all[i].id == all[a].id) return i;
  return a + 1 < all.size() ? a + 1 : 0;
}

CompareScreen::CompareScreen(std::vector<Protocol> protocols, std::size_t a, std::size_t b,
                             std::string language)
    : protocols_(std::move(protocols)), chosen_{a, b}, language_(std::move(language)) {}

CompareScreen::Found CompareScreen::compare(const std::array<procedure::Files, 2>& files,
                                            const std::string& language, const drill::Habit& habit,
                                            const study::Watch& watch) {
  Found found;
  for (std::size_t i = 0; i < 2; ++i) {
    auto& side = found.sides[i];
    auto loaded = procedure::load(files[i]);
    if (!loaded.reading.procedure)
      throw std::runtime_error(print(loaded.reading.problems, loaded.sources));
    side.procedure =
        procedure::in_language(std::move(*loaded.reading.procedure), files[i], language).procedure;
    const auto until = std::chrono::steady_clock::now() + longest_search;
    timing::PlanRequest request;
    request.stopped = [&watch, until] {
      return watch.stopped() || std::chrono::steady_clock::now() > until;
    };
    side.plan = timing::plan(side.procedure, request);
    if (side.plan.found())
      side.chart = picture::plan_chart(side.procedure, side.plan,
                                       timing::explain(side.procedure, request, side.plan));
  }
  study::CompareRequest request;
  request.runs.count = most_pairs;
  request.runs.threads = threads();
  request.runs.watch = watch;
  request.within_s = 1;
  found.comparison =
      study::compare(found.sides[0].procedure, found.sides[1].procedure, habit, request);
  return found;
}

void CompareScreen::begin() {
  if (working() || protocols_.empty()) return;
  problem_.clear();
  found_.reset();
  scroll_ = {};
  work_.begin([files = std::array{chosen(0).files, chosen(1).files}, language = language_,
               habit = habit_of(assistant_)](const study::Watch& watch) {
    return compare(files, language, habit, watch);
  });
}

void CompareScreen::pass() {
  try {
    if (auto found = work_.take())
      if (found->comparison.runs > 0) found_ = std::move(found);
  } catch (const std::exception& e) {
    problem_ = e.what();
  }
}

void CompareScreen::settle() {
  work_.wait();
  pass();
}

CompareScreen::Outcome CompareScreen::back() {
  if (working())
    work_.stop();  // what is done is shown
  else if (found_)
    found_.reset();
  else
    return Outcome::home;
  return Outcome::stay;
}

CompareScreen::Outcome CompareScreen::handle(const Input& input) {
  if (input.kind == Input::Kind::wheel) (found_ ? scroll_ : lists_[side_]).move(-input.wheel * 60);
  if (input.kind == Input::Kind::press) return on_press(hits_.at({input.x, input.y}).value_or(-1));
  return input.kind == Input::Kind::key ? on_key(input) : Outcome::stay;
}

CompareScreen::Outcome CompareScreen::on_press(int id) {
  if (id == id_back) return back();
  if (id == id_go) begin();
  if (id == id_fewer || id == id_more) move(id == id_more ? 1 : -1);
  if (id >= id_list) {
    side_ = static_cast<std::size_t>((id - id_list) / ids_a_list);
    chosen_[side_] = static_cast<std::size_t>((id - id_list) % ids_a_list);
  }
  return Outcome::stay;
}

// The third row of the choice is the assistant.
void CompareScreen::move(int by) {
  if (side_ < 2) {
    const auto last = static_cast<int>(protocols_.size()) - 1;
    chosen_[side_] =
        static_cast<std::size_t>(std::clamp(static_cast<int>(chosen_[side_]) + by, 0, last));
  } else {
    constexpr int n = static_cast<int>(assistant_count);
    assistant_ = static_cast<std::size_t>((static_cast<int>(assistant_) + by + n) % n);
  }
}

CompareScreen::Outcome CompareScreen::on_key(const Input& input) {
  if (input.key == Key::escape) return back();
  if (working()) return Outcome::stay;
  if (found_) {
    scroll_.follow(input.key);
    return Outcome::stay;
  }
  switch (input.key) {
    case Key::enter:
      begin();
      break;
    case Key::tab:
      side_ = (side_ + 1) % 3;
      break;
    case Key::back_tab:
      side_ = (side_ + 2) % 3;
      break;
    case Key::left:
    case Key::right:
      if (side_ < 2)
        side_ = input.key == Key::right ? 1 : 0;
      else
        move(input.key == Key::right ? 1 : -1);
      break;
    case Key::up:
    case Key::down:
      if (side_ < 2) move(input.key == Key::down ? 1 : -1);
      break;
    case Key::page_up:
    case Key::page_down:
      if (side_ < 2) move(input.key == Key::page_down ? 6 : -6);
      break;
    default:
      break;
  }
  return Outcome::stay;
}

void CompareScreen::draw(Pen& outer, const Box& box) {
  hits_.clear();
  Pen pen{outer.canvas, outer.theme, outer.t, hits_, outer.pointer};
  const BarButton back{pen.t(working() ? "protocols.stop"
                             : found_  ? "protocols.others"
                                       : "debrief.home"),
                       pen.t("key.escape"), id_back};
  if (working()) return page(pen, box, scroll_, [&](Flow& f) { write_progress(pen, f); }, {back});
  if (found_) return page(pen, box, scroll_, [&](Flow& f) { write_found(pen, f); }, {back});
  const std::vector<BarButton> bar{
      back,
      {pen.t("protocols.begin"), pen.t("key.enter"), id_go, {true, true, !protocols_.empty()}}};
  const double gap = pen.px(12), width = box.width - 2 * gap,
               height = button_bar_height(pen, width, bar);
  draw_choice(pen, panel(pen, {box.x + gap, box.y + gap, width, box.height - height - 3 * gap}));
  button_bar(pen, {box.x + gap, box.bottom() - height - gap, width, height}, bar);
}

void CompareScreen::draw_choice(Pen& pen, const Box& in) {
  const bool low = in.height < pen.px(400);
  const double gap = pen.px(low ? 8 : 14), row = pen.px(38);
  Flow flow(pen, {in.x, in.y}, in.width);
  if (!low) flow.heading(pen.t("protocols.title"));
  flow.text(pen.t("protocols.about"), pen.ink().ink_soft, Weight::regular,
            low ? TextSize::label : TextSize::body);
  if (materials_)
    flow.text(pen.t("protocols.materials"), pen.ink().caution, Weight::regular, TextSize::label);
  if (!problem_.empty()) flow.text(problem_, pen.ink().danger);
  flow.gap(6);
  const double width = (in.width - gap) / 2, height = in.bottom() - flow.y - row - 2 * gap;
  for (std::size_t side = 0; side < 2; ++side)
    draw_list(pen, {in.x + static_cast<double>(side) * (width + gap), flow.y, width, height}, side);
  const double y = in.bottom() - row, label = width * (low ? 0.9 : 0.6);
  auto style = pen.style(TextSize::label, pen.ink().ink);
  style.level = picture::Level::middle;
  const auto assistant =
      picture::shorten(pen.canvas, pen.t("protocols.assistant"), label - gap, style.size);
  pen.canvas.text({in.x, y + row / 2}, assistant, style);
  stepper(pen, {in.x + label, y, std::min(in.width - label, width), row},
          assistant_text(assistant_, pen.t), side_ == 2, id_fewer, id_more);
}

void CompareScreen::draw_list(Pen& pen, const Box& box, std::size_t side) {
  const double top =
      heading(pen, {box.x, box.y}, box.width, pen.t(side == 0 ? "protocols.a" : "protocols.b"));
  const Box view{box.x, top, box.width, box.bottom() - top};
  ListView list;
  for (const auto& protocol : protocols_)
    list.heights.push_back(list_row_height(pen, view.width, protocol.title, Weight::bold));
  list.chosen = chosen_[side];
  list.focused = side_ == side;
  list.follow = true;
  list.first_id = id_list + static_cast<int>(side) * ids_a_list;
  list_view(pen, view, lists_[side], list, [&](const Box& inside, std::size_t row) {
    list_line(pen, inside, protocols_[row].title,
              chosen_[side] == row ? Weight::bold : Weight::regular);
  });
}

void CompareScreen::write_progress(Pen& pen, Flow& flow) const {
  flow.heading(pen.t("protocols.title"));
  flow.item("A", chosen(0).title, pen.ink().ink);
  flow.item("B", chosen(1).title, pen.ink().ink);
  flow.gap(12);
  const auto done = work_.done(), of = work_.of();
  flow.text(of == 0 ? pen.t("protocols.planning")
                    : pen.t("protocols.playing", {std::to_string(done), std::to_string(of)}),
            pen.ink().ink);
  flow.gap(8);
  progress_bar(pen, {flow.x(), flow.y, flow.width(), pen.px(18)},
               of == 0 ? 0 : static_cast<double>(done) / static_cast<double>(of));
}

void CompareScreen::write_found(Pen& pen, Flow& flow) const {
  write_figures(pen, flow);
  write_plans(pen, flow);
  write_steps(pen, flow);
  write_plans_in_words(pen, flow);
}

void CompareScreen::write_plans_in_words(Pen& pen, Flow& flow) const {
  for (std::size_t i = 0; i < 2; ++i) {
    const auto& side = found_->sides[i];
    if (!side.plan.found()) continue;
    flow.gap(10);
    flow.heading(std::string(i == 0 ? "A" : "B") + " – " + pen.t("chart.in-words"));
    write_in_words(pen, flow, side.chart);
  }
}

// Both on the scale of the longer one.
void CompareScreen::write_plans(Pen& pen, Flow& flow) const {
  const auto& t = pen.t;
  flow.gap(10);
  flow.heading(t("protocols.plans"));
  Ms to{0};
  for (const auto& side : found_->sides) to = std::max(to, picture::whole(side.chart).to);
  for (std::size_t i = 0; i < 2; ++i) {
    const auto& [procedure, plan, chart] = found_->sides[i];
    flow.item(i == 0 ? "A" : "B",
              !plan.found() ? t("briefing.reference.none")
                            : t(plan.proven() ? "protocols.plan.proven" : "protocols.plan.found",
                                {chosen(i).title, duration_text(plan.chair_time),
                                 duration_text(plan.clinician_wait)}),
              pen.ink().ink, Weight::bold);
    if (!plan.found()) continue;
    auto view = picture::whole(chart);
    view.to = to;
    view.legend = i == 1;
    view.words = chart_words(t);
    write_chart(pen, flow, chart, view);
  }
}

void CompareScreen::write_figures(Pen& pen, Flow& flow) const {
  const auto& ink = pen.ink();
  const auto& t = pen.t;
  const auto& c = found_->comparison;
  const auto& chair = c[Measure::chair_time];
  const bool sure = chair.b_less_a.mean_sure.low > 0 || chair.b_less_a.mean_sure.high < 0;
  const auto gain = figure(std::abs(chair.b_less_a.mean), Measure::chair_time);
  flow.heading(
      !sure ? t("protocols.open.verdict")
            : t(chair.b_less_a.mean < 0 ? "protocols.b.faster" : "protocols.a.faster", {gain}));
  flow.item("A", chosen(0).title, ink.ink);
  flow.item("B", chosen(1).title, ink.ink);
  flow.text(t(c.runs < c.wanted ? "protocols.runs.stopped" : "protocols.runs",
              {std::to_string(c.runs), assistant_text(assistant_, t)}),
            ink.ink_soft);
  if (materials_) flow.text(t("protocols.materials"), ink.caution);
  flow.gap(6);
  Columns table(pen, flow, {0.28, 0.14, 0.14, 0.24, 0.20});
  table.head({"", "A", "B", t("protocols.difference"), t("protocols.better")});
  for (const auto& d : c.differences)
    table.row({t(measure_key(d.measure)), figure(d.a.mean, d.measure), figure(d.b.mean, d.measure),
               fmt::format("{:+.1f} ± {:.1f}", d.b_less_a.mean, d.b_less_a.mean_sure.half_width()),
               t("protocols.chance", {fmt::format("{:.0f}", 100 * d.b_better),
                                      fmt::format("{:.0f}", 100 * d.b_better_sure.low),
                                      fmt::format("{:.0f}", 100 * d.b_better_sure.high)})});
  flow.gap(4);
  flow.text(t("protocols.caution"), ink.caution);
}

void CompareScreen::write_steps(Pen& pen, Flow& flow) const {
  const auto& t = pen.t;
  flow.gap(10);
  flow.heading(t("protocols.steps"));
  const auto only = [&](const char* in) { return " " + t("protocols.only", {in}); };
  const auto chart = picture::step_chart(found_->comparison,
                                         {t("protocols.steps.below"), t("protocols.steps.above"),
                                          t("protocols.steps.rest"), only("A"), only("B")});
  if (chart.rows.empty()) return flow.text(t("protocols.steps.none"), pen.ink().ink);
  flow.text(t("protocols.steps.about"), pen.ink().ink_soft);
  flow.gap(4);
  const double height = picture::interval_height(pen.canvas, chart, pen.theme, flow.width());
  picture::draw_intervals(pen.canvas, chart, pen.theme, {flow.x(), flow.y, flow.width(), height});
  flow.y += height;
}

}  // namespace beforehand::stage
