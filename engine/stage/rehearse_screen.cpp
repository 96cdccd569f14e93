// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/rehearse_screen.hpp"

#include <algorithm>

#include "picture/chart_build.hpp"
#include "picture/plan_chart.hpp"
#include "picture/text.hpp"
#include "procedure/title.hpp"
#include "stage/key_map.hpp"
#include "stage/page.hpp"
#include "stage/page_chart.hpp"
#include "stage/picture_words.hpp"
#include "stage/widgets.hpp"

namespace beforehand::stage {
namespace {

enum Id {
  id_begin,
  id_timed,
  id_pads,
  id_pause,
  id_next,
  id_end,
  id_home,
  id_again,
  id_improve,
  id_view,
  id_role = 20,
  id_signal = 40,
  id_slot = 100
};
constexpr std::u32string_view signal_keys = U"7890";

std::string number_text(std::size_t n) { return std::to_string(n); }

}  // namespace

RehearseScreen::RehearseScreen(const procedure::Procedure& procedure, const Strings& t,
                               std::uint64_t seed, std::function<std::string()> new_recording)
    : procedure_(procedure),
      t_(t),
      seed_(seed),
      new_recording_(std::move(new_recording)),
      human_(procedure.people.size(), true),
      first_pad_(procedure.who(procedure::Role::assistant).at()),
      aims_(procedure.people.size()) {}

void RehearseScreen::begin() {
  told_.reset();
  rehearsal_ = std::make_unique<Rehearsal>(
      procedure_, Rehearsal::Plan{human_, timed_, seed_, new_recording_()}, t_);
  ahead_ = 0;
  scroll_ = {};
  aims_.assign(human_.size(), std::nullopt);
  face_ = Face::playing;
}

void RehearseScreen::look_back() {
  rehearsal_->abandon();
  const auto& session = rehearsal_->run().session();
  scroll_ = {};
  told_ = study::team_debrief(procedure_, session);
  chart_ = picture::played_chart(procedure_, session, told_->score, t_);
  face_ = Face::debrief;
}

void RehearseScreen::refer_to(const timing::Plan& plan) {
  if (face_ == Face::debrief && plan.found()) picture::add_planned(chart_, procedure_, plan);
}

std::optional<std::vector<SignalIx>> RehearseScreen::debriefed() const {
  if (face_ != Face::debrief) return std::nullopt;
  return scoring::signals_shown(rehearsal_->run().session());
}

void RehearseScreen::pass(std::chrono::microseconds real) {
  if (face_ != Face::playing) return;
  rehearsal_->pass(real);
  if (rehearsal_->over()) look_back();
}

bool RehearseScreen::moves() const {
  return face_ == Face::playing && rehearsal_->timed() && !rehearsal_->paused();
}

std::vector<Rehearsal::Option> RehearseScreen::options(std::size_t column) const {
  return rehearsal_->options(PersonIx{column}, rows_[column], ahead_);
}

void RehearseScreen::choose(int button) {
  if (button < 0 || rehearsal_->paused()) return;
  const auto column = static_cast<std::size_t>(button) / buttons_a_column;
  const auto place = static_cast<std::size_t>(button) % buttons_a_column;
  const PersonIx who{column};
  if (!rehearsal_->human(who)) return;
  const auto all = options(column);
  if (place < all.size()) rehearsal_->choose(who, all[place]);
}

namespace {

bool same(const drill::Command& a, const drill::Command& b) {
  return a.op == b.op && a.action == b.action && a.step == b.step && a.need == b.need;
}

bool of_pad(Key key) { return key >= Key::pad_up && key <= Key::pad_start; }

}  // namespace

// The mark stays on what it stood on while the choices around it change.
std::size_t RehearseScreen::aimed(std::size_t column) const {
  const auto all = options(column);
  for (std::size_t i = 0; aims_[column] && i < all.size(); ++i)
    if (same(all[i].command, *aims_[column])) return i;
  return 0;
}

void RehearseScreen::aim(std::size_t column, int by) {
  const auto all = options(column);
  if (all.empty()) return;
  const auto last = static_cast<int>(all.size()) - 1;
  const auto at = std::clamp(static_cast<int>(aimed(column)) + by, 0, last);
  aims_[column] = all[static_cast<std::size_t>(at)].command;
}

void RehearseScreen::on_pad(const Input& input) {
  const auto column = person_of(input.pad);
  switch (input.key) {
    case Key::pad_up:
    case Key::pad_down:
      return aim(column, input.key == Key::pad_down ? 1 : -1);
    case Key::pad_south:
      return choose(static_cast<int>(column * buttons_a_column + aimed(column)));
    case Key::pad_east:
      if (human_[column]) rehearsal_->break_off(PersonIx{column});
      return;
    case Key::pad_right_shoulder:
    case Key::pad_left_shoulder:
      on_playing(
          Input::of_key(input.key == Key::pad_right_shoulder ? Key::page_down : Key::page_up));
      return;
    case Key::pad_start:
      on_playing(Input::of_key(Key::space));
      return;
    case Key::pad_back:
      on_playing(Input::of_key(Key::escape));
      return;
    default:
      return;
  }
}

void RehearseScreen::raise(std::size_t number) {
  if (number < procedure_.signals.size()) rehearsal_->raise(SignalIx{number});
}

RehearseScreen::Outcome RehearseScreen::handle(const Input& given) {
  Input input = given;
  if (input.kind == Input::Kind::key && of_pad(input.key)) {
    pads_ = std::max(pads_, input.pad + 1);
    if (face_ == Face::playing) {
      on_pad(input);
      if (face_ == Face::playing && rehearsal_->over()) look_back();
      return Outcome::stay;
    }
    input.key = plain_key(input.key);
  }
  if (input.kind == Input::Kind::pad_lost && face_ == Face::playing) rehearsal_->set_paused(true);
  if (input.kind == Input::Kind::wheel) scroll_.move(-input.wheel * 60);
  if (input.kind == Input::Kind::focus_lost && face_ == Face::playing) rehearsal_->set_paused(true);
  if (input.kind == Input::Kind::press) {
    const int id = hits_.at({input.x, input.y}).value_or(-1);
    if (id == id_home) return Outcome::home;
    if (id == id_improve) return Outcome::improve;
    if (id >= 0) on_press(id);
  }
  return input.kind == Input::Kind::key ? on_key(input) : Outcome::stay;
}

void RehearseScreen::on_press(int id) {
  if (id >= id_slot) return choose(id - id_slot);
  if (id >= id_signal) {
    surprises_ = false;
    return raise(static_cast<std::size_t>(id - id_signal));
  }
  if (id >= id_role) {
    human_[static_cast<std::size_t>(id - id_role)].flip();
    return;
  }
  if (id == id_begin || id == id_again) begin();
  if (id == id_timed) timed_ = !timed_;
  if (id == id_pads) first_pad_ = (first_pad_ + 1) % human_.size();
  if (id == id_pause) rehearsal_->set_paused(!rehearsal_->paused());
  if (id == id_next) rehearsal_->let_happen();
  if (id == id_end) look_back();
  if (id == id_view) surprises_ = !surprises_;
}

RehearseScreen::Outcome RehearseScreen::on_key(const Input& input) {
  if (face_ == Face::playing) return on_playing(input);
  const bool symbol = input.key == Key::symbol;
  if (input.key == Key::enter) begin();
  if (input.key == Key::escape) return Outcome::home;
  if (face_ == Face::roles && symbol && input.symbol == U't') timed_ = !timed_;
  if (face_ == Face::roles && symbol && input.symbol >= U'1' && input.symbol < U'1' + human_.size())
    human_[input.symbol - U'1'].flip();
  if (face_ == Face::roles && symbol && input.symbol == U'g')
    first_pad_ = (first_pad_ + 1) % human_.size();
  if (face_ == Face::debrief && symbol && input.symbol == U'w') return Outcome::improve;
  scroll_.follow(input.key);
  return Outcome::stay;
}

RehearseScreen::Outcome RehearseScreen::on_playing(const Input& input) {
  switch (input.key) {
    case Key::space:
      on_press(rehearsal_->timed() ? id_pause : id_next);
      break;
    case Key::page_down:
      ahead_ = std::min(ahead_ + 3, procedure_.steps.size());
      break;
    case Key::page_up:
      ahead_ -= std::min<std::size_t>(ahead_, 3);
      break;
    case Key::escape:
      look_back();
      break;
    case Key::symbol:
      if (const auto at = signal_keys.find(input.symbol); at != std::u32string_view::npos)
        raise(at);
      else if (input.symbol == U'v' && compact_)
        surprises_ = !surprises_;
      else
        choose(button_of(input.symbol, procedure_.people.size()));
      break;
    default:
      break;
  }
  if (face_ == Face::playing && rehearsal_->over()) look_back();
  return Outcome::stay;
}

void RehearseScreen::draw(Pen& outer, const Box& box) {
  hits_.clear();
  Pen pen{outer.canvas, outer.theme, outer.t, hits_, outer.pointer};
  if (face_ == Face::roles) draw_roles(pen, box);
  if (face_ == Face::playing) draw_playing(pen, box);
  if (face_ == Face::debrief) draw_debrief(pen, box);
}

void RehearseScreen::draw_roles(Pen& pen, const Box& box) {
  page(pen, box, scroll_, [&](Flow& flow) { write_roles(pen, flow); },
       {{pen.t("briefing.back"), pen.t("key.escape"), id_home},
        {pen.t("rehearse.begin"), pen.t("key.enter"), id_begin, {true, true, true}}});
}

void RehearseScreen::write_roles(Pen& pen, Flow& flow) const {
  flow.heading(pen.t("rehearse.title", {full_title(procedure_)}));
  flow.text(pen.t("rehearse.about"), pen.ink().ink);
  flow.gap(16);
  const double height = button_height(pen);
  const auto row = [&](const std::string& label, const std::string& key, int id) {
    button(pen, {flow.x(), flow.y, std::min(flow.width(), pen.px(620)), height}, label, key, {},
           id);
    flow.y += height + pen.px(10);
  };
  for (std::size_t i = 0; i < human_.size(); ++i)
    row(pen.t(human_[i] ? "rehearse.human" : "rehearse.program", {procedure_.people[i].name}),
        number_text(i + 1), id_role + static_cast<int>(i));
  row(pen.t(timed_ ? "rehearse.timed" : "rehearse.talk"), "T", id_timed);
  row(pen.t("rehearse.pad", {procedure_.people[person_of(0)].name}), "G", id_pads);
  flow.gap(10);
  for (const char* key : {"rehearse.keys", "rehearse.pads", "rehearse.leader", "program.caution"})
    flow.item("•", pen.t(key), pen.ink().ink_soft);
}

// In a small window what is said stands beside the clock, in a talk-through below; the surprises
// and the columns take turns.
void RehearseScreen::draw_playing(Pen& pen, const Box& box) {
  compact_ = is_compact(pen, box);
  const double gap = pen.px(compact_ ? 8 : 12), height = pen.px(compact_ ? 44 : 40);
  const double said = !compact_ ? pen.px(120) + gap : rehearsal_->timed() ? 0 : pen.px(64) + gap;
  const double y = draw_top(pen, {box.x + gap, box.y + gap, box.width - 2 * gap, 0}, said == 0);
  const Box columns{box.x + gap, y, box.width - 2 * gap,
                    box.bottom() - y - said - height - 2 * gap};
  if (compact_ && surprises_)
    draw_surprises(pen, columns);
  else
    draw_columns(pen, columns, gap);
  if (said > 0) draw_said(pen, {columns.x, columns.bottom() + gap, columns.width, said - gap});
  ButtonRow row{pen, box.x + gap, box.bottom() - height - gap, height, pen.px(8)};
  if (rehearsal_->timed())
    row.add(pen.t(rehearsal_->paused() ? "observe.go" : "observe.pause"), pen.t("key.space"),
            id_pause, {rehearsal_->paused(), false, true});
  else
    row.add(pen.t("rehearse.next"), pen.t("key.space"), id_next, {true, false, true});
  row.add(pen.t("rehearse.end"), pen.t("key.escape"), id_end);
  if (compact_ && !procedure_.signals.empty())
    row.add(pen.t(surprises_ ? "rehearse.steps" : "rehearse.surprises"), "V", id_view);
}

void RehearseScreen::draw_columns(Pen& pen, const Box& box, double gap) {
  const auto n = static_cast<double>(procedure_.people.size());
  const double width = (box.width + gap) / n - gap;
  for (std::size_t i = 0; i < procedure_.people.size(); ++i) {
    std::vector<BigButton> buttons;
    const bool human = human_[i];
    for (const auto& o : rehearsal_->options(PersonIx{i}, buttons_a_column, ahead_))
      buttons.push_back({o.since == never
                             ? o.title
                             : clock_text(rehearsal_->run().now() - o.since) + "  " + o.title,
                         o.why_not, o.going_on, human && o.why_not.empty()});
    if (human && has_pad(i) && !buttons.empty()) buttons[aimed(i)].marked = true;
    rows_[i] =
        big_buttons(pen, {box.x + static_cast<double>(i) * (width + gap), box.y, width, box.height},
                    heading_of(pen, i), false, i, buttons, human,
                    id_slot + static_cast<int>(i * buttons_a_column));
  }
}

bool RehearseScreen::has_pad(std::size_t column) const {
  for (unsigned pad = 0; pad < pads_; ++pad)
    if (person_of(pad) == column) return true;
  return false;
}

std::string RehearseScreen::heading_of(const Pen& pen, std::size_t column) const {
  const auto& name = procedure_.people[column].name;
  if (!human_[column]) return pen.t("rehearse.played", {name});
  return has_pad(column) ? pen.t("rehearse.with_pad", {name}) : name;
}

void RehearseScreen::write_surprises(Pen& pen, Flow& flow) const {
  const auto& w = rehearsal_->run().world();
  FlowButtons row(pen, flow);
  for (std::size_t i = 0; i < std::min(procedure_.signals.size(), signal_keys.size()); ++i) {
    const auto state = w.signals[i];
    const bool raised = w.signal_raised[i] != 0;
    const char* key = state == drill::SignalState::happened ? "rehearse.signal.came"
                      : state == drill::SignalState::passed ? "rehearse.signal.not"
                      : raised                              ? "rehearse.signal.raised"
                                                            : "rehearse.signal.raise";
    row.add(pen.t(key, {procedure_.signals[i].title}),
            std::string(1, static_cast<char>(signal_keys[i])), id_signal + static_cast<int>(i),
            {false, false, state == drill::SignalState::open && !raised});
  }
  row.end();
}

void RehearseScreen::draw_surprises(Pen& pen, const Box& box) const {
  const Box in = panel(pen, box);
  Flow flow(pen, {in.x, in.y}, in.width);
  write_surprises(pen, flow);
}

// Beside the clock the surprises, or what is said. Gives the y below them.
double RehearseScreen::draw_top(Pen& pen, const Box& box, bool with_said) const {
  const double gap = pen.px(compact_ ? 8 : 12), height = pen.px(40);
  auto big =
      pen.style(compact_ ? TextSize::heading : TextSize::title, pen.ink().accent, Weight::bold);
  big.level = picture::Level::middle;
  const auto clock = clock_text(rehearsal_->run().now());
  pen.canvas.text({box.x, box.y + height / 2}, clock, big);
  const double x = box.x + pen.canvas.measure(clock, big.size, Weight::bold).width + pen.px(20);
  double bottom = box.y + height;
  if (with_said) draw_said_beside(pen, {x, box.y, box.right() - x, height});
  if (!compact_ && !procedure_.signals.empty()) {
    Flow flow(pen, {x, box.y + pen.px(3)}, box.right() - x);
    write_surprises(pen, flow);
    bottom = std::max(bottom, flow.y - pen.px(3));
  }
  return bottom + gap;
}

// What is said as the steps that go on begin, what announces them and why they matter.
std::vector<RehearseScreen::Said> RehearseScreen::said(const Pen& pen) const {
  const auto& ink = pen.ink();
  std::vector<Said> all;
  if (!rehearsal_->recording_problem().empty())
    all.push_back({pen.t("rehearse.unrecorded", {rehearsal_->recording_problem()}), ink.danger});
  const auto& w = rehearsal_->run().world();
  if (w.awaited)
    all.push_back(
        {pen.t("rehearse.waits", {procedure_.step(w.awaited).title}), ink.caution, Weight::bold});
  for (const auto& person : w.people)
    for (const auto& doing : person.doing) {
      if (!doing.step) continue;
      const auto& step = procedure_.step(doing.step);
      if (!step.says.empty())
        all.push_back({step.title + ": " + pen.t("quote", {step.says}), ink.ink, Weight::bold,
                       pen.t("quote", {step.says})});
      if (!rehearsal_->timed() && !step.why.empty())
        all.push_back({pen.t("coach.why", {step.why}), ink.ink_soft});
    }
  if (all.empty()) all.push_back({pen.t("rehearse.quiet"), ink.ink_soft});
  if (newer_) all.push_back({pen.t("newer.here"), ink.caution, Weight::bold});
  return all;
}

void RehearseScreen::draw_said(Pen& pen, const Box& box) const {
  const bool low = box.height < pen.px(100);
  pen.canvas.rectangle(box, {pen.ink().card, {pen.ink().edge, pen.px(1)}}, pen.px(10));
  const Box in = box.inset(pen.px(low ? 8 : 14));
  Flow flow(pen, {in.x, in.y}, in.width);
  for (const auto& one : said(pen)) {
    if (flow.y + pen.px(20) > in.bottom()) return;
    flow.y =
        paragraph(pen, {in.x, flow.y}, in.width, one.text, low ? TextSize::label : TextSize::body,
                  one.colour, one.weight, in.bottom() + pen.px(3));
  }
}

// The first of it, in two lines: what goes on stands on its button already.
void RehearseScreen::draw_said_beside(Pen& pen, const Box& box) const {
  const auto first = said(pen).front();
  paragraph(pen, {box.x, box.y}, box.width, first.brief.empty() ? first.text : first.brief,
            TextSize::label, first.colour, first.weight, box.bottom() + pen.px(3));
}

void RehearseScreen::draw_debrief(Pen& pen, const Box& box) {
  page(pen, box, scroll_, [&](Flow& flow) { write_debrief(pen, flow); },
       {{pen.t("debrief.home"), pen.t("key.escape"), id_home},
        {pen.t("improve.open"), "W", id_improve},
        {pen.t("rehearse.again"), pen.t("key.enter"), id_again, {true, true, true}}});
}

void RehearseScreen::write_debrief(Pen& pen, Flow& flow) const {
  const auto& ink = pen.ink();
  const auto& t = pen.t;
  flow.heading(t("rehearse.debrief", {full_title(procedure_)}));
  if (newer_) flow.text(t("newer.here"), ink.caution, Weight::bold, TextSize::label);
  flow.text(t("rehearse.figures",
              {duration_text(told_->score.chair_time), duration_text(told_->score.clinician_wait),
               duration_text(told_->both_idle), number_text(told_->unasked),
               number_text(told_->hand_overs.size())}),
            ink.ink);
  flow.gap(8);
  for (std::size_t i = 0; i < procedure_.people.size(); ++i) {
    flow.heading(t("rehearse.change", {procedure_.people[i].name}));
    if (told_->change[i].empty()) flow.text(t("rehearse.change.nothing"), ink.good);
    for (std::size_t k = 0; k < told_->change[i].size(); ++k)
      flow.item(number_text(k + 1), told_->change[i][k], ink.ink);
    flow.gap(6);
  }
  flow.gap(10);
  auto view = picture::whole(chart_);
  view.words = chart_words(t);
  write_chart(pen, flow, chart_, view);
  flow.heading(t("observe.waits"));
  if (told_->waits.empty()) flow.text(t("rehearse.nobody"), ink.good);
  for (const auto& w : told_->waits) {
    flow.item("•",
              t(w.asked ? "rehearse.wait.asked" : "rehearse.wait",
                {clock_text(w.at), duration_text(w.wait), procedure_.step(w.step).title,
                 procedure_.person(w.for_whom).name, procedure_.step(w.from).title,
                 procedure_.person(w.who).name}),
              ink.ink);
    if (!w.why.empty()) flow.under(w.why, ink.ink_soft);
  }
  flow.gap(8);
  flow.heading(t("rehearse.nobody_busy", {duration_text(told_->both_idle)}));
  for (const auto& n : told_->nobody_busy)
    flow.item("•", t("rehearse.from_to", {clock_text(n.from), clock_text(n.to)}), ink.ink);
  flow.gap(8);
  flow.heading(
      t("rehearse.unasked", {number_text(told_->unasked), number_text(told_->hand_overs.size())}));
  for (const auto& h : told_->hand_overs)
    if (!h.unasked)
      flow.item("•",
                t("rehearse.had_to_ask",
                  {clock_text(h.at), procedure_.step(h.from).title, procedure_.step(h.step).title}),
                ink.ink);
  flow.gap(8);
  flow.heading(t("chart.in-words"));
  write_in_words(pen, flow, chart_);
  if (const auto& problem = rehearsal_->recording_problem(); !problem.empty())
    flow.text(t("rehearse.unrecorded", {problem}), ink.danger);
  else if (!rehearsal_->recording().empty())
    flow.text(t("rehearse.recorded", {rehearsal_->recording()}), ink.ink_soft);
}

}  // namespace beforehand::stage
