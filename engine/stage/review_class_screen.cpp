// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/review_class_screen.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "picture/review_words.hpp"
#include "picture/text.hpp"
#include "stage/page.hpp"
#include "stage/text_input.hpp"
#include "stage/widgets.hpp"

namespace beforehand::stage {
namespace {

using records::CohortRow;
using records::CohortView;
using records::Readiness;
using What = CohortView::Column;

enum Id {
  id_back,
  id_open,
  id_heat,
  id_report,
  id_search,
  id_scenario_back,
  id_scenario_on,
  id_again,
  id_only_back,
  id_only_on,
  id_only = 20,
  id_column = 40,
  id_row = 1000
};

constexpr std::size_t longest_search = 60;

// By column: its least width in units, and how early it is left out where there is little room.
struct Shape {
  const char* key;
  double width;
  int leave_out;
};
constexpr Shape shapes[CohortView::columns] = {
    {"review.column.trainee", 180, 99},  {"review.column.scenario", 170, 97},
    {"review.column.standing", 150, 98}, {"review.column.verdict", 140, 4},
    {"review.column.last", 70, 96},      {"review.column.best", 70, 2},
    {"review.column.trend", 76, 3},      {"review.column.due", 100, 95},
    {"review.column.drills", 76, 1}};

const Shape& shape(What what) { return shapes[static_cast<std::size_t>(what)]; }

bool is_number(What what) {
  return what == What::last || what == What::best || what == What::trend || what == What::drills;
}

}  // namespace

std::string standing_words(Readiness r, const Strings& t) {
  static constexpr const char* signs[] = {"", "", "● ", "✓ "};
  return signs[static_cast<std::size_t>(r)] + picture::readiness_words(r, t);
}

picture::Colour standing_colour(Readiness r, const picture::Palette& ink) {
  if (r == Readiness::signed_off) return ink.good;
  return r == Readiness::evidence ? ink.accent : ink.ink;
}

std::string due_words(records::Moment due, records::Moment now, const Strings& t) {
  const auto days =
      std::chrono::floor<std::chrono::days>(due) - std::chrono::floor<std::chrono::days>(now);
  const auto n = days.count();
  if (n == 0) return t("review.due.today");
  return t(n > 0 ? "review.due.in" : "review.due.ago", {std::to_string(n > 0 ? n : -n)});
}

std::string points(double total) { return fmt::format("{:.1f}", total); }

ReviewClass::ReviewClass(ReviewDesk& desk) : desk_(desk), scenarios_(desk.scenarios()) {
  view_.by = What::standing;
  view_.descending = true;
  load();
}

std::string ReviewClass::scenario() const {
  return scenario_ == 0 ? std::string() : scenarios_[scenario_ - 1].id;
}

void ReviewClass::load() {
  table_ = desk_.cohort(scenario());
  problem_ = desk_.problem();
  changed();
}

void ReviewClass::refresh() {
  const auto was = row() ? row()->summary : records::Summary{};
  const auto place = row_;
  const auto chosen = scenario();
  scenarios_ = desk_.scenarios();
  scenario_ = 0;
  for (std::size_t i = 0; i < scenarios_.size(); ++i)
    if (scenarios_[i].id == chosen) scenario_ = i + 1;
  load();
  row_ = std::min(place, table_.size() == 0 ? 0 : table_.size() - 1);
  for (std::size_t i = 0; i < table_.size(); ++i)
    if (table_[i].summary.trainee == was.trainee && table_[i].summary.scenario == was.scenario)
      row_ = i;
}

void ReviewClass::changed() {
  table_.show(view_);
  measured_.clear();
  row_ = 0;
  scroll_.offset = 0;
}

ReviewClass::Outcome ReviewClass::handle(const Input& input) {
  if (input.kind != Input::Kind::pointer) told_.clear();
  switch (input.kind) {
    case Input::Kind::key:
      return on_key(input.key);
    case Input::Kind::text:
      if (letters_in(view_.search) < longest_search) append(view_.search, input.symbol);
      changed();
      break;
    case Input::Kind::press:
      return on_press({input.x, input.y});
    case Input::Kind::wheel:
      move(input.wheel > 0 ? -3 : 3);
      break;
    default:
      break;
  }
  return Outcome::stay;
}

ReviewClass::Outcome ReviewClass::escape() {
  if (view_.search.empty()) return Outcome::leave;
  view_.search.clear();
  changed();
  return Outcome::stay;
}

ReviewClass::Outcome ReviewClass::on_key(Key key) {
  const auto page = static_cast<long>(page_);
  const auto all = static_cast<long>(table_.size());
  switch (key) {
    case Key::escape:
      return escape();
    case Key::enter:
      return row() ? Outcome::open : Outcome::stay;
    case Key::f3:
      return row() ? Outcome::heat : Outcome::stay;
    case Key::f4:
      return Outcome::report;
    case Key::f5:
      sort_by(static_cast<What>((static_cast<std::size_t>(view_.by) + 1) % CohortView::columns));
      break;
    case Key::f6:
      sort_by(view_.by);
      break;
    case Key::backspace:
      erase_last(view_.search);
      changed();
      break;
    case Key::up:
    case Key::down:
      move(key == Key::up ? -1 : 1);
      break;
    case Key::page_up:
    case Key::page_down:
      move(key == Key::page_up ? -page : page);
      break;
    case Key::home:
    case Key::end:
      move(key == Key::home ? -all : all);
      break;
    case Key::left:
    case Key::right:
      step_scenario(key == Key::left ? -1 : 1);
      break;
    case Key::tab:
    case Key::back_tab:
      step_only(key == Key::tab ? 1 : -1);
      break;
    default:
      break;
  }
  return Outcome::stay;
}

ReviewClass::Outcome ReviewClass::on_press(Point at) {
  const int id = hits_.at(at).value_or(-1);
  if (id == id_back) return Outcome::leave;
  if (id == id_open && row()) return Outcome::open;
  if (id == id_heat && row()) return Outcome::heat;
  if (id == id_report) return Outcome::report;
  if (id == id_again) refresh();
  if (id == id_scenario_back || id == id_scenario_on) step_scenario(id == id_scenario_on ? 1 : -1);
  if (id == id_only_back || id == id_only_on) step_only(id == id_only_on ? 1 : -1);
  if (id >= id_row) {
    const auto row = static_cast<std::size_t>(id - id_row);
    if (row == row_) return Outcome::open;
    row_ = row;
  } else if (id >= id_column) {
    sort_by(static_cast<What>(id - id_column));
  } else if (id >= id_only) {
    view_.only = static_cast<CohortView::Only>(id - id_only);
    changed();
  }
  return Outcome::stay;
}

void ReviewClass::move(long by) {
  if (table_.size() == 0) return;
  const auto last = static_cast<long>(table_.size()) - 1;
  row_ = static_cast<std::size_t>(std::clamp(static_cast<long>(row_) + by, 0L, last));
}

void ReviewClass::step_scenario(int by) {
  const auto last = static_cast<int>(scenarios_.size());
  const auto next = static_cast<std::size_t>(std::clamp(static_cast<int>(scenario_) + by, 0, last));
  if (next == scenario_) return;
  scenario_ = next;
  load();
}

void ReviewClass::step_only(int by) {
  const int n = static_cast<int>(CohortView::onlys);
  view_.only = static_cast<CohortView::Only>((static_cast<int>(view_.only) + n + by) % n);
  changed();
}

// Figures begin with the highest, names with the first letter; the same again turns it round.
void ReviewClass::sort_by(What what) {
  if (what == view_.by)
    view_.descending = !view_.descending;
  else
    view_.descending = is_number(what) || what == What::standing;
  view_.by = what;
  changed();
}

// What the column's words take, and the texts of the first rows up to a longest.
double ReviewClass::width_of(const Pen& pen, What what) const {
  constexpr std::size_t looked_at = 100;
  constexpr double longest_name = 260, longest = 420, margin = 22;
  const auto measured = [&](std::string_view text) {
    return pen.canvas.measure(text, pen.size(TextSize::label), Weight::bold).width + pen.px(margin);
  };
  double width = std::max(pen.px(shape(what).width), measured(pen.t(shape(what).key) + " ↓"));
  double texts = 0;
  for (std::size_t i = 0; i < std::min(looked_at, table_.size()); ++i)
    texts = std::max(texts, measured(cell(pen, table_[i], what)));
  return std::max(width, std::min(texts, pen.px(what == What::trainee ? longest_name : longest)));
}

// Where there is too little room, the figures that say least give way first, then titles and
// names.
std::vector<ReviewClass::Column> ReviewClass::columns_for(const Pen& pen, double width) const {
  constexpr int matters = 5;
  std::vector<Column> list;
  for (std::size_t i = 0; i < CohortView::columns; ++i) {
    const auto what = static_cast<What>(i);
    if (what != What::scenario || scenario_ == 0) list.push_back({what, 0, width_of(pen, what)});
  }
  const auto needed = [&] {
    double sum = 0;
    for (const auto& c : list) sum += c.width;
    return sum;
  };
  const auto first_out = [&] {
    return std::min_element(list.begin(), list.end(), [](const Column& a, const Column& b) {
      return shape(a.what).leave_out < shape(b.what).leave_out;
    });
  };
  const auto gives_way = [](What w) { return w == What::trainee || w == What::scenario; };
  while (needed() > width && shape(first_out()->what).leave_out < matters) list.erase(first_out());
  for (auto c = list.rbegin(); c != list.rend(); ++c)
    if (gives_way(c->what) && needed() > width)
      c->width = std::max(pen.px(shape(c->what).width), c->width - (needed() - width));
  while (needed() > width && list.size() > 3) list.erase(first_out());
  const auto names =
      std::count_if(list.begin(), list.end(), [&](const Column& c) { return gives_way(c.what); });
  for (auto& c : list)
    if (gives_way(c.what))
      c.width += std::clamp(width_of(pen, c.what) - c.width, 0.0, std::max(0.0, width - needed()));
  const double over = (width - needed()) / static_cast<double>(names);
  double x = 0;
  for (auto& c : list) {
    if (gives_way(c.what)) c.width += over;
    c.x = x;
    x += c.width;
  }
  return list;
}

std::string ReviewClass::cell(const Pen& pen, const CohortRow& r, What what) const {
  const auto& s = r.summary;
  const bool played = s.completed > 0;
  switch (what) {
    case What::trainee:
      return s.trainee_name;
    case What::scenario:
      return r.title;
    case What::standing:
      return standing_words(r.readiness, pen.t);
    case What::verdict:
      return played ? picture::verdict_words(s.last_verdict, pen.t) : "–";
    case What::last:
      return played ? points(s.last) : "–";
    case What::best:
      return played ? points(s.best) : "–";
    case What::trend:
      return played ? fmt::format("{:+.1f}", s.trend) : "–";
    case What::due:
      return played ? due_words(r.due, table_.now(), pen.t) : "–";
    case What::drills:
      return std::to_string(s.sessions);
  }
  return {};
}

void ReviewClass::draw(Pen& outer, const Box& box) {
  hits_.clear();
  Pen pen{outer.canvas, outer.theme, outer.t, hits_, outer.pointer};
  const double gap = pen.px(12);
  const std::vector<BarButton> buttons = {
      {pen.t("review.back"), pen.t("key.escape"), id_back},
      {pen.t("review.heat"), "F3", id_heat, {false, false, row() != nullptr}},
      {pen.t("review.report"), "F4", id_report, {false, false, table_.all() > 0}},
      {pen.t("review.open"), pen.t("key.enter"), id_open, {true, false, row() != nullptr}}};
  const double width = box.width - 2 * gap,
               bar = button_bar_height(pen, width, buttons) + pen.px(8);
  const Box view{box.x + gap, box.y + gap, width, box.height - 2 * gap - bar};
  const Box in = panel(pen, view);
  double y = draw_filters(pen, in);
  if (!problem_.empty() || !told_.empty())
    y = paragraph(pen, {in.x, y}, in.width, problem_.empty() ? told_ : problem_, TextSize::label,
                  problem_.empty() ? pen.ink().good : pen.ink().danger, Weight::bold);
  const Box rest{in.x, y, in.width, in.bottom() - y};
  if (table_.size() == 0) {
    draw_empty(pen, rest);
  } else {
    const auto columns = columns_for(pen, in.width - pen.px(14));
    const double head = pen.px(30);
    draw_head(pen, {rest.x, rest.y, rest.width, head}, columns);
    draw_rows(pen, {rest.x, rest.y + head, rest.width, rest.height - head}, columns);
  }
  button_bar(pen, {view.x, view.bottom() + pen.px(8), width, bar}, buttons);
}

// Where it is low the heading gives way, and the standings are shown one at a time.
double ReviewClass::draw_filters(Pen& pen, const Box& box) {
  const double gap = pen.px(8), line = pen.px(34);
  const bool low = box.height < pen.px(330);
  const auto tab = pen.t("key.tab");
  double y = box.y;
  if (!low) {
    const auto keys = pen.t("review.class.keys");
    auto style = pen.style(TextSize::label, pen.ink().ink_soft);
    style.level = picture::Level::top;
    style.align = picture::Align::right;
    const double used = pen.canvas.measure(keys, style.size, {}).width + gap;
    pen.canvas.text({box.right(), box.y + pen.px(4)}, keys, style);
    y = heading(
        pen, {box.x, box.y}, box.width - used,
        pen.t(table_.all() >= ReviewDesk::most_rows ? "review.class.first" : "review.class.title",
              {std::to_string(table_.size()), std::to_string(table_.all())}));
  }
  const auto title =
      scenario_ == 0 ? pen.t("review.scenario.all") : scenarios_[scenario_ - 1].title;
  const auto options = only_words(pen);
  const double left = (box.width - gap) * 0.42, right = box.width - left - gap;
  text_field(pen, {box.x, y, left, line}, view_.search, pen.t("review.search"), true, id_search);
  const double only = (low ? box.x + left + gap : box.x) + key_cap_width(pen, tab) + gap,
               only_y = low ? y : y + line + gap;
  key_cap(pen, {only - key_cap_width(pen, tab) - gap, only_y + line / 2}, tab);
  if (low)
    stepper(pen, {only, only_y, box.right() - only, line},
            options[static_cast<std::size_t>(view_.only)], false, id_only_back, id_only_on);
  const Box scenario{low ? box.x : box.x + left + gap, low ? y + line + gap : y,
                     low ? box.width : right, line};
  stepper(pen, scenario, title, false, id_scenario_back, id_scenario_on);
  if (!low)
    switcher(pen, {only, only_y, box.right() - only, line}, options,
             static_cast<std::size_t>(view_.only), false, id_only);
  return y + 2 * (line + gap);
}

std::vector<std::string> ReviewClass::only_words(const Pen& pen) const {
  static constexpr const char* keys[] = {"review.only.all", "review.only.evidence",
                                         "review.only.practising", "review.only.due",
                                         "review.only.signed-off"};
  std::vector<std::string> options;
  for (std::size_t i = 0; i < CohortView::onlys; ++i)
    options.push_back(pen.t(keys[i], {std::to_string(table_.counts()[i])}));
  return options;
}

void ReviewClass::draw_head(Pen& pen, const Box& box, const std::vector<Column>& columns) {
  for (const auto& c : columns) {
    const bool chosen = c.what == view_.by;
    auto style =
        pen.style(TextSize::label, chosen ? pen.ink().accent : pen.ink().ink_soft, Weight::bold);
    style.level = picture::Level::middle;
    const std::string arrow = chosen ? (view_.descending ? " ↓" : " ↑") : "";
    const auto text = picture::shorten(pen.canvas, pen.t(shape(c.what).key) + arrow,
                                       c.width - pen.px(8), style.size, style.weight);
    const bool right = is_number(c.what);
    style.align = right ? picture::Align::right : picture::Align::left;
    const double x = box.x + c.x + (right ? c.width - pen.px(14) : pen.px(6));
    pen.canvas.text({x, box.centre().y}, text, style);
    pen.hits.add({box.x + c.x, box.y, c.width, box.height}, id_column + static_cast<int>(c.what));
  }
  pen.canvas.line({box.x, box.bottom() - pen.px(2)}, {box.right(), box.bottom() - pen.px(2)},
                  {pen.ink().edge_strong, pen.px(1)});
}

// Names and titles take the lines they need. They are measured once, and each text once: a class
// may have many rows.
void ReviewClass::measure_rows(const Pen& pen, const std::vector<Column>& columns) {
  const double size = pen.size(TextSize::label);
  std::vector<double> now{size};
  for (const auto& c : columns) now.push_back(c.width);
  if (now == measured_) return;
  measured_ = now;
  const double line = pen.canvas.measure("X", size, Weight::bold).height;
  std::map<std::string, double> of_title;
  const auto height = [&](const std::string& text, double width) {
    return picture::paragraph_height(pen.canvas, text, width - pen.px(14), size, Weight::bold);
  };
  tops_.assign(1, 0);
  for (std::size_t i = 0; i < table_.size(); ++i) {
    double most = line;
    for (const auto& c : columns) {
      if (c.what == What::trainee)
        most = std::max(most, height(table_[i].summary.trainee_name, c.width));
      if (c.what != What::scenario) continue;
      const auto [title, fresh] = of_title.try_emplace(table_[i].title, 0);
      if (fresh) title->second = height(title->first, c.width);
      most = std::max(most, title->second);
    }
    tops_.push_back(tops_.back() + pen.px(34) + most - line);
  }
}

void ReviewClass::draw_rows(Pen& pen, const Box& view, const std::vector<Column>& columns) {
  measure_rows(pen, columns);
  scroll_.view = view.height;
  scroll_.content = tops_.back();
  const double lowest = tops_[row_ + 1] - view.height;
  scroll_.offset = std::clamp(scroll_.offset, lowest, std::max(tops_[row_], lowest));
  scroll_.move(0);
  const picture::Clip clip(pen.canvas, view);
  const auto below = std::upper_bound(tops_.begin(), tops_.end(), scroll_.offset);
  const auto beyond = std::upper_bound(below, tops_.end(), scroll_.offset + view.height);
  page_ = static_cast<std::size_t>(std::max<std::ptrdiff_t>(1, beyond - below));
  for (auto i = static_cast<std::size_t>(below - tops_.begin()) - 1; i < table_.size(); ++i) {
    const Box row{view.x, view.y - scroll_.offset + tops_[i], view.width - pen.px(12),
                  tops_[i + 1] - tops_[i]};
    if (row.y > view.bottom()) break;
    draw_row(pen, row, i, columns);
  }
  scroll_bar(pen, view, scroll_);
}

void ReviewClass::draw_row(Pen& pen, const Box& box, std::size_t i,
                           const std::vector<Column>& columns) {
  const auto& ink = pen.ink();
  const auto& r = table_[i];
  const bool chosen = i == row_;
  if (chosen || box.contains(pen.pointer))
    pen.canvas.rectangle(
        box.inset(pen.px(1)),
        {ink.accent_soft, {chosen ? ink.accent : ink.edge, pen.px(chosen ? 2 : 1)}}, pen.px(6));
  pen.hits.add(box, id_row + static_cast<int>(i));
  const bool overdue = r.summary.completed > 0 && r.due <= table_.now();
  for (const auto& c : columns) {
    auto colour = ink.ink;
    if (c.what == What::standing) colour = standing_colour(r.readiness, ink);
    if (c.what == What::due && overdue) colour = ink.caution;
    const bool strong = (c.what == What::due && overdue) || (chosen && c.what == What::trainee) ||
                        (c.what == What::standing && r.readiness >= Readiness::evidence);
    auto style = pen.style(TextSize::label, colour, strong ? Weight::bold : Weight::regular);
    if (is_number(c.what)) style.align = picture::Align::right;
    const auto text = cell(pen, r, c.what);
    const double width = c.width - pen.px(14),
                 high =
                     picture::paragraph_height(pen.canvas, text, width, style.size, style.weight),
                 x = box.x + c.x + (is_number(c.what) ? 0 : pen.px(6));
    picture::paragraph(pen.canvas, {x, box.centre().y - high / 2, width, high + 1}, text, style);
  }
}

void ReviewClass::draw_empty(Pen& pen, const Box& box) {
  const char* key = table_.all() > 0    ? "review.empty.filter"
                    : !problem_.empty() ? "people.problem"
                                        : "review.empty.class";
  const double y = paragraph(pen, {box.x, box.y + pen.px(8)}, box.width, pen.t(key), TextSize::body,
                             pen.ink().ink, Weight::regular, box.bottom());
  if (problem_.empty()) return;
  const double width = button_width(pen, pen.t("people.again"), "");
  button(pen, {box.x, y + pen.px(12), width, button_height(pen)}, pen.t("people.again"), "", {},
         id_again);
}

}  // namespace beforehand::stage
