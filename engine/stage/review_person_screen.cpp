// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/review_person_screen.hpp"

#include <algorithm>

#include "picture/review_words.hpp"
#include "picture/text.hpp"
#include "stage/page.hpp"
#include "stage/review_class_screen.hpp"
#include "stage/widgets.hpp"

namespace beforehand::stage {
namespace {

using records::SessionRecord;

enum Id {
  id_back,
  id_session,
  id_mark,
  id_pair,
  id_report,
  id_sign,
  id_note,
  id_other,
  id_scenario_back,
  id_scenario_on,
  id_row = 100
};

bool alone(const SessionRecord& s) { return !records::counts_for_standing(s.assistant); }

bool is_slim(const Pen& pen, double width) { return width < pen.px(480); }

}  // namespace

ReviewPerson::ReviewPerson(ReviewDesk::Trainee t, std::string scenario, bool trainer)
    : trainee_(std::move(t)), trainer_(trainer) {
  const auto& list = file().scenarios;
  for (std::size_t i = 0; i < list.size(); ++i)
    if (list[i].scenario == scenario) scenario_ = i;
}

void ReviewPerson::refresh(ReviewDesk::Trainee t) {
  const auto was = review() ? review()->scenario : std::string();
  trainee_ = std::move(t);
  const auto& list = file().scenarios;
  scenario_ = 0;
  for (std::size_t i = 0; i < list.size(); ++i)
    if (list[i].scenario == was) scenario_ = i;
  row_ = std::min(row_, drills() == 0 ? 0 : drills() - 1);
}

void ReviewPerson::tell(std::string words, bool wrong) {
  told_ = std::move(words);
  wrong_ = wrong;
}

void ReviewPerson::show_criteria(std::vector<records::Criterion> list) {
  criteria_ = std::move(list);
  criteria_of_ = review() ? review()->scenario : std::string();
}

const records::ScenarioReview* ReviewPerson::review() const {
  return scenario_ < file().scenarios.size() ? &file().scenarios[scenario_] : nullptr;
}

const procedure::Procedure* ReviewPerson::procedure() const {
  return review() ? file().procedures[scenario_] : nullptr;
}

const records::SignOff* ReviewPerson::signed_off() const {
  if (!review()) return nullptr;
  for (const auto& s : file().sign_offs)
    if (s.scenario == review()->scenario && s.stands()) return &s;
  return nullptr;
}

const SessionRecord& ReviewPerson::drill(std::size_t newest_first) const {
  const auto& all = review()->sessions;
  return all[all.size() - 1 - newest_first];
}

const SessionRecord* ReviewPerson::session() const {
  return row_ < drills() ? &drill(row_) : nullptr;
}

const SessionRecord* ReviewPerson::marked() const {
  if (!review()) return nullptr;
  for (const auto& s : review()->sessions)
    if (s.id == marked_) return &s;
  return nullptr;
}

ReviewPerson::Outcome ReviewPerson::handle(const Input& input) {
  if (input.kind == Input::Kind::press || input.kind == Input::Kind::key) told_.clear();
  if (input.kind == Input::Kind::press) return on_press({input.x, input.y});
  if (input.kind == Input::Kind::wheel) {
    if (one_at_a_time_ && drills_first_)
      move(input.wheel > 0 ? -1 : 1);
    else
      words_.move(-input.wheel * 60);
  }
  return input.kind == Input::Kind::key ? on_key(input.key) : Outcome::stay;
}

// What the outcome needs is there.
ReviewPerson::Outcome ReviewPerson::if_may(Outcome outcome) const {
  const bool two = marked() && session() && marked() != session();
  const bool may = outcome == Outcome::session ? session() != nullptr
                   : outcome == Outcome::pair  ? two
                   : outcome == Outcome::sign  ? trainer_ && review()
                   : outcome == Outcome::note  ? trainer_
                                               : true;
  return may ? outcome : Outcome::stay;
}

ReviewPerson::Outcome ReviewPerson::on_key(Key key) {
  switch (key) {
    case Key::escape:
      return Outcome::leave;
    case Key::enter:
      return if_may(Outcome::session);
    case Key::f3:
      return if_may(Outcome::pair);
    case Key::f4:
      return Outcome::report;
    case Key::f5:
      return if_may(Outcome::sign);
    case Key::f6:
      return if_may(Outcome::note);
    case Key::space:
      if (session()) marked_ = marked_ == session()->id ? records::Id() : session()->id;
      break;
    case Key::tab:
    case Key::back_tab:
      drills_first_ = !drills_first_;
      break;
    case Key::up:
    case Key::down:
      if (one_at_a_time_ && !drills_first_)
        words_.follow(key);
      else
        move(key == Key::up ? -1 : 1);
      break;
    case Key::left:
    case Key::right:
      step_scenario(key == Key::left ? -1 : 1);
      break;
    default:
      words_.follow(key);
      break;
  }
  return Outcome::stay;
}

ReviewPerson::Outcome ReviewPerson::on_press(Point at) {
  switch (const int id = hits_.at(at).value_or(-1)) {
    case id_back:
      return Outcome::leave;
    case id_session:
      return if_may(Outcome::session);
    case id_pair:
      return if_may(Outcome::pair);
    case id_report:
      return Outcome::report;
    case id_sign:
      return if_may(Outcome::sign);
    case id_note:
      return if_may(Outcome::note);
    case id_mark:
      return on_key(Key::space);
    case id_other:
      return on_key(Key::tab);
    case id_scenario_back:
    case id_scenario_on:
      step_scenario(id == id_scenario_on ? 1 : -1);
      break;
    default:
      if (id < id_row) break;
      if (row_ == static_cast<std::size_t>(id - id_row)) return if_may(Outcome::session);
      row_ = static_cast<std::size_t>(id - id_row);
  }
  return Outcome::stay;
}

void ReviewPerson::move(long by) {
  if (drills() == 0) return;
  const auto last = static_cast<long>(drills()) - 1;
  row_ = static_cast<std::size_t>(std::clamp(static_cast<long>(row_) + by, 0L, last));
}

void ReviewPerson::step_scenario(int by) {
  const auto last = static_cast<int>(file().scenarios.size()) - 1;
  const int next = std::clamp(static_cast<int>(scenario_) + by, 0, std::max(0, last));
  if (next == static_cast<int>(scenario_)) return;
  scenario_ = static_cast<std::size_t>(next);
  row_ = 0;
  marked_.clear();
  criteria_.clear();
  words_.offset = list_.offset = 0;
}

// Where only one half is shown, what goes with the other is left to the keys.
std::vector<BarButton> ReviewPerson::buttons(const Pen& pen) const {
  const auto may = [&](Outcome o) { return if_may(o) == o; };
  const bool drills = !one_at_a_time_ || drills_first_, words = !one_at_a_time_ || !drills_first_;
  std::vector<BarButton> list = {{pen.t("review.back"), pen.t("key.escape"), id_back}};
  if (one_at_a_time_)
    list.push_back(
        {pen.t(drills ? "review.column.standing" : "report.drills"), pen.t("key.tab"), id_other});
  if (drills) {
    list.push_back(
        {pen.t("review.mark"), pen.t("key.space"), id_mark, {false, false, session() != nullptr}});
    list.push_back({pen.t("review.pair"), "F3", id_pair, {false, false, may(Outcome::pair)}});
  }
  if (words) list.push_back({pen.t("review.report"), "F4", id_report});
  if (words && trainer_) {
    list.push_back({pen.t(signed_off() ? "review.revoke" : "review.sign"),
                    "F5",
                    id_sign,
                    {false, false, may(Outcome::sign)}});
    list.push_back({pen.t("review.note"), "F6", id_note});
  }
  if (drills)
    list.push_back({pen.t("review.debrief"),
                    pen.t("key.enter"),
                    id_session,
                    {true, false, may(Outcome::session)}});
  return list;
}

void ReviewPerson::draw(Pen& outer, const Box& box) {
  hits_.clear();
  Pen pen{outer.canvas, outer.theme, outer.t, hits_, outer.pointer};
  const double gap = pen.px(12), width = box.width - 2 * gap;
  one_at_a_time_ = width < pen.px(760);
  const auto all = buttons(pen);
  const double bar = button_bar_height(pen, width, all) + pen.px(8);
  const Box view{box.x + gap, box.y + gap, width, box.height - 2 * gap - bar};
  const double y = draw_head(pen, view);
  const Box rest{view.x, y, width, view.bottom() - y};
  if (one_at_a_time_)
    drills_first_ ? draw_drills(pen, panel(pen, rest)) : draw_words(pen, panel(pen, rest));
  else if (width >= pen.px(1000) && rest.height >= pen.px(420))
    draw_columns(pen, rest);
  else
    draw_beside(pen, rest);
  button_bar(pen, {view.x, view.bottom() + pen.px(8), width, bar}, all);
}

// Beside the name the scenario; in a small window each has a row of its own if the name is long.
double ReviewPerson::draw_head(Pen& pen, const Box& box) {
  const double line = pen.px(34), gap = pen.px(8), side = pen.px(6);
  const auto& name = file().trainee.name;
  const auto width_at = [&](TextSize size) {
    return pen.canvas.measure(name, pen.size(size), Weight::bold).width + 2 * side + gap;
  };
  const double part = (box.width - gap) * 0.42;
  const bool is_long = width_at(TextSize::heading) > part, stacked = is_long && one_at_a_time_;
  const auto size = is_long ? TextSize::label : TextSize::heading;
  const double left = stacked ? box.width : std::min(part, width_at(size)), room = left - 2 * side;
  const double high =
      picture::paragraph_height(pen.canvas, name, room, pen.size(size), Weight::bold);
  const double row = stacked ? high : std::max(line, high);
  paragraph(pen, {box.x + side, box.y + (row - high) / 2}, room, name, size, pen.ink().ink,
            Weight::bold);
  double y = box.y + row + gap;
  if (review()) {
    const double x = stacked ? box.x : box.x + left + gap;
    const Box at{x, stacked ? y : box.y + (row - line) / 2, box.right() - x, line};
    auto title = review()->title + " · " + standing_words(review()->readiness, pen.t);
    if (pen.canvas.measure(title, pen.size(TextSize::label), {}).width > at.width - pen.px(84))
      title = review()->title;
    stepper(pen, at, title, false, id_scenario_back, id_scenario_on);
    if (stacked) y = at.bottom() + gap;
  }
  if (!told_.empty())
    y = paragraph(pen, {box.x + side, y}, box.width - 2 * side, told_, TextSize::label,
                  wrong_ ? pen.ink().danger : pen.ink().good, Weight::bold) +
        gap;
  return y;
}

void ReviewPerson::draw_columns(Pen& pen, const Box& box) {
  const double gap = pen.px(12), left = (box.width - gap) * 0.55;
  const double curve = std::min(box.height * 0.52, pen.px(320));
  draw_curve(pen, panel(pen, {box.x, box.y, left, curve}));
  draw_drills(pen, panel(pen, {box.x, box.y + curve + gap, left, box.height - curve - gap}));
  draw_words(pen, panel(pen, {box.x + left + gap, box.y, box.width - left - gap, box.height}));
}

// In a small window or with large letters the curve gives way.
void ReviewPerson::draw_beside(Pen& pen, const Box& box) {
  const double gap = pen.px(10), left = (box.width - gap) / 2;
  draw_drills(pen, panel(pen, {box.x, box.y, left, box.height}));
  draw_words(pen, panel(pen, {box.x + left + gap, box.y, left, box.height}));
}

void ReviewPerson::draw_curve(Pen& pen, const Box& box) const {
  picture::CurveChart chart;
  if (review())
    for (const auto& s : review()->counted) {
      chart.totals.push_back(s.total);
      chart.ready.push_back(s.verdict == scoring::Verdict::ready);
    }
  if (chart.totals.empty()) {
    paragraph(pen, {box.x, box.y}, box.width, pen.t("review.curve.empty"), TextSize::body,
              pen.ink().ink_soft);
    return;
  }
  chart.curve = review()->curve;
  picture::draw_curve(pen.canvas, chart, picture::review_words(pen.t), pen.theme, box);
}

void ReviewPerson::draw_drills(Pen& pen, const Box& box) {
  const double top =
      heading(pen, {box.x, box.y}, box.width, pen.t("review.drills", {std::to_string(drills())}));
  if (drills() == 0) {
    paragraph(pen, {box.x, top}, box.width, pen.t("review.drills.empty"), TextSize::body,
              pen.ink().ink, Weight::regular, box.bottom());
    return;
  }
  const Box view{box.x, top, box.width, box.bottom() - top};
  const auto row = row_shape(pen, view.width - pen.px(12));
  list_.view = view.height;
  list_.content = static_cast<double>(drills()) * row.height;
  const double at = static_cast<double>(row_) * row.height;
  list_.offset = std::clamp(list_.offset, at + row.height - view.height,
                            std::max(at, at + row.height - view.height));
  list_.move(0);
  const picture::Clip clip(pen.canvas, view);
  for (auto i = static_cast<std::size_t>(list_.offset / row.height); i < drills(); ++i) {
    const Box box_of_row{view.x, view.y - list_.offset + static_cast<double>(i) * row.height,
                         view.width - pen.px(12), row.height};
    if (box_of_row.y > view.bottom()) break;
    draw_drill(pen, box_of_row, i, row);
  }
  scroll_bar(pen, view, list_);
}

// The level, the part that was played, and who played it if not the trainee.
std::string ReviewPerson::level_words(const SessionRecord& s, const Strings& t) const {
  std::string part = s.phase.empty() ? "" : " · " + s.phase;
  if (review() && procedure())
    for (const auto& phase : procedure()->phases)
      if (phase.id == s.phase) part = " · " + phase.title;
  if (alone(s)) part += " · " + t("review.drill.bot", {s.assistant});
  return t("level." + std::string(drill::word(s.level))) + part;
}

std::string ReviewPerson::verdict_of(const SessionRecord& s, const Strings& t) {
  return s.complete ? picture::verdict_words(s.verdict, t) : t("review.drill.interrupted");
}

// In a slim list the hour gives way, and a drill has two lines, as where its words need them.
ReviewPerson::RowShape ReviewPerson::row_shape(const Pen& pen, double width) const {
  const double size = pen.size(TextSize::label), total = pen.px(60), gap = pen.px(8);
  const auto wide = [&](const std::string& text) {
    return pen.canvas.measure(text, size, Weight::bold).width;
  };
  double level = 0, verdict = 0;
  for (std::size_t i = 0; i < drills(); ++i) {
    level = std::max(level, wide(level_words(drill(i), pen.t)));
    verdict = std::max(verdict, wide(verdict_of(drill(i), pen.t)));
  }
  RowShape row;
  const double rest = width - pen.px(row.mark) - total - pen.px(22);
  const double hour = pen.px(170), day = pen.px(116);
  row.slim = is_slim(pen, width) || hour + level + verdict + 2 * gap > rest;
  row.day = row.slim ? day : hour;
  row.words =
      row.slim ? 0 : std::min(std::max(level + gap, (rest - hour) * 0.52), rest - hour - verdict);
  row.height = pen.px(32);
  if (!row.slim) return row;
  double below = 0;
  for (std::size_t i = 0; i < drills(); ++i)
    below = std::max(below,
                     picture::paragraph_height(pen.canvas, level_words(drill(i), pen.t),
                                               width - pen.px(row.mark + 12), size, Weight::bold));
  row.height += below;
  return row;
}

void ReviewPerson::draw_drill(Pen& pen, const Box& box, std::size_t i, const RowShape& row) {
  const auto& ink = pen.ink();
  const auto& s = drill(i);
  const bool chosen = i == row_;
  if (chosen || box.contains(pen.pointer))
    pen.canvas.rectangle(
        box.inset(pen.px(1)),
        {ink.accent_soft, {chosen ? ink.accent : ink.edge, pen.px(chosen ? 2 : 1)}}, pen.px(6));
  pen.hits.add(box, id_row + static_cast<int>(i));
  const auto weight = chosen ? Weight::bold : Weight::regular;
  const auto put = [&](double x, const std::string& text, Colour colour,
                       picture::Align align = picture::Align::left) {
    auto style = pen.style(TextSize::label, colour, weight);
    style.level = picture::Level::middle;
    style.align = align;
    pen.canvas.text({box.x + x, box.y + pen.px(16)}, text, style);
  };
  const double mark = pen.px(row.mark);
  if (s.id == marked_) put(pen.px(6), "●", ink.accent);
  put(mark, row.slim ? records::day_text(s.started) : records::minute_text(s.started), ink.ink);
  put(mark + row.day + row.words, verdict_of(s, pen.t), s.unsafe ? ink.danger : ink.ink);
  put(box.width - pen.px(12), s.complete ? points(s.total) : "–", ink.ink, picture::Align::right);
  const auto level = level_words(s, pen.t);
  if (row.slim)
    paragraph(pen, {box.x + mark, box.y + pen.px(26)}, box.width - mark - pen.px(12), level,
              TextSize::label, ink.ink_soft, weight);
  else
    put(mark + row.day, level, ink.ink_soft);
}

void ReviewPerson::draw_words(Pen& pen, const Box& box) {
  const picture::Clip clip(pen.canvas, box);
  const double start = box.y - words_.offset;
  Flow flow(pen, {box.x, start}, box.width - pen.px(14));
  write_words(flow, pen);
  words_.view = box.height;
  words_.content = flow.y - start;
  words_.move(0);
  scroll_bar(pen, box, words_);
}

void ReviewPerson::write_words(Flow& flow, Pen& pen) const {
  if (review()) {
    if (trainer_) write_criteria(flow, pen);
    flow.heading(pen.t("review.next"));
    const auto& next = review()->next;
    if (next.empty()) flow.text(pen.t("review.next.none"), pen.ink().ink);
    for (std::size_t i = 0; i < std::min<std::size_t>(3, next.size()); ++i) {
      flow.item(std::to_string(i + 1), procedure()->phases[next[i].phase.at()].title, pen.ink().ink,
                Weight::bold);
      flow.under(picture::reason_words(*procedure(), next[i], pen.t), pen.ink().ink);
    }
    flow.gap(10);
    if (!trainer_) write_criteria(flow, pen);
    write_steps(flow, pen);
  }
  write_sign_offs(flow, pen);
  if (!file().unread.empty())
    for (const auto& id : file().unread)
      flow.text(pen.t("review.unread", {id}), pen.ink().caution, Weight::bold, TextSize::label);
  flow.text(pen.t("program.caution"), pen.ink().ink_soft, Weight::regular, TextSize::label);
}

void ReviewPerson::write_criteria(Flow& flow, Pen& pen) const {
  if (criteria_.empty()) return;
  flow.heading(pen.t("review.criteria"));
  for (const auto& c : criteria_) {
    flow.item(c.met ? "✓" : "✗",
              picture::criterion_words(c, *procedure(), pen.t) + " – " +
                  pen.t(c.met ? "review.met" : "review.unmet"),
              c.met ? pen.ink().good : pen.ink().ink, Weight::bold);
    for (const auto& line : picture::evidence_words(c, *review(), pen.t))
      flow.under(line, pen.ink().ink);
  }
  flow.gap(10);
}

void ReviewPerson::write_steps(Flow& flow, Pen& pen) const {
  flow.heading(pen.t("review.steps"));
  for (const auto& s : review()->steps) {
    const bool done = s.standing.competent();
    flow.item(done ? "✓" : "○", s.title + ": " + picture::step_words(s, pen.t),
              done ? pen.ink().good : pen.ink().ink);
  }
  flow.gap(10);
}

void ReviewPerson::write_sign_offs(Flow& flow, Pen& pen) const {
  flow.heading(pen.t("review.sign-offs"));
  if (file().sign_offs.empty()) flow.text(pen.t("review.sign-offs.none"), pen.ink().ink_soft);
  for (const auto& s : file().sign_offs) {
    const auto title = std::find_if(file().scenarios.begin(), file().scenarios.end(),
                                    [&](const auto& r) { return r.scenario == s.scenario; });
    flow.item(s.stands() ? "✓" : "✗",
              pen.t("review.sign-off", {title == file().scenarios.end() ? s.scenario : title->title,
                                        s.trainer_name, records::day_text(s.at)}),
              s.stands() ? pen.ink().good : pen.ink().danger, Weight::bold);
    if (!s.note.empty()) flow.under(s.note, pen.ink().ink);
    if (!s.stands())
      flow.under(pen.t("review.revoked", {records::day_text(s.revoked_at), s.revoked_why}),
                 pen.ink().danger);
  }
  flow.gap(10);
  if (file().notes.empty()) return;
  flow.heading(pen.t("review.notes"));
  for (const auto& n : file().notes)
    flow.item("•", records::day_text(n.at) + ": " + n.text, pen.ink().ink);
  flow.gap(10);
}

}  // namespace beforehand::stage
