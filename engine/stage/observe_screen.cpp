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
  id_person,
  id_free,
  id_durations,
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

ObserveScreen::ObserveScreen(const procedure::Procedure* protocol, std::string file,
                             std::vector<procedure::Procedure> in_other_words)
    : protocol_(protocol), in_other_words_(std::move(in_other_words)), file_(std::move(file)) {
  if (protocol_ != nullptr)
    for (const auto& person : protocol_->people) people_.push_back(person.name);
  open_log();
  for (const auto& tap : log_.taps())
    if (may_add_person() && tap.kind == Tap::Kind::start &&
        std::find(people_.begin(), people_.end(), tap.person) == people_.end())
      people_.push_back(tap.person);
  if (people_.empty()) begin_typing(Typing::person, U'b');  // the key that led here
}

void ObserveScreen::open_log() {
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

bool ObserveScreen::may_add_person() const {
  return protocol_ == nullptr && people_.size() < std::size(column_keys);
}

bool ObserveScreen::goes_beside(const std::string& text) const {
  return protocol_ != nullptr &&
         std::any_of(protocol_->steps.begin(), protocol_->steps.end(), [&](const auto& s) {
           return s.title == text && (s.is_cover() || !s.attention);
         });
}

// What goes on first, then what is likely to come.
std::vector<ObserveScreen::Slot> ObserveScreen::slots(std::size_t column, std::size_t most) const {
  std::vector<Slot> out;
  for (const auto& w : log_.going_on())
    if (w.person == people_[column]) out.push_back({w.step, goes_beside(w.step)});
  if (protocol_ != nullptr)
    add_coming(column, most, out);
  else
    add_earlier(column, out);
  if (out.size() > most) out.resize(most);
  return out;
}

bool ObserveScreen::seen(std::size_t step) const {
  return log_.seen(protocol_->steps[step].title) ||
         std::any_of(in_other_words_.begin(), in_other_words_.end(),
                     [&](const auto& p) { return log_.seen(p.steps[step].title); });
}

study::CaseFigures ObserveScreen::figures() const {
  return study::figures(log_.timed(now_, ""), protocol_, in_other_words_);
}

// The protocol's steps that were not seen yet, in the file's order.
void ObserveScreen::add_coming(std::size_t column, std::size_t most, std::vector<Slot>& out) const {
  std::size_t skipped = 0;
  for (std::size_t i = 0; i < protocol_->steps.size(); ++i) {
    if (out.size() >= most) break;
    const auto& step = protocol_->steps[i];
    if (!protocol_->may_do(PersonIx{column}, StepIx{i}) || seen(i)) continue;
    if (skipped++ < ahead_) continue;
    out.push_back({step.title, step.is_cover() || !step.attention});
  }
}

// What this person was seen at before, the latest first.
void ObserveScreen::add_earlier(std::size_t column, std::vector<Slot>& out) const {
  const auto taps = log_.taps();
  std::size_t skipped = 0;
  std::vector<std::string> told;
  for (const auto& slot : out) told.push_back(slot.text);
  for (auto tap = taps.rbegin(); tap != taps.rend(); ++tap) {
    const bool known = std::find(told.begin(), told.end(), tap->text) != told.end();
    if (tap->kind != Tap::Kind::start || tap->person != people_[column] || known) continue;
    told.push_back(tap->text);
    if (skipped++ >= ahead_) out.push_back({tap->text, false});
  }
}

// Beginning something that takes the attention ends what had it.
void ObserveScreen::toggle(std::size_t column, const Slot& slot) {
  column_ = column;
  paused_ = false;
  const auto& name = people_[column];
  if (log_.goes_on(name, slot.text)) return tap({Tap::Kind::end, {}, name, slot.text, {}});
  if (!slot.beside)
    for (const auto& w : log_.going_on())
      if (w.person == name && !goes_beside(w.step)) tap({Tap::Kind::end, {}, name, w.step, {}});
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
    table = log.parent_path() /
            ((protocol_ ? protocol_->id : "free") + "-case-" + std::to_string(i) + ".csv");
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
  if (input.key == Key::enter && !typed_.empty()) take_typed();
  typing_ = Typing::nothing;
  typed_.clear();
}

void ObserveScreen::begin_typing(Typing what, char32_t opened_by) {
  if (what == Typing::person && !may_add_person()) return;
  typing_ = people_.empty() ? Typing::person : what;
  opened_by_ = opened_by;
}

void ObserveScreen::take_typed() {
  switch (typing_) {
    case Typing::note:
      return tap({Tap::Kind::note, {}, people_[column_], typed_, {}});
    case Typing::step:
      return toggle(column_, {typed_, false});
    case Typing::person:
      people_.push_back(typed_);
      column_ = people_.size() - 1;
      return;
    case Typing::nothing:
      return;
  }
}

ObserveScreen::Outcome ObserveScreen::on_key(const Input& input) {
  if (face_ == Face::result) {
    if (input.key == Key::enter) return finish();
    if (input.key == Key::escape) face_ = Face::timing;
    if (input.key == Key::symbol && input.symbol == U'l') return Outcome::home;
    if (input.key == Key::symbol && input.symbol == U'd') return durations();
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
      if (!people_.empty()) column_ = (column_ + 1) % people_.size();
      break;
    case Key::page_down:
      ahead_ = std::min<std::size_t>(ahead_ + 3, protocol_ ? protocol_->steps.size() : 60);
      break;
    case Key::page_up:
      ahead_ -= std::min<std::size_t>(ahead_, 3);
      break;
    case Key::escape:
      paused_ = true;
      face_ = Face::result;
      break;
    case Key::symbol:
      return on_symbol(input.symbol);
    default:
      break;
  }
  return Outcome::stay;
}

ObserveScreen::Outcome ObserveScreen::on_symbol(char32_t c) {
  if (c == U'n') begin_typing(Typing::note, c);
  if (c == U'm') begin_typing(Typing::step, c);
  if (c == U'p') begin_typing(Typing::person, c);
  if (c == U'b' && may_go_free()) return Outcome::free;
  press_slot(button_of(c, people_.size()));
  return Outcome::stay;
}

// What was begun with a protocol goes on with it.
bool ObserveScreen::may_go_free() const { return protocol_ != nullptr && log_.empty(); }

// Only what is in a table counts, so a case under way is finished first.
ObserveScreen::Outcome ObserveScreen::durations() {
  if (protocol_ == nullptr || file_.empty()) return Outcome::stay;
  if (!log_.empty()) finish();
  return problem_.empty() ? Outcome::durations : Outcome::stay;
}

void ObserveScreen::press_slot(int button) {
  if (button < 0) return;
  const auto column = static_cast<std::size_t>(button) / buttons_a_column;
  const auto place = static_cast<std::size_t>(button) % buttons_a_column;
  const auto all = slots(column, rows_[column]);
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
      begin_typing(Typing::note);
      break;
    case id_step:
      begin_typing(Typing::step);
      break;
    case id_person:
      begin_typing(Typing::person);
      break;
    case id_free:
      return Outcome::free;
    case id_durations:
      return durations();
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
  const auto buttons = bar(pen);
  const bool typing = typing_ != Typing::nothing;
  compact_ = is_compact(pen, box);
  const double gap = pen.px(compact_ ? 8 : 12), top = top_height(pen, box.width - 2 * gap);
  const double below = button_bar_height(pen, box.width - 2 * gap, buttons) + 2 * gap;
  // In a small window the chart waits until one looks at it.
  const double chart = !compact_ ? pen.px(190) : typing || log_.empty() ? pen.px(86) : -gap;
  draw_top(pen, {box.x + gap, box.y + gap, box.width - 2 * gap, top});
  const auto n = people_.size();
  const double width = (box.width - gap) / static_cast<double>(std::max<std::size_t>(1, n)) - gap,
               y = box.y + top + 2 * gap, height = box.height - top - chart - below - 3 * gap;
  for (std::size_t i = 0; i < n; ++i)
    draw_column(pen, {box.x + gap + static_cast<double>(i) * (width + gap), y, width, height}, i);
  const double below_columns = n == 0 ? y : y + height + gap;
  if (chart > 0) draw_chart(pen, {box.x + gap, below_columns, box.width - 2 * gap, chart});
  button_bar(pen, {box.x + gap, box.bottom() - below + gap, box.width - 2 * gap, below}, buttons);
}

// What stands beside the clock: the title, what is wrong or to be minded, and what a correction
// would move. A small window has room for the first thing that matters.
std::vector<ObserveScreen::TopLine> ObserveScreen::top_lines(const Pen& pen) const {
  const auto& ink = pen.ink();
  const auto& t = pen.t;
  const TopLine title{t(paused_ ? "observe.paused" : "observe.title", {this->title(pen)}), ink.ink,
                      compact_ ? TextSize::label : TextSize::body, Weight::bold};
  const TopLine unsaved{t("observe.unsaved", {problem_}), ink.danger, TextSize::label,
                        Weight::bold};
  if (compact_) return {problem_.empty() ? title : unsaved};
  std::vector<TopLine> lines{title};
  if (problem_.empty())
    lines.push_back({t("observe.caution"), ink.ink_soft, TextSize::label, Weight::regular});
  else
    lines.push_back(unsaved);
  const auto taps = log_.taps();
  const auto last = std::find_if(taps.rbegin(), taps.rend(), [](const study::Tap& tap) {
    return tap.kind != study::Tap::Kind::note;
  });
  if (last != taps.rend())
    lines.push_back(
        {t(last->kind == study::Tap::Kind::start ? "observe.last.start" : "observe.last.end",
           {clock_text(last->at), last->person, last->text}),
         ink.ink, TextSize::label, Weight::regular});
  if (newer_) lines.push_back({t("newer.here"), ink.caution, TextSize::label, Weight::bold});
  return lines;
}

TextStyle ObserveScreen::clock_style(const Pen& pen) const {
  auto style = pen.style(compact_ ? TextSize::heading : TextSize::title,
                         paused_ ? pen.ink().caution : pen.ink().accent, Weight::bold);
  style.level = compact_ ? picture::Level::middle : picture::Level::top;
  return style;
}

// Where the lines beside the clock begin.
double ObserveScreen::beside_clock(const Pen& pen) const {
  const auto style = clock_style(pen);
  return pen.canvas.measure(clock_text(now_), style.size, style.weight).width +
         pen.px(compact_ ? 16 : 20);
}

double ObserveScreen::top_height(const Pen& pen, double width) const {
  const double around = compact_ ? 0 : pen.px(28);
  double height = around;
  for (const auto& line : top_lines(pen))
    height += picture::paragraph_height(pen.canvas, line.text, width - around - beside_clock(pen),
                                        pen.size(line.size), line.weight);
  return std::max(height, pen.px(compact_ ? 32 : 84));
}

void ObserveScreen::draw_top(Pen& pen, const Box& box) const {
  const Box in = compact_ ? box : panel(pen, box);
  pen.canvas.text({in.x, compact_ ? in.centre().y : in.y}, clock_text(now_), clock_style(pen));
  const double x = in.x + beside_clock(pen), width = in.right() - x;
  double height = 0, y = in.y;
  const auto lines = top_lines(pen);
  for (const auto& line : lines)
    height +=
        picture::paragraph_height(pen.canvas, line.text, width, pen.size(line.size), line.weight);
  if (compact_) y = in.centre().y - height / 2;
  for (const auto& line : lines)
    y = paragraph(pen, {x, y}, width, line.text, line.size, line.colour, line.weight);
}

std::string ObserveScreen::title(const Pen& pen) const {
  return protocol_ != nullptr ? full_title(*protocol_) : pen.t("observe.free.title");
}

void ObserveScreen::draw_column(Pen& pen, const Box& box, std::size_t column) {
  const auto& name = people_[column];
  std::vector<BigButton> buttons;
  for (const auto& slot : slots(column, buttons_a_column)) {
    const Ms since = log_.since(name, slot.text);
    const bool on = since != never;
    buttons.push_back({on ? clock_text(now_ - since) + "  " + slot.text : slot.text, "", on, true});
  }
  rows_[column] = big_buttons(pen, box, name, column == column_, column, buttons, true,
                              id_slot + static_cast<int>(column * buttons_a_column));
}

void ObserveScreen::draw_chart(Pen& pen, const Box& box) const {
  const bool low = box.height < pen.px(120);
  pen.canvas.rectangle(box, {pen.ink().card, {pen.ink().edge, pen.px(1)}}, pen.px(10));
  const Box in = box.inset(pen.px(low ? 8 : 14));
  if (typing_ != Typing::nothing) return draw_typing(pen, in);
  const auto figures = this->figures();
  if (figures.work.empty()) return draw_hint(pen, in);
  picture::ChartView view;
  view.words = chart_words(pen.t);
  view.legend = view.shares = false;
  view.to = std::max(Ms{60'000}, figures.chair_time + Ms{5000});
  view.from = std::max(Ms{0}, view.to - Ms{120'000});
  picture::draw_chart(pen.canvas, picture::case_chart(figures, ""), view, pen.theme, in);
}

void ObserveScreen::draw_typing(Pen& pen, const Box& in) const {
  const char* hint = typing_ == Typing::note   ? "observe.note.hint"
                     : typing_ == Typing::step ? "observe.step.hint"
                                               : "observe.person.hint";
  const double line = pen.px(34);
  const double y = paragraph(pen, {in.x, in.y}, in.width,
                             pen.t(hint, {people_.empty() ? std::string() : people_[column_]}),
                             TextSize::body, pen.ink().ink, Weight::bold, in.bottom() - line);
  text_field(pen, {in.x, y + pen.px(4), in.width, line}, typed_, "", true, -1);
}

void ObserveScreen::draw_hint(Pen& pen, const Box& in) const {
  const bool low = in.height < pen.px(100);
  paragraph(pen, {in.x, in.y}, in.width,
            pen.t(protocol_ != nullptr ? "observe.begin" : "observe.free.begin"),
            low ? TextSize::label : TextSize::body, pen.ink().ink_soft, Weight::regular,
            in.bottom() + pen.px(3));
}

std::vector<BarButton> ObserveScreen::bar(const Pen& pen) const {
  const auto& t = pen.t;
  const ButtonLook if_any{false, false, !log_.empty()};
  std::vector<BarButton> out{{t(paused_ ? "observe.go" : "observe.pause"),
                              t("key.space"),
                              id_pause,
                              {paused_, false, true}},
                             {t("observe.undo"), t("key.backspace"), id_undo, if_any},
                             {t("observe.earlier"), "←", id_earlier, if_any},
                             {t("observe.later"), "→", id_later, if_any},
                             {t("observe.note"), "N", id_note},
                             {t("observe.step"), "M", id_step}};
  if (may_add_person()) out.push_back({t("observe.person"), "P", id_person});
  if (may_go_free()) out.push_back({t("observe.free"), "B", id_free});
  out.push_back({t("observe.end"), t("key.escape"), id_end});
  return out;
}

void ObserveScreen::draw_result(Pen& pen, const Box& box) {
  std::vector<BarButton> bar{{pen.t("observe.back"), pen.t("key.escape"), id_back},
                             {pen.t("observe.leave"), "L", id_leave}};
  if (protocol_ != nullptr) bar.push_back({pen.t("observe.durations"), "D", id_durations});
  bar.push_back({pen.t("observe.finish"), pen.t("key.enter"), id_finish, {true, true, true}});
  page(
      pen, box, scroll_, [&](Flow& flow) { write_figures(pen, flow); }, bar);
}

}  // namespace beforehand::stage
