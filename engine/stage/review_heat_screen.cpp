// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/review_heat_screen.hpp"

#include <algorithm>

#include "picture/review_charts.hpp"
#include "picture/review_words.hpp"
#include "stage/page.hpp"
#include "stage/widgets.hpp"

namespace beforehand::stage {
namespace {

enum Id { id_back, id_earlier, id_later };

}  // namespace

ReviewHeat::ReviewHeat(ReviewDesk& desk, std::string scenario, std::string title,
                       std::string search)
    : desk_(desk),
      scenario_(std::move(scenario)),
      title_(std::move(title)),
      search_(std::move(search)) {}

// One more than fits says whether there are more.
void ReviewHeat::load() {
  if (from_ == loaded_from_ && columns_ == loaded_) return;
  heat_ = desk_.heat(scenario_, search_, from_, columns_ + 1);
  loaded_from_ = from_;
  loaded_ = columns_;
  more_ = static_cast<int>(heat_.map.trainees.size()) > columns_;
  if (!more_) return;
  heat_.map.trainees.pop_back();
  for (auto& row : heat_.map.cells) row.pop_back();
}

ReviewHeat::Outcome ReviewHeat::handle(const Input& input) {
  if (input.kind == Input::Kind::wheel) move(0, input.wheel > 0 ? -3 : 3);
  if (input.kind == Input::Kind::press) {
    const int id = hits_.at({input.x, input.y}).value_or(-1);
    if (id == id_back) return Outcome::leave;
    if (id == id_earlier || id == id_later) move(id == id_later ? columns_ : -columns_, 0);
  }
  if (input.kind != Input::Kind::key) return Outcome::stay;
  const int page = static_cast<int>(rows_);
  switch (input.key) {
    case Key::escape:
    case Key::f3:
      return Outcome::leave;
    case Key::left:
    case Key::right:
      move(input.key == Key::right ? columns_ : -columns_, 0);
      break;
    case Key::up:
    case Key::down:
      move(0, input.key == Key::down ? 1 : -1);
      break;
    case Key::page_up:
    case Key::page_down:
      move(0, input.key == Key::page_down ? page : -page);
      break;
    default:
      break;
  }
  return Outcome::stay;
}

void ReviewHeat::move(int columns, int rows) {
  if (columns < 0 || more_) from_ = std::max(0, from_ + columns);
  const auto steps = heat_.map.steps.size();
  const auto last = static_cast<int>(steps > rows_ ? steps - rows_ : 0);
  first_row_ = static_cast<std::size_t>(std::clamp(static_cast<int>(first_row_) + rows, 0, last));
}

void ReviewHeat::draw(Pen& outer, const Box& box) {
  hits_.clear();
  Pen pen{outer.canvas, outer.theme, outer.t, hits_, outer.pointer};
  const double gap = pen.px(12), width = box.width - 2 * gap;
  std::vector<BarButton> buttons = {
      {pen.t("review.back"), pen.t("key.escape"), id_back},
      {pen.t("review.heat.earlier"), "←", id_earlier, {false, false, from_ > 0}},
      {pen.t("review.heat.later"), "→", id_later, {false, false, more_}}};
  const double bar = button_bar_height(pen, width, buttons) + pen.px(8);
  const Box view{box.x + gap, box.y + gap, width, box.height - 2 * gap - bar};
  const Box in = panel(pen, view);
  const auto title = pen.t("review.heat.title", {title_});
  double y = in.height < pen.px(330) ? paragraph(pen, {in.x, in.y}, in.width, title,
                                                 TextSize::label, pen.ink().ink, Weight::bold)
                                     : heading(pen, {in.x, in.y}, in.width, title);
  y = paragraph(pen, {in.x, y}, in.width,
                pen.t("review.heat.about", {std::to_string(records::looked_back)}), TextSize::label,
                pen.ink().ink_soft) +
      pen.px(6);
  const Box chart{in.x, y, in.width, in.bottom() - y};
  columns_ = picture::heat_columns(pen.theme, chart.width);
  load();
  buttons[1].look.enabled = from_ > 0;
  buttons[2].look.enabled = more_;
  if (heat_.map.steps.empty()) {
    const auto& problem = desk_.problem();
    paragraph(pen, {in.x, y}, in.width, problem.empty() ? pen.t("review.heat.empty") : problem,
              TextSize::body, problem.empty() ? pen.ink().ink : pen.ink().danger);
  } else {
    auto shown = picture::heat_fitted(pen.canvas, heat_.map, {first_row_, 0, heat_.step_titles},
                                      pen.theme, chart.width);
    rows_ = picture::heat_rows(pen.theme, chart.height, shown);
    move(0, 0);
    shown.first_row = first_row_;
    picture::draw_heat(pen.canvas, heat_.map, shown, picture::review_words(pen.t), pen.theme,
                       chart);
  }
  button_bar(pen, {view.x, view.bottom() + pen.px(8), width, bar}, buttons);
}

}  // namespace beforehand::stage
