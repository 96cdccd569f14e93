// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/briefing_screen.hpp"

#include <algorithm>
#include <vector>

#include "picture/chart_page.hpp"
#include "picture/plan_chart.hpp"
#include "picture/text.hpp"
#include "procedure/relations.hpp"
#include "procedure/title.hpp"
#include "stage/picture_words.hpp"
#include "stage/problem_list.hpp"

namespace beforehand::stage {
namespace {

using procedure::Role;

enum Id {
  id_begin,
  id_back,
  id_observe,
  id_rehearse,
  id_improve,
  id_compare,
  id_card_back,
  id_card_on,
  id_materials_back,
  id_materials_on
};

}  // namespace

void BriefingScreen::show(const timing::Plan& plan, const timing::Explanation& explanation) {
  plan_ = plan;
  if (plan.found()) chart_ = picture::plan_chart(procedure(), plan, explanation);
}

BriefingScreen::Outcome BriefingScreen::handle(const Input& input) {
  if (input.kind == Input::Kind::wheel) scroll_.move(-input.wheel * 60);
  if (input.kind == Input::Kind::press) {
    const auto id = hits_.at({input.x, input.y});
    return id ? on_press(*id) : Outcome::stay;
  }
  if (input.kind != Input::Kind::key) return Outcome::stay;
  switch (input.key) {
    case Key::symbol:
      return on_symbol(input.symbol);
    case Key::enter:
      return playable() ? Outcome::begin : Outcome::stay;
    case Key::escape:
      return Outcome::back;
    default:
      scroll_.follow(input.key);
      break;
  }
  return Outcome::stay;
}

BriefingScreen::Outcome BriefingScreen::on_symbol(char32_t symbol) {
  if (symbol == U'c') return lay(choice_.card, item_.cards, 1);
  if (symbol == U'm') return lay(choice_.materials, materials_, 1);
  if (!playable()) return Outcome::stay;
  if (symbol == U'o') return Outcome::observe;
  if (symbol == U'r') return Outcome::rehearse;
  if (symbol == U'p') return Outcome::compare;
  return symbol == U'w' ? Outcome::improve : Outcome::stay;
}

BriefingScreen::Outcome BriefingScreen::on_press(int id) {
  static constexpr Outcome outcomes[] = {Outcome::begin,    Outcome::back,    Outcome::observe,
                                         Outcome::rehearse, Outcome::improve, Outcome::compare};
  if (id <= id_compare) return outcomes[id];
  const bool card = id <= id_card_on;
  const int by = id == id_card_on || id == id_materials_on ? 1 : -1;
  return card ? lay(choice_.card, item_.cards, by) : lay(choice_.materials, materials_, by);
}

namespace {

// 0 is nothing laid over; a file that is gone counts as that.
std::size_t position_in(const std::vector<Overlay>& offered, const std::string& file) {
  for (std::size_t i = 0; i < offered.size(); ++i)
    if (offered[i].file == file) return i + 1;
  return 0;
}

}  // namespace

// Round and round: nothing, then each of what is offered.
BriefingScreen::Outcome BriefingScreen::lay(std::string& file, const std::vector<Overlay>& offered,
                                            int by) {
  const auto count = offered.size() + 1;
  const auto next =
      (position_in(offered, file) + count + static_cast<std::size_t>(by + 1) - 1) % count;
  const auto chosen = next == 0 ? std::string() : offered[next - 1].file;
  if (chosen == file) return Outcome::stay;
  file = chosen;
  return Outcome::laid;
}

bool BriefingScreen::in_part(const procedure::Step& step) const {
  return choice_.part == 0 || step.phase.at() == choice_.part - 1;
}

namespace {

// In the largest letters that show all of it.
void draw_title(Pen& pen, const Box& box, const std::string& title) {
  const auto style = pen.style(TextSize::title, pen.ink().accent, Weight::bold);
  if (pen.canvas.measure(title, style.size, style.weight).width <= box.width)
    return pen.canvas.text({box.x, box.y + pen.px(44)}, title, style);
  const double height = picture::paragraph_height(pen.canvas, title, box.width,
                                                  pen.size(TextSize::heading), Weight::bold);
  paragraph(pen, {box.x, box.y + std::max(pen.px(4), (box.height - height) / 2)}, box.width, title,
            TextSize::heading, style.colour, Weight::bold, box.bottom());
}

}  // namespace

void BriefingScreen::draw(Pen& outer, const Box& box) {
  hits_.clear();
  Pen pen{outer.canvas, outer.theme, outer.t, hits_, outer.pointer};
  const double gap = pen.px(16), top = pen.px(64), width = box.width - 2 * gap;
  auto buttons = bar_buttons(pen, true);
  ways_in_page_ = button_bar_height(pen, width, buttons) > button_height(pen) + 1;
  if (ways_in_page_) buttons = bar_buttons(pen, false);
  const double bar = button_bar_height(pen, width, buttons) + gap;
  const auto name = playable() ? full_title(procedure()) : item_.file;
  draw_title(pen, {box.x + gap, box.y, width, top}, pen.t("briefing.title", {name}));
  const Box view{box.x + gap, box.y + top, box.width - 2 * gap, box.height - top - bar - gap};
  const double stood = scroll_.offset;
  Box inside = panel(pen, view);
  draw_page(pen, inside);
  if (scroll_.offset < stood) {  // in another size the page is shorter, and stands lower
    inside = panel(pen, view);
    draw_page(pen, inside);
  }
  scroll_bar(pen, inside, scroll_);
  button_bar(pen, {view.x, box.bottom() - bar, width, bar}, buttons);
}

// What can be pressed lies inside the view only.
void BriefingScreen::draw_page(Pen& outer, const Box& inside) {
  Hits page;
  Pen pen{outer.canvas, outer.theme, outer.t, page, outer.pointer};
  const picture::Clip clip(pen.canvas, inside);
  const double between = pen.px(28), all = inside.width - pen.px(16);
  const bool beside = all > pen.px(850);  // two columns, or one under the other
  const double left_width = beside ? (all - between) * 0.56 : all;
  const double y = inside.y - scroll_.offset;
  Flow left(pen, {inside.x, y}, left_width);
  write_laid(pen, left);
  double end = left.y;
  if (playable()) {
    write_warnings(pen, left, item_);
    write_plan(pen, left);
    Flow right(pen, {beside ? inside.x + left_width + between : inside.x, beside ? y : left.y},
               beside ? all - left_width - between : all);
    write_ready(pen, right);
    write_keys(pen, right);
    Flow below(pen, {inside.x, std::max(left.y, right.y) + pen.px(12)}, all);
    write_reference(pen, below);
    end = below.y;
  } else {
    Flow whole(pen, {inside.x, left.y}, all);
    write_problems(pen, whole, item_);
    end = whole.y;
  }
  if (ways_in_page_) {
    Flow last(pen, {inside.x, end}, all);
    write_ways(pen, last);
    end = last.y;
  }
  scroll_.view = inside.height;
  scroll_.content = end - y;
  scroll_.move(0);
  page.inside(inside, hits_);
}

// Whose way it is played, and with whose times.
void BriefingScreen::write_laid(Pen& pen, Flow& flow) const {
  const auto row = [&](const char* caption, const char* none, const std::vector<Overlay>& offered,
                       const std::string& file, const std::string& title, int back) {
    if (offered.empty()) return;
    const auto at = position_in(offered, file);
    flow.text(pen.t(caption), pen.ink().ink, Weight::bold, TextSize::label);
    stepper(pen, {flow.x(), flow.y, flow.width(), pen.px(34)},
            at == 0         ? pen.t(none)
            : title.empty() ? offered[at - 1].title
                            : title,
            false, back, back + 1);
    flow.y += pen.px(34 + 10);
  };
  row("briefing.card", "briefing.card.none", item_.cards, choice_.card,
      playable() ? procedure().card_title : std::string(), id_card_back);
  row("briefing.materials", "briefing.materials.none", materials_, choice_.materials, {},
      id_materials_back);
}

namespace {

struct Way {
  const char* text;
  const char* key;
  int id;
};
constexpr Way ways[] = {{"observe.open", "O", id_observe},
                        {"rehearse.open", "R", id_rehearse},
                        {"improve.open", "W", id_improve},
                        {"protocols.open", "P", id_compare}};

}  // namespace

std::vector<BarButton> BriefingScreen::bar_buttons(const Pen& pen, bool with_ways) const {
  const auto& t = pen.t;
  std::vector<BarButton> all{{t("briefing.back"), t("key.escape"), id_back}};
  if (with_ways)
    for (const auto& way : ways)
      all.push_back({t(way.text), way.key, way.id, {false, false, playable()}});
  all.push_back(
      {t("briefing.begin"), t("key.enter"), id_begin, {playable(), playable(), playable()}});
  return all;
}

// In a narrow window the other ways to use the scenario stand at the end of the page.
void BriefingScreen::write_ways(Pen& pen, Flow& flow) const {
  flow.gap(12);
  FlowButtons row(pen, flow);
  for (const auto& way : ways)
    row.add(pen.t(way.text), way.key, way.id, {false, false, playable()});
  row.end();
}

void BriefingScreen::write_plan(Pen& pen, Flow& flow) const {
  const auto& ink = pen.ink();
  if (!procedure().plan.empty()) {
    flow.heading(pen.t("briefing.announced"));
    flow.text(pen.t("quote", {procedure().plan}), ink.ink);
    flow.gap(12);
  }
  flow.text(pen.t("briefing.legend"), ink.ink_soft, Weight::regular, TextSize::label);
  flow.gap(8);
  for (std::size_t phase = 0; phase < procedure().phases.size(); ++phase) {
    if (choice_.part != 0 && choice_.part - 1 != phase) continue;
    flow.heading(procedure().phases[phase].title);
    for (const auto& step : procedure().steps)
      if (step.phase == PhaseIx{phase}) write_step(pen, flow, step);
    flow.gap(8);
  }
}

void BriefingScreen::write_step(Pen& pen, Flow& flow, const procedure::Step& step) const {
  const auto& ink = pen.ink();
  const bool own = procedure().person(step.by.front()).role == Role::assistant;
  std::string line = step.title;
  for (const auto signal : step.when)
    line = pen.t("briefing.if", {line, procedure().signal(signal).title});
  flow.item(own ? "→" : "•", line, own ? ink.accent : ink.ink);
  if (own && !step.why.empty() && choice_.level == drill::Level::guided)
    flow.under(step.why, ink.ink_soft);
}

void BriefingScreen::write_ready(Pen& pen, Flow& flow) const {
  const auto& ink = pen.ink();
  flow.heading(pen.t("briefing.cautions"));
  for (const auto& caution : procedure().cautions) flow.item("!", caution, ink.caution);
  flow.item("!", pen.t("program.caution"), ink.caution);
  flow.gap(12);
  flow.heading(pen.t("briefing.ready"));
  std::vector<bool> needed(procedure().supplies.size());
  for (const auto& step : procedure().steps)
    if (step.supply && in_part(step)) needed[step.supply.at()] = true;
  for (const SupplyIx i : procedure::in_order_of_use(procedure())) {
    const auto& supply = procedure().supply(i);
    if (!needed[i.at()]) continue;
    const auto place = supply.at ? procedure().place(supply.at).name : std::string();
    flow.item("•", pen.t("briefing.lies", {supply.name, place}), ink.ink);
    if (!supply.caution.empty()) flow.under(supply.caution, ink.caution);
  }
  flow.gap(12);
}

void BriefingScreen::write_keys(Pen& pen, Flow& flow) const {
  flow.heading(pen.t("briefing.keys"));
  for (const auto& line : key_lines(keys_, choice_.level != drill::Level::assessed, pen.t))
    flow.item("•", line, pen.ink().ink);
}

void BriefingScreen::write_reference(Pen& pen, Flow& flow) const {
  const auto& t = pen.t;
  flow.heading(t("briefing.reference"));
  if (!plan_) return flow.text(t("briefing.reference.searching"), pen.ink().ink_soft);
  if (!plan_->found()) return flow.text(t("briefing.reference.none"), pen.ink().ink_soft);
  flow.text(t(plan_->proven() ? "briefing.reference.proven" : "briefing.reference.found",
              {duration_text(plan_->chair_time), duration_text(plan_->clinician_wait),
               duration_text(plan_->lower_bound)}),
            pen.ink().ink);
  flow.gap(8);
  const picture::ChartPage page(pen.canvas, chart_, chart_words(t), pen.theme, flow.width());
  page.draw(pen.canvas, {flow.x(), flow.y});
  flow.y += page.height();
}

}  // namespace beforehand::stage
