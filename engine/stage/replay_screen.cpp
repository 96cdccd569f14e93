// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/replay_screen.hpp"

#include <algorithm>
#include <cmath>

#include "base/time.hpp"
#include "picture/chart_build.hpp"
#include "picture/text.hpp"
#include "stage/flow.hpp"
#include "stage/picture_words.hpp"
#include "stage/widgets.hpp"

namespace beforehand::stage {
namespace {

constexpr std::size_t view_count = 4;
constexpr Ms stride{1000}, long_stride{15'000};

enum Id {
  id_back,
  id_play,
  id_before,
  id_after,
  id_slower,
  id_quicker,
  id_zoom,
  id_filter,
  id_view,
  id_row = 100
};

TextStyle middle(TextStyle style) {
  style.level = picture::Level::middle;
  return style;
}

std::vector<Caption> all_captions(const Played& played, const Strings& t) {
  std::vector<Caption> all;
  for (const auto& event : played.session.events)
    for (auto& caption : captions_of(*played.procedure, event, played.trainee(), t))
      all.push_back(std::move(caption));
  return all;
}

}  // namespace

ReplayScreen::ReplayScreen(Played played, const Strings& t, const std::string& back)
    : played_(std::move(played)),
      t_(t),
      back_(back),
      score_(scoring::score(*played_.procedure, played_.session, played_.trainee())),
      replay_(*played_.procedure, played_.session),
      captions_(all_captions(played_, t)),
      moments_(moments_of(played_, score_, t)),
      chart_(picture::played_chart(*played_.procedure, played_.session, score_), chart_words(t)) {
  chart_.view().legend = chart_.view().shares = false;
  clock_.set_paused(true);
  show(Ms{0});
}

void ReplayScreen::refer_to(const timing::Plan& plan) {
  if (plan.found()) chart_.refer_to(*played_.procedure, plan);
}

void ReplayScreen::go(Ms moment) {
  moment = std::clamp(moment, Ms{0}, replay_.end());
  replay_.to(moment);
  clock_.move_to(moment);
  chart_.follow(moment);
}

void ReplayScreen::show(Ms moment) {
  go(moment);
  awaited_ = false;
  mark_last();
}

void ReplayScreen::show_error(std::size_t error) {
  for (std::size_t i = 0; i < moments_.size(); ++i) {
    if (moments_[i].error != error) continue;
    go(moments_[i].at - lead_in);
    marked_ = i;
    awaited_ = true;
    followed_ = false;
  }
}

void ReplayScreen::show_moment(std::size_t position) {
  go(moments_[position].at);
  marked_ = position;
  awaited_ = followed_ = false;
}

// The last thing that happened, unless what one wants to see is still to come.
void ReplayScreen::mark_last() {
  if (awaited_ && moments_[marked_].at > now()) return;
  awaited_ = false;
  std::size_t last = 0;
  for (std::size_t i = 0; i < moments_.size() && moments_[i].at <= now(); ++i)
    if (listed(moments_[i])) last = i;
  if (last != marked_) followed_ = false;
  marked_ = last;
}

void ReplayScreen::step(int by) {
  clock_.set_paused(true);
  const auto count = static_cast<int>(moments_.size());
  for (int i = static_cast<int>(marked_) + by; i >= 0 && i < count; i += by)
    if (listed(moments_[static_cast<std::size_t>(i)]))
      return show_moment(static_cast<std::size_t>(i));
}

void ReplayScreen::toggle_playing() {
  if (clock_.paused() && now() >= replay_.end()) show(Ms{0});
  clock_.set_paused(!clock_.paused());
}

void ReplayScreen::pass(std::chrono::microseconds real) {
  if (!playing()) return;
  const Ms then = std::min(clock_.pass(real), replay_.end());
  replay_.to(then);
  chart_.follow(then);
  mark_last();
  if (then >= replay_.end()) clock_.set_paused(true);
}

ReplayScreen::Outcome ReplayScreen::handle(const Input& input) {
  const bool chart_shown = !compact_ || view_ == 2;
  if (const auto moment = chart_shown ? chart_.handle(input) : std::nullopt) {
    show(*moment);
    return Outcome::stay;
  }
  if (input.kind == Input::Kind::wheel) list_.move(-input.wheel * 60);
  if (input.kind == Input::Kind::focus_lost) clock_.set_paused(true);
  if (input.kind == Input::Kind::press) return on_press(hits_.at({input.x, input.y}).value_or(-1));
  return input.kind == Input::Kind::key ? on_key(input) : Outcome::stay;
}

ReplayScreen::Outcome ReplayScreen::on_press(int id) {
  switch (id) {
    case id_back:
      return Outcome::back;
    case id_play:
      toggle_playing();
      break;
    case id_before:
    case id_after:
      step(id == id_after ? 1 : -1);
      break;
    case id_slower:
      clock_.set_pace(slower(clock_.pace()));
      break;
    case id_quicker:
      clock_.set_pace(quicker(clock_.pace()));
      break;
    case id_zoom:
      chart_.zoom(now());
      break;
    case id_filter:
      only_marks_ = !only_marks_;
      followed_ = false;
      break;
    default:
      if (id >= id_view && id < id_row) view_ = static_cast<std::size_t>(id - id_view);
      if (id >= id_row) show_moment(static_cast<std::size_t>(id - id_row));
  }
  return Outcome::stay;
}

ReplayScreen::Outcome ReplayScreen::on_key(const Input& input) {
  switch (input.key) {
    case Key::escape:
      return Outcome::back;
    case Key::space:
    case Key::enter:
      toggle_playing();
      break;
    case Key::left:
      show(now() - stride);
      break;
    case Key::right:
      show(now() + stride);
      break;
    case Key::page_up:
      show(now() - long_stride);
      break;
    case Key::page_down:
      show(now() + long_stride);
      break;
    case Key::home:
      show(Ms{0});
      break;
    case Key::end:
      show(replay_.end());
      break;
    case Key::up:
    case Key::back_tab:
      step(-1);
      break;
    case Key::down:
    case Key::tab:
      step(1);
      break;
    case Key::symbol:
      if (input.symbol == U's') return on_press(id_slower);
      if (input.symbol == U'f') return on_press(id_quicker);
      if (input.symbol == U'z') return on_press(id_zoom);
      if (input.symbol == U'm') return on_press(id_filter);
      if (input.symbol == U'v' && compact_) view_ = (view_ + 1) % view_count;
      break;
    default:
      break;
  }
  return Outcome::stay;
}

Scene ReplayScreen::scene() const {
  const auto past = std::find_if(captions_.begin(), captions_.end(),
                                 [&](const Caption& caption) { return caption.at > now(); });
  return {*played_.procedure,
          world(),
          played_.trainee(),
          {captions_.data(), static_cast<std::size_t>(past - captions_.begin())},
          {},
          false};
}

void ReplayScreen::draw(Pen& outer, const Box& box) {
  hits_.clear();
  Pen pen{outer.canvas, outer.theme, outer.t, hits_, outer.pointer};
  compact_ = is_compact(pen, box);
  const auto buttons = transport(pen);
  const double gap = pen.px(8), top = pen.px(48), width = box.width - 2 * gap;
  const double foot = button_bar_height(pen, width, buttons);
  draw_bar(pen, {box.x, box.y, box.width, top});
  const Box in{box.x + gap, box.y + top + gap, width, box.height - top - foot - 3 * gap};
  compact_ ? draw_compact(pen, in) : draw_wide(pen, in);
  button_bar(pen, {in.x, in.bottom() + gap, width, foot}, buttons);
}

void ReplayScreen::draw_wide(Pen& pen, const Box& in) {
  const double gap = pen.px(8);
  const double room = std::min(in.width * 0.42, std::max(in.width * 0.37, in.height * 0.9));
  room_.draw(pen, {in.x, in.y, room, in.height}, scene());
  const double x = in.x + room + gap, width = in.right() - x;
  const double chart = std::clamp(1.35 * chart_.height(pen, width - pen.px(12)) + pen.px(12),
                                  pen.px(150), in.height * 0.42);
  draw_around(pen, {x, in.y, width, in.height - chart - gap});
  draw_running(pen, {x, in.bottom() - chart, width, chart});
}

// A small window: what happened keeps its size, and what there is to see takes turns beside it.
void ReplayScreen::draw_compact(Pen& pen, const Box& in) {
  const double gap = pen.px(6), left = in.width * 0.5, tabs = pen.px(30);
  const double cap = key_cap(pen, {in.x, in.y + tabs / 2}, "V") + gap;
  switcher(pen, {cap, in.y, in.x + left - cap, tabs},
           {pen.t("view.room"), pen.t("view.field"), pen.t("view.chart"), pen.t("view.said")},
           view_, false, id_view);
  const Box shown{in.x, in.y + tabs + gap, left, in.height - tabs - gap};
  if (view_ == 0) room_.draw(pen, shown, scene());
  if (view_ == 1) draw_close_up(pen, shown, scene());
  if (view_ == 2) draw_running(pen, shown);
  if (view_ == 3) draw_clinician(pen, shown, scene());
  const Box right{in.x + left + gap, in.y, in.width - left - gap, in.height};
  const auto filter = filter_button(pen);
  button(pen, {right.x, right.y, right.width, tabs}, filter.label, filter.key, {}, filter.id);
  const double detail = right.height * 0.46, y = right.y + tabs + gap;
  draw_list(pen, {right.x, y, right.width, right.bottom() - detail - gap - y});
  draw_detail(pen, {right.x, right.bottom() - detail, right.width, detail});
}

void ReplayScreen::draw_running(Pen& pen, const Box& ground) {
  pen.canvas.rectangle(ground, {pen.ink().card, {pen.ink().edge, pen.px(1)}}, pen.px(10));
  chart_.view().words.now = clock_text(now());
  chart_.draw(pen, ground.inset(pen.px(6)), now());
}

void ReplayScreen::draw_bar(Pen& pen, const Box& box) {
  const auto& ink = pen.ink();
  pen.canvas.rectangle(box, {ink.card, {}});
  pen.canvas.line({box.x, box.bottom()}, {box.right(), box.bottom()}, {ink.edge, pen.px(1)});
  const double gap = pen.px(8);
  const double back = button_width(pen, back_, pen.t("key.escape"));
  const Box out{box.right() - gap - back, box.y + pen.px(6), back, box.height - pen.px(12)};
  button(pen, out, back_, pen.t("key.escape"), {}, id_back);
  double x = badge(pen, {box.x + gap, box.centre().y}, pen.t("replay.badge"), ink.accent_soft,
                   ink.accent_strong) +
             gap;
  pen.canvas.text({x, box.centre().y}, clock_text(now()),
                  middle(pen.style(TextSize::heading, ink.ink, Weight::bold)));
  x += pen.px(76);
  std::string title = played_.procedure->title;
  for (const auto& part : {played_.who, played_.when})
    if (!part.empty()) title += " · " + part;
  const double room = out.x - x - 2 * gap, size = pen.size(TextSize::label);
  const double high = picture::paragraph_height(pen.canvas, title, room, size);
  paragraph(pen, {x, std::max(box.y, box.centre().y - high / 2)}, room, title, TextSize::label,
            ink.ink_soft, Weight::regular, box.bottom());
}

// Who says what, what can be seen close up, and what happened.
void ReplayScreen::draw_around(Pen& pen, const Box& box) {
  const double gap = pen.px(8), beside = std::max(pen.px(250), box.width * 0.33);
  const auto scene = this->scene();
  const double spoken = std::min(pen.px(160), box.height * 0.45);
  draw_clinician(pen, {box.x, box.y, beside, spoken}, scene);
  draw_close_up(pen, {box.x, box.y + spoken + gap, beside, box.height - spoken - gap}, scene);
  const double detail = std::min(pen.px(190), box.height * 0.5);
  const Box right{box.x + beside + gap, box.y, box.width - beside - gap, box.height};
  draw_list(pen, {right.x, right.y, right.width, right.height - detail - gap});
  draw_detail(pen, {right.x, right.bottom() - detail, right.width, detail});
}

void ReplayScreen::draw_list(Pen& pen, const Box& box) {
  const auto& ink = pen.ink();
  pen.canvas.rectangle(box, {ink.card, {ink.edge, pen.px(1)}}, pen.px(10));
  const double line = pen.px(26);
  Box in = box.inset(pen.px(8));
  in.height = std::floor(in.height / line) * line;  // whole rows
  const double width = in.width - pen.px(12);
  const picture::Clip clip(pen.canvas, in);
  list_.view = in.height;
  double y = in.y;
  for (std::size_t i = 0; i < moments_.size(); ++i)
    if (listed(moments_[i])) {
      if (i == marked_ && !followed_) {
        list_.content = 1e9;  // known below
        list_.offset = std::max(0.0, y - in.y - std::floor(in.height / line / 2) * line);
      }
      y += line;
    }
  list_.content = y - in.y;
  list_.move(0);
  followed_ = true;
  y = in.y - list_.offset;
  for (std::size_t i = 0; i < moments_.size(); ++i) {
    const auto& moment = moments_[i];
    if (!listed(moment)) continue;
    const Box row{in.x, y, width, line};
    y += line;
    if (row.bottom() < in.y || row.y > in.bottom()) continue;
    if (i == marked_)
      pen.canvas.rectangle(row, {ink.accent_soft, {ink.accent, pen.px(1.5)}}, pen.px(5));
    const Colour colour = moment.bad           ? ink.danger
                          : moment.at > now()  ? ink.ink_soft
                          : moment.sign == "✓" ? ink.good
                                               : ink.ink;
    const auto weight = moment.bad || i == marked_ ? Weight::bold : Weight::regular;
    const auto style = middle(pen.style(TextSize::label, colour, weight));
    const double at = row.x + pen.px(6), sign = at + pen.px(60), text = sign + pen.px(28);
    pen.canvas.text({at, row.centre().y}, clock_text(moment.at), style);
    pen.canvas.text({sign, row.centre().y}, moment.sign, style);
    pen.canvas.text({text, row.centre().y},
                    picture::shorten(pen.canvas, moment.text, row.right() - text - pen.px(4),
                                     style.size, weight),
                    style);
    const Box seen = row.common(in);
    if (seen.height > 0) pen.hits.add(seen, id_row + static_cast<int>(i));
  }
  if (moments_.empty())
    paragraph(pen, {in.x, in.y}, width, pen.t("replay.nothing"), TextSize::label, ink.ink_soft);
  scroll_bar(pen, in, list_);
}

void ReplayScreen::draw_detail(Pen& pen, const Box& box) {
  const auto& ink = pen.ink();
  pen.canvas.rectangle(box, {ink.card, {ink.edge, pen.px(1)}}, pen.px(10));
  if (moments_.empty()) return;
  const Box in = box.inset(pen.px(10));
  const auto& moment = moments_[marked_];
  double y = in.y;
  const auto write = [&](const std::string& text, Colour colour, Weight weight) {
    if (!text.empty() && y + pen.px(16) < in.bottom())
      y = paragraph(pen, {in.x, y}, in.width, text, TextSize::label, colour, weight,
                    in.bottom() + pen.px(2)) +
          pen.px(2);
  };
  if (awaited_)
    write(pen.t("replay.coming", {clock_text(moment.at)}), ink.accent_strong, Weight::bold);
  write(moment.text, moment.bad ? ink.danger : ink.ink, Weight::bold);
  if (!moment.error) return write(pen.t("replay.keys"), ink.ink_soft, Weight::regular);
  const auto words = words_under(*played_.procedure, score_.errors[*moment.error], pen.t);
  write(words.instead, ink.accent_strong, Weight::regular);
  write(words.why, ink.ink, Weight::regular);
  write(words.followed, ink.ink_soft, Weight::regular);
}

BarButton ReplayScreen::filter_button(const Pen& pen) const {
  return {pen.t(only_marks_ ? "replay.all" : "replay.marks"), "M", id_filter};
}

// In a small window signs stand for some of the words, and the filter stands over its list.
std::vector<BarButton> ReplayScreen::transport(const Pen& pen) const {
  const auto& t = pen.t;
  const auto word = [&](const char* key, const char* sign) {
    return compact_ ? std::string(sign) : t(key);
  };
  const auto pace = text_of(clock_.pace());
  std::vector<BarButton> out{{t(playing() ? "replay.pause" : "replay.play"),
                              compact_ ? std::string() : t("key.space"),
                              id_play,
                              {true, false, true}},
                             {word("replay.before", ""), "↑", id_before},
                             {word("replay.after", ""), "↓", id_after},
                             {word("drill.slower", "–"), "S", id_slower},
                             {compact_ ? pace : t("drill.quicker") + " · " + pace, "F", id_quicker},
                             {t(chart_.zoomed() ? "debrief.whole" : "debrief.zoom"), "Z", id_zoom}};
  if (!compact_) out.push_back(filter_button(pen));
  return out;
}

}  // namespace beforehand::stage
