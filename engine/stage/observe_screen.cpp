// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/observe_screen.hpp"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <sstream>

#include "picture/case_chart.hpp"
#include "picture/text.hpp"
#include "procedure/title.hpp"
#include "stage/big_buttons.hpp"
#include "stage/page.hpp"
#include "stage/picture_words.hpp"
#include "stage/text_input.hpp"
#include "stage/widgets.hpp"

namespace beforehand::stage {
namespace {

using study::Tap;

enum Id {
  id_pause,
  id_undo,
  id_earlier,
  id_later,
  id_note,
  id_step,
  id_end,
  id_back,
  id_finish,
  id_leave,
  id_slot = 100
};
constexpr Ms nudge{500};
constexpr std::size_t longest_text = 80;  // letters
std::string contents(const std::string& file) {
  std::ifstream in(file, std::ios::binary);
  std::ostringstream out;
  out << in.rdbuf();
  return out.str();
}

}  // namespace

ObserveScreen::ObserveScreen(const procedure::Procedure& procedure, std::string file)
    : procedure_(procedure), file_(std::move(file)) {
  if (file_.empty()) return;
  const auto text = contents(file_);
  std::vector<Problem> problems;
  if (!text.empty()) log_ = study::CaseLog::parse(text, problems);
  if (!problems.empty()) problem_ = print(problems, file_, text);
  now_ = log_.last();
  if (!text.empty() && text.back() == '\n') return;
  std::ofstream out(file_, std::ios::binary | std::ios::app);  // a line cut off ends here
  out << (text.empty() ? study::log_heading() : "\n") << std::flush;
  if (!out) problem_ = file_;
}

void ObserveScreen::tap(Tap t) {
  t.at = now_;
  if (!file_.empty() && problem_.empty()) {
    std::ofstream out(file_, std::ios::binary | std::ios::app);
    out << study::log_line(t) << std::flush;
    if (!out) problem_ = file_;
  }
  log_.add(std::move(t));
}

void ObserveScreen::pass(std::chrono::microseconds real) {
  if (!running()) return;
  rest_ += real;
  const auto whole = std::chrono::duration_cast<Ms>(rest_);
  rest_ -= whole;
  now_ += whole;
}

// What goes on first, then what is still to come, in the file's order.
std::vector<ObserveScreen::Slot> ObserveScreen::slots(std::size_t column) const {
  std::vector<Slot> out;
  const PersonIx who{column};
  const auto& name = procedure_.people[column].name;
  for (const auto& w : log_.going_on())
    if (w.person == name) out.push_back({w.step, false});
  std::size_t skipped = 0;
  for (const auto& step : procedure_.steps) {
    if (out.size() >= buttons_a_column) break;
    if (!procedure_.may_do(who,
                           StepIx{static_cast<std::size_t>(&step - procedure_.steps.data())}) ||
        log_.seen(step.title))
      continue;
    if (skipped++ < ahead_) continue;
    out.push_back({step.title, step.is_cover() || !step.attention});
  }
  return out;
}

// Beginning something that takes the attention ends what had it.
void ObserveScreen::toggle(std::size_t column, const Slot& slot) {
  column_ = column;
  paused_ = false;
  const auto& name = procedure_.people[column].name;
  if (log_.goes_on(name, slot.text)) return tap({Tap::Kind::end, {}, name, slot.text, {}});
  const auto beside = [&](const std::string& text) {
    return std::any_of(procedure_.steps.begin(), procedure_.steps.end(), [&](const auto& s) {
      return s.title == text && (s.is_cover() || !s.attention);
    });
  };
  if (!slot.beside)
    for (const auto& w : log_.going_on())
      if (w.person == name && !beside(w.step)) tap({Tap::Kind::end, {}, name, w.step, {}});
  tap({Tap::Kind::start, {}, name, slot.text, {}});
}

void ObserveScreen::undo() {
  if (!log_.empty()) tap({Tap::Kind::undo, {}, "", "", {}});
}

void ObserveScreen::shift(Ms by) {
  if (!log_.empty()) tap({Tap::Kind::shift, {}, "", "", by});
}

// The table beside the log; the log itself is put away under the table's name.
ObserveScreen::Outcome ObserveScreen::finish() {
  if (file_.empty()) return Outcome::home;
  namespace fs = std::filesystem;
  const fs::path log(file_);
  fs::path table;
  std::error_code failed;
  for (int i = 1; table.empty() || fs::exists(table, failed); ++i)
    table = log.parent_path() / (procedure_.id + "-case-" + std::to_string(i) + ".csv");
  std::ofstream out(table, std::ios::binary);
  out << study::to_csv(log_.timed(now_, "")) << std::flush;
  if (!out) {
    problem_ = table.string();
    return Outcome::stay;
  }
  fs::rename(log, fs::path(table).replace_extension(".case"), failed);
  table_ = table.string();
  return Outcome::home;
}

ObserveScreen::Outcome ObserveScreen::handle(const Input& input) {
  if (input.kind == Input::Kind::wheel) scroll_.move(-input.wheel * 60);
  if (input.kind == Input::Kind::press) return on_press({input.x, input.y});
  if (typing_ != Typing::nothing) {
    on_typing(input);
    return Outcome::stay;
  }
  return input.kind == Input::Kind::key ? on_key(input) : Outcome::stay;
}

void ObserveScreen::on_typing(const Input& input) {
  if (input.kind == Input::Kind::text && input.symbol != opened_by_ &&
      letters_in(typed_) < longest_text)
    append(typed_, input.symbol);
  opened_by_ = 0;
  if (input.kind != Input::Kind::key) return;
  if (input.key == Key::backspace) erase_last(typed_);
  if (input.key != Key::enter && input.key != Key::escape) return;
  if (input.key == Key::enter && !typed_.empty()) {
    if (typing_ == Typing::note)
      tap({Tap::Kind::note, {}, procedure_.people[column_].name, typed_, {}});
    else
      toggle(column_, {typed_, false});
  }
  typing_ = Typing::nothing;
  typed_.clear();
}

ObserveScreen::Outcome ObserveScreen::on_key(const Input& input) {
  if (face_ == Face::result) {
    if (input.key == Key::enter) return finish();
    if (input.key == Key::escape) face_ = Face::timing;
    if (input.key == Key::symbol && input.symbol == U'l') return Outcome::home;
    scroll_.follow(input.key);
    return Outcome::stay;
  }
  switch (input.key) {
    case Key::space:
      paused_ = !paused_;
      break;
    case Key::backspace:
      undo();
      break;
    case Key::left:
    case Key::right:
      shift(input.key == Key::left ? -nudge : nudge);
      break;
    case Key::tab:
      column_ = (column_ + 1) % procedure_.people.size();
      break;
    case Key::page_down:
      ahead_ = std::min(ahead_ + 3, procedure_.steps.size());
      break;
    case Key::page_up:
      ahead_ -= std::min<std::size_t>(ahead_, 3);
      break;
    case Key::escape:
      paused_ = true;
      face_ = Face::result;
      break;
    case Key::symbol:
      on_symbol(input.symbol);
      break;
    default:
      break;
  }
  return Outcome::stay;
}

void ObserveScreen::on_symbol(char32_t c) {
  if (c == U'n' || c == U'm') {
    typing_ = c == U'n' ? Typing::note : Typing::step;
    opened_by_ = c;
    return;
  }
  press_slot(button_of(c, procedure_.people.size()));
}

void ObserveScreen::press_slot(int button) {
  if (button < 0) return;
  const auto column = static_cast<std::size_t>(button) / buttons_a_column;
  const auto place = static_cast<std::size_t>(button) % buttons_a_column;
  const auto all = slots(column);
  if (place < all.size()) toggle(column, all[place]);
}

ObserveScreen::Outcome ObserveScreen::on_press(Point at) {
  const int id = hits_.at(at).value_or(-1);
  switch (id) {
    case id_pause:
      paused_ = !paused_;
      break;
    case id_undo:
      undo();
      break;
    case id_earlier:
    case id_later:
      shift(id == id_earlier ? -nudge : nudge);
      break;
    case id_note:
      typing_ = Typing::note;
      break;
    case id_step:
      typing_ = Typing::step;
      break;
    case id_end:
      return on_key(Input::of_key(Key::escape));
    case id_back:
      face_ = Face::timing;
      break;
    case id_finish:
      return finish();
    case id_leave:
      return Outcome::home;
    default:
      if (id >= id_slot) press_slot(id - id_slot);
  }
  return Outcome::stay;
}

void ObserveScreen::draw(Pen& outer, const Box& box) {
  hits_.clear();
  Pen pen{outer.canvas, outer.theme, outer.t, hits_, outer.pointer};
  if (face_ == Face::result) return draw_result(pen, box);
  const double gap = pen.px(12), top = pen.px(84), chart = pen.px(190),
               bar = button_height(pen) + 2 * gap;
  draw_top(pen, {box.x + gap, box.y + gap, box.width - 2 * gap, top});
  const auto n = procedure_.people.size();
  const double width = (box.width - gap) / static_cast<double>(n) - gap, y = box.y + top + 2 * gap,
               height = box.height - top - chart - bar - 3 * gap;
  for (std::size_t i = 0; i < n; ++i)
    draw_column(pen, {box.x + gap + static_cast<double>(i) * (width + gap), y, width, height}, i);
  draw_chart(pen, {box.x + gap, y + height + gap, box.width - 2 * gap, chart});
  draw_bar(pen, {box.x + gap, box.bottom() - bar + gap, box.width - 2 * gap, button_height(pen)});
}

void ObserveScreen::draw_top(Pen& pen, const Box& box) const {
  const auto& ink = pen.ink();
  const Box in = panel(pen, box);
  auto big = pen.style(TextSize::title, paused_ ? ink.caution : ink.accent, Weight::bold);
  big.level = picture::Level::top;
  const auto clock = clock_text(now_);
  pen.canvas.text({in.x, in.y}, clock, big);
  const double x = in.x + pen.canvas.measure(clock, big.size, Weight::bold).width + pen.px(20);
  const double width = in.right() - x;
  auto style = pen.style(TextSize::body, ink.ink, Weight::bold);
  style.level = picture::Level::top;
  const auto title = pen.t(paused_ ? "observe.paused" : "observe.title", {full_title(procedure_)});
  pen.canvas.text({x, in.y}, picture::shorten(pen.canvas, title, width, style.size, Weight::bold),
                  style);
  auto small = pen.style(TextSize::label, problem_.empty() ? ink.ink_soft : ink.danger);
  small.level = picture::Level::top;
  const auto line =
      problem_.empty() ? pen.t("observe.caution") : pen.t("observe.unsaved", {problem_});
  pen.canvas.text({x, in.y + pen.px(26)},
                  picture::shorten(pen.canvas, line, width, small.size, Weight::regular), small);
}

void ObserveScreen::draw_column(Pen& pen, const Box& box, std::size_t column) {
  const auto& name = procedure_.people[column].name;
  std::vector<BigButton> buttons;
  for (const auto& slot : slots(column)) {
    const Ms since = log_.since(name, slot.text);
    const bool on = since != never;
    buttons.push_back({on ? clock_text(now_ - since) + "  " + slot.text : slot.text, "", on, true});
  }
  big_buttons(pen, box, name, column == column_, column, buttons, true,
              id_slot + static_cast<int>(column * buttons_a_column));
}

void ObserveScreen::draw_chart(Pen& pen, const Box& box) const {
  const auto figures = study::figures(log_.timed(now_, ""), &procedure_);
  const Box in = panel(pen, box);
  if (typing_ != Typing::nothing) {
    const double y =
        paragraph(pen, {in.x, in.y}, in.width,
                  pen.t(typing_ == Typing::note ? "observe.note.hint" : "observe.step.hint",
                        {procedure_.people[column_].name}),
                  TextSize::body, pen.ink().ink, Weight::bold);
    text_field(pen, {in.x, y + pen.px(6), in.width, pen.px(38)}, typed_, "", true, -1);
    return;
  }
  if (figures.work.empty()) {
    paragraph(pen, {in.x, in.y}, in.width, pen.t("observe.begin"), TextSize::body,
              pen.ink().ink_soft, Weight::regular, in.bottom());
    return;
  }
  picture::ChartView view;
  view.words = chart_words(pen.t);
  view.legend = view.shares = false;
  view.to = std::max(Ms{60'000}, figures.chair_time + Ms{5000});
  view.from = std::max(Ms{0}, view.to - Ms{120'000});
  picture::draw_chart(pen.canvas, picture::case_chart(figures, ""), view, pen.theme, in);
}

void ObserveScreen::draw_bar(Pen& pen, const Box& box) {
  double x = box.x;
  const auto add = [&](const char* key, std::string_view cap, int id, ButtonLook look = {}) {
    const double width = button_width(pen, pen.t(key), cap);
    button(pen, {x, box.y, width, box.height}, pen.t(key), cap, look, id);
    x += width + pen.px(8);
  };
  add(paused_ ? "observe.go" : "observe.pause", pen.t("key.space"), id_pause,
      {paused_, false, true});
  add("observe.undo", pen.t("key.backspace"), id_undo, {false, false, !log_.empty()});
  add("observe.earlier", "←", id_earlier, {false, false, !log_.empty()});
  add("observe.later", "→", id_later, {false, false, !log_.empty()});
  add("observe.note", "N", id_note);
  add("observe.step", "M", id_step);
  const double width = button_width(pen, pen.t("observe.end"), pen.t("key.escape"));
  button(pen, {box.right() - width, box.y, width, box.height}, pen.t("observe.end"),
         pen.t("key.escape"), {}, id_end);
}

void ObserveScreen::draw_result(Pen& pen, const Box& box) {
  page(pen, box, scroll_, [&](Flow& flow) { write_figures(pen, flow); },
       {{pen.t("observe.back"), pen.t("key.escape"), id_back},
        {pen.t("observe.leave"), "L", id_leave},
        {pen.t("observe.finish"), pen.t("key.enter"), id_finish, {true, true, true}}});
}

void ObserveScreen::write_figures(Pen& pen, Flow& flow) const {
  const auto& ink = pen.ink();
  const auto& t = pen.t;
  const auto f = study::figures(log_.timed(now_, ""), &procedure_);
  flow.heading(t("observe.result", {full_title(procedure_)}));
  if (!problem_.empty()) flow.text(t("observe.unsaved", {problem_}), ink.danger);
  if (f.work.empty()) return flow.text(t("observe.nothing"), ink.ink);
  auto view = picture::whole(picture::case_chart(f, ""));
  view.words = chart_words(t);
  const auto chart = picture::case_chart(f, "");
  const double height = picture::chart_height(pen.canvas, chart, view, pen.theme, flow.width());
  picture::draw_chart(pen.canvas, chart, view, pen.theme, {flow.x(), flow.y, flow.width(), height});
  flow.y += height + pen.px(10);
  flow.text(t("observe.time", {duration_text(f.chair_time), duration_text(f.both_idle)}), ink.ink);
  for (std::size_t i = 0; i < f.lanes.size(); ++i)
    flow.item("•",
              t("observe.split",
                {f.lanes[i], duration_text(f.time[i].work), duration_text(f.time[i].cover),
                 duration_text(f.time[i].waiting), duration_text(f.time[i].standby)}),
              ink.ink);
  flow.gap(10);
  const bool waits =
      std::any_of(f.apart.begin(), f.apart.end(), [](const auto& a) { return a.waiting; });
  if (waits) flow.heading(t("observe.waits"));
  for (const auto& a : f.apart)
    if (a.waiting)
      flow.item("•",
                t("observe.wait",
                  {clock_text(a.from), f.lanes[a.lane], duration_text(a.to - a.from), a.for_what}),
                ink.ink);
  flow.gap(10);
  flow.heading(t("observe.order", {std::to_string(f.order.kept), std::to_string(f.order.actions),
                                   std::to_string(f.order.steps)}));
  int number = 0;
  const auto tell = [&](const char* key, const std::vector<std::size_t>& which) {
    for (const auto i : which)
      flow.item(std::to_string(++number), t(key, {clock_text(f.work[i].start), f.work[i].label}),
                ink.ink);
  };
  tell("observe.out_of_order", f.out_of_order);
  tell("observe.repeated", f.repeated);
  tell("observe.extra", f.extra);
  for (const auto s : f.omitted)
    flow.item("–", t("observe.omitted", {procedure_.step(s).title}), ink.ink_soft);
  for (const auto& l : f.lags)
    flow.item("•",
              t(l.off < Ms{0} ? "observe.too_soon" : "observe.too_late",
                {procedure_.step(l.step).title, procedure_.step(l.before).title,
                 duration_text(l.off < Ms{0} ? -l.off : l.off)}),
              ink.ink);
  flow.gap(10);
  auto notes = log_.taps();
  std::erase_if(notes, [](const Tap& tap) { return tap.kind != Tap::Kind::note; });
  if (!notes.empty()) flow.heading(t("observe.notes"));
  for (const auto& tap : notes) flow.item("•", clock_text(tap.at) + "  " + tap.text, ink.ink);
}

}  // namespace beforehand::stage
