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
constexpr double clock_wide = 60, sign_wide = 28;  // in a row of the list

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
      chart_(picture::played_chart(*played_.procedure, played_.session, score_, t),
             chart_words(t)) {
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

void ReplayScreen::go_on(int by) {
  clock_.set_paused(true);
  if (!read_on(by)) step(by);
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
      go_on(id == id_after ? 1 : -1);
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
    case Key::down:
      go_on(input.key == Key::down ? 1 : -1);
      break;
    case Key::tab:
    case Key::back_tab:
      step(input.key == Key::tab ? 1 : -1);
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
  auto buttons = transport(pen, compact_);
  const double gap = pen.px(8), top = pen.px(48), width = box.width - 2 * gap;
  if (button_bar_height(pen, width, buttons) > button_height(pen) + 1)
    buttons = transport(pen, true);
  const double foot = button_bar_height(pen, width, buttons);
  draw_bar(pen, {box.x, box.y, box.width, top});
  const Box in{box.x + gap, box.y + top + gap, width, box.height - top - foot - 3 * gap};
  compact_ ? draw_compact(pen, in) : draw_wide(pen, in);
  button_bar(pen, {in.x, in.bottom() + gap, width, foot}, buttons);
}

void ReplayScreen::draw_wide(Pen& pen, const Box& in) {
  const double gap = pen.px(8);
  const double room = std::min(in.width * 0.4, std::max(in.width * 0.35, in.height * 0.9));
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
  const double y = right.y + tabs + gap;
  draw_list(pen, {right.x, y, right.width, right.bottom() - y});
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
  const double gap = pen.px(8), beside = std::max(pen.px(250), box.width * 0.38);
  const auto scene = this->scene();
  const double spoken = std::max(std::min(pen.px(160), box.height * 0.45),
                                 std::min(clinician_height(pen, beside, scene), box.height * 0.7));
  draw_clinician(pen, {box.x, box.y, beside, spoken}, scene);
  draw_close_up(pen, {box.x, box.y + spoken + gap, beside, box.height - spoken - gap}, scene);
  draw_list(pen, {box.x + beside + gap, box.y, box.width - beside - gap, box.height});
}

// A row's text and, in the marked one, all that is to be said about it.
std::vector<ReplayScreen::Line> ReplayScreen::lines_of(const Pen& pen, std::size_t i) const {
  const auto& ink = pen.ink();
  const auto& moment = moments_[i];
  const Colour colour = moment.bad           ? ink.danger
                        : moment.at > now()  ? ink.ink_soft
                        : moment.sign == "✓" ? ink.good
                                             : ink.ink;
  std::vector<Line> lines;
  if (i != marked_) return {{moment.text, colour, moment.bad ? Weight::bold : Weight::regular}};
  if (awaited_)
    lines.push_back(
        {pen.t("replay.coming", {clock_text(moment.at)}), ink.accent_strong, Weight::bold});
  lines.push_back({moment.text, colour, Weight::bold});
  if (moment.error) {
    const auto words = words_under(*played_.procedure, score_.errors[*moment.error], pen.t);
    lines.push_back({words.instead, ink.accent_strong, Weight::regular});
    lines.push_back({words.why, ink.ink, Weight::regular});
    lines.push_back({words.followed, ink.ink_soft, Weight::regular});
  } else if (now() == Ms{0}) {
    lines.push_back({pen.t("replay.keys"), ink.ink_soft, Weight::regular});
  }
  std::erase_if(lines, [](const Line& line) { return line.text.empty(); });
  return lines;
}

// The list of what happened; every row takes the lines it needs.
void ReplayScreen::draw_list(Pen& pen, const Box& box) {
  const auto& ink = pen.ink();
  pen.canvas.rectangle(box, {ink.card, {ink.edge, pen.px(1)}}, pen.px(10));
  const Box in = box.inset(pen.px(8));
  if (moments_.empty()) {
    paragraph(pen, {in.x, in.y}, in.width, pen.t("replay.nothing"), TextSize::label, ink.ink_soft);
    return;
  }
  const double width = in.width - pen.px(12), size = pen.size(TextSize::label);
  slim_ = width < pen.px(320);
  const double above = slim_ ? pen.canvas.measure("X", size, Weight::bold).height : 0,
               room = width - text_indent(pen) - pen.px(6);
  std::vector<double> tops{0};
  for (std::size_t i = 0; i < moments_.size(); ++i) {
    double height = listed(moments_[i]) ? pen.px(7) + above : 0;
    if (listed(moments_[i]))
      for (const auto& line : lines_of(pen, i))
        height += picture::paragraph_height(pen.canvas, line.text, room, size, line.weight);
    tops.push_back(tops.back() + height);
  }
  follow(pen, in.height, tops);
  {
    const picture::Clip clip(pen.canvas, in);
    for (std::size_t i = 0; i < moments_.size(); ++i) {
      const Box row{in.x, in.y - list_.offset + tops[i], width, tops[i + 1] - tops[i]};
      if (!listed(moments_[i]) || !row.overlaps(in)) continue;
      draw_row(pen, row, i);
      pen.hits.add(row.common(in), id_row + static_cast<int>(i));
    }
  }
  if (std::none_of(moments_.begin(), moments_.end(), [&](const auto& m) { return listed(m); }))
    paragraph(pen, {in.x, in.y}, width, pen.t("replay.marks.none"), TextSize::label, ink.ink_soft);
  const bool within = row_top_ < list_.offset && row_end_ > list_.offset + list_.view;
  scroll_bar(pen, in, list_, within ? ink.accent_soft : ink.card);
}

// In a slim list the text stands below the clock.
double ReplayScreen::text_indent(const Pen& pen) const {
  return pen.px(6 + (slim_ ? 0 : clock_wide + sign_wide));
}

void ReplayScreen::draw_row(Pen& pen, const Box& row, std::size_t i) const {
  const auto& ink = pen.ink();
  const auto lines = lines_of(pen, i);
  if (i == marked_)
    pen.canvas.rectangle(row, {ink.accent_soft, {ink.accent, pen.px(1.5)}}, pen.px(5));
  const double x = row.x + pen.px(6), text = row.x + text_indent(pen);
  double y = row.y + pen.px(3);
  auto style = pen.style(TextSize::label, lines.front().colour, lines.front().weight);
  style.level = picture::Level::top;
  pen.canvas.text({x, y}, clock_text(moments_[i].at), style);
  pen.canvas.text({x + pen.px(clock_wide), y}, moments_[i].sign, style);
  if (slim_) y += pen.canvas.measure("X", style.size, Weight::bold).height;
  for (const auto& line : lines)
    y = paragraph(pen, {text, y}, row.right() - text - pen.px(6), line.text, TextSize::label,
                  line.colour, line.weight);
}

// The marked row is kept in view, in the middle where it can be.
void ReplayScreen::follow(const Pen& pen, double view, const std::vector<double>& tops) {
  const double pale = pen.px(14);  // at the edges, see scroll_bar()
  const bool resized = list_.view != view || list_.content != tops.back();
  list_.view = view;
  list_.content = tops.back();
  row_top_ = tops[marked_] - pale, row_end_ = tops[marked_ + 1] + pale;
  if (!followed_ || resized)
    list_.offset = row_top_ - std::max(0.0, (view - (row_end_ - row_top_)) / 2);
  followed_ = true;
  list_.move(0);
}

// A row that is higher than the view is read to its end before the next one has its turn.
bool ReplayScreen::read_on(int by) {
  constexpr double page = 0.8;
  if (!followed_ || row_end_ - row_top_ <= list_.view) return false;
  const double stood = list_.offset;
  list_.offset = std::clamp(stood + by * page * list_.view, row_top_, row_end_ - list_.view);
  return std::abs(list_.offset - stood) > 1;
}

BarButton ReplayScreen::filter_button(const Pen& pen) const {
  return {pen.t(only_marks_ ? "replay.all" : "replay.marks"), "M", id_filter};
}

// Where there is little room signs stand for some of the words. In a small window the filter stands
// over its list.
std::vector<BarButton> ReplayScreen::transport(const Pen& pen, bool brief) const {
  const auto& t = pen.t;
  const auto word = [&](const char* key, const char* sign, bool short_of_room) {
    return short_of_room ? std::string(sign) : t(key);
  };
  const auto pace = text_of(clock_.pace());
  std::vector<BarButton> out{{t(playing() ? "replay.pause" : "replay.play"),
                              compact_ ? std::string() : t("key.space"),
                              id_play,
                              {true, false, true}},
                             {word("replay.before", "", compact_), "↑", id_before},
                             {word("replay.after", "", compact_), "↓", id_after},
                             {word("drill.slower", "–", brief), "S", id_slower},
                             {brief ? pace : t("drill.quicker") + " · " + pace, "F", id_quicker},
                             {t(chart_.zoomed() ? "debrief.whole" : "debrief.zoom"), "Z", id_zoom}};
  if (!compact_) out.push_back(filter_button(pen));
  return out;
}

}  // namespace beforehand::stage
