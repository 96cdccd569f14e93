// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/drill_screen.hpp"

#include <algorithm>

#include "base/time.hpp"
#include "picture/text.hpp"
#include "procedure/title.hpp"
#include "stage/widgets.hpp"

namespace beforehand::stage {

void DrillScreen::teach() {
  teacher_.emplace();
  look_at_lesson();
}

void DrillScreen::look_at_lesson() {
  if (!teacher_) return;
  seen_.helping = helping();
  seen_.marked = cards_.marked.has_value() || hovers_;
  teacher_->look(sitting_, seen_);
  seen_.went_on = false;
}

// What only says something is left with the key or the button to go on.
bool DrillScreen::goes_on_from_lesson() {
  if (!taught()) return false;
  const auto asks = *teacher_->asks();
  seen_.went_on = asks == Lesson::welcome || asks == Lesson::farewell;
  return seen_.went_on;
}

// While the lesson asks for something, time waits, and no other thing can be begun.
void DrillScreen::choose(ActionIx action) {
  if (!taught() || teacher_->about() == action) sitting_.choose(action);
}

// Time waits for whoever is being taught. A drill that has come to its end stays to be seen until
// the clinician's last word is read and heard.
DrillScreen::Outcome DrillScreen::pass(std::chrono::microseconds real) {
  if (sitting_.over()) {
    since_over_ += real;
    return since_over_ < last_word ? Outcome::stay : Outcome::debrief;
  }
  if (!stopped() && !taught()) sitting_.pass(real);
  look_at_lesson();
  return Outcome::stay;
}

DrillScreen::Outcome DrillScreen::handle(const Input& input) {
  const auto outcome = do_what(input);
  look_at_lesson();
  return outcome;
}

DrillScreen::Outcome DrillScreen::do_what(const Input& input) {
  switch (input.kind) {
    case Input::Kind::key:
      cards_.pointed = false;
      return on_key(input);
    case Input::Kind::press:
      return on_press({input.x, input.y});
    case Input::Kind::wheel:
      cards_.scroll.move(-input.wheel * 60);
      cards_.followed = true;
      break;
    case Input::Kind::pointer:
      cards_.pointed = true;
      hovers_ = hits_.at({input.x, input.y}).value_or(-1) >= press_card;
      break;
    case Input::Kind::pad_lost:
      pad_lost_ = !sitting_.over();
      sitting_.set_paused(true);
      break;
    case Input::Kind::focus_lost:
      sitting_.set_paused(true);
      break;
    case Input::Kind::close:
      asking_ = true;
      break;
    default:
      break;
  }
  return Outcome::stay;
}

namespace {

constexpr std::size_t compact_pages = 5;  // guide, hands, room, field, chart

}  // namespace

// From the keys to the signs, or back to the drill.
void DrillScreen::turn_help(bool on) {
  help_ = on && help_ == Help::keys ? Help::signs : Help::none;
}

DrillScreen::Outcome DrillScreen::leave() {
  sitting_.abandon();
  return Outcome::debrief;
}

DrillScreen::Outcome DrillScreen::on_key(const Input& input) {
  if (asking_) {
    const Key key = plain_key(input.key);
    if (key == Key::enter) return leave();
    if (key == Key::escape) asking_ = false;
    return Outcome::stay;
  }
  const Deed* deed = keys_.deed_of(input.key);
  if (help_ != Help::none) {
    turn_help(deed != nullptr && *deed == Deed::help);
    return Outcome::stay;
  }
  if (deed != nullptr) return do_deed(*deed);
  if (input.key == Key::symbol && input.symbol < 128)
    if (const auto action = typing_.type(sitting_.cards(), static_cast<char>(input.symbol))) {
      cards_.marked.reset();  // whoever types a key has no use for the mark, which hides cards
      choose(*action);
    }
  return Outcome::stay;
}

DrillScreen::Outcome DrillScreen::do_deed(Deed deed) {
  pad_lost_ = false;
  switch (deed) {
    case Deed::go:
      if (goes_on_from_lesson()) break;
      if (cards_.marked)
        choose(sitting_.cards()[*cards_.marked].action);
      else
        sitting_.skip_ahead();
      break;
    case Deed::break_off:
      sitting_.break_off();
      break;
    case Deed::pause:
      sitting_.set_paused(!sitting_.clock().paused());
      break;
    case Deed::slower:
      sitting_.set_pace(slower(sitting_.clock().pace()));
      break;
    case Deed::quicker:
      sitting_.set_pace(quicker(sitting_.clock().pace()));
      break;
    case Deed::mark_up:
      mark(-1);
      break;
    case Deed::mark_down:
      mark(1);
      break;
    case Deed::view:
      if (compact_)
        page_ = (page_ + 1) % compact_pages;
      else
        shown_ = (shown_ + 1) % 3;
      break;
    case Deed::sound:
      return Outcome::sound;
    case Deed::help:
      help_ = Help::keys;
      break;
    case Deed::leave:
      if (sitting_.over()) break;
      if (cards_.marked)
        cards_.marked.reset();
      else
        asking_ = true;
      break;
  }
  return Outcome::stay;
}

void DrillScreen::mark(int by) {
  const auto count = sitting_.cards().size();
  if (count == 0) return;
  if (!cards_.marked)
    cards_.marked = by > 0 ? 0 : count - 1;
  else
    cards_.marked = (*cards_.marked + count + static_cast<std::size_t>(by + 1) - 1) % count;
  cards_.followed = false;
}

DrillScreen::Outcome DrillScreen::on_press(Point at) {
  const int id = hits_.at(at).value_or(-1);
  if (help_ != Help::none) {
    turn_help(id == press_help);
    return Outcome::stay;
  }
  if (asking_) {
    if (id == press_leave) return leave();
    if (id == press_stay) asking_ = false;
    return Outcome::stay;
  }
  switch (id) {
    case press_pause:
      sitting_.set_paused(!sitting_.clock().paused());
      break;
    case press_slower:
      sitting_.set_pace(slower(sitting_.clock().pace()));
      break;
    case press_quicker:
      sitting_.set_pace(quicker(sitting_.clock().pace()));
      break;
    case press_leave:
      asking_ = true;
      break;
    case press_help:
      help_ = Help::keys;
      break;
    case press_break_off:
      sitting_.break_off();
      break;
    case press_skip:
      sitting_.skip_ahead();
      break;
    default:
      if (id == press_lesson) goes_on_from_lesson();
      if (id >= press_view && id < press_card)
        (compact_ ? page_ : shown_) = static_cast<std::size_t>(id - press_view);
      if (id < press_card) break;
      cards_.marked.reset();
      choose(ActionIx{static_cast<std::size_t>(id - press_card)});
  }
  typing_.clear();
  return Outcome::stay;
}

void DrillScreen::draw(Pen& outer, const Box& box) {
  hits_.clear();
  Pen pen{outer.canvas, outer.theme, outer.t, hits_, outer.pointer};
  const bool narrow = box.width < pen.px(1100) || box.height < pen.px(620);
  compact_ = box.width < pen.px(900) || box.height < pen.px(500);
  const double gap = pen.px(narrow ? 5 : 8), top = pen.px(48);
  draw_bar(pen, {box.x, box.y, box.width, top});
  const Box below{box.x + gap, box.y + top + gap, box.width - 2 * gap, box.height - top - 2 * gap};
  if (compact_)
    draw_compact(pen, below);
  else if (narrow)
    draw_narrow(pen, below);
  else
    draw_wide(pen, below);
  draw_pointer(pen);
  if (asking_) draw_question(pen, box);
  if (help_ == Help::keys) draw_help(pen, box);
  if (help_ == Help::signs) draw_signs(pen, box);
}

void DrillScreen::draw_wide(Pen& pen, const Box& below) {
  const double gap = pen.px(8), left = below.width * 0.57, right = below.width - left - gap;
  const double chart = std::max(pen.px(140), below.height * 0.23),
               upper = below.height - chart - gap;
  const double narrow = std::max(pen.px(250), left * 0.36), wide = left - narrow - gap;
  const auto scene = scene_of(sitting_);
  room_.draw(pen, {below.x, below.y, wide, upper}, scene);
  const double x = below.x + wide + gap, hands = pen.px(136);
  const double least = pen.px(146) + std::clamp((upper - pen.px(418)) * 0.3, 0.0, pen.px(50));
  // with a close-up still worth its name
  const double room = upper - hands - 2 * gap - pen.px(110);
  const double spoken = std::max(least, std::min(clinician_height(pen, narrow, scene), room));
  draw_clinician(pen, {x, below.y, narrow, spoken}, scene);
  draw_close_up(pen, {x, below.y + spoken + gap, narrow, upper - spoken - hands - 2 * gap}, scene);
  draw_hands(pen, {x, below.y + upper - hands, narrow, hands}, sitting_);
  draw_running_chart(pen, {below.x, below.bottom() - chart, left, chart}, sitting_);
  const double coach = pen.px(112), beside = below.x + left + gap;
  draw_guide(pen, {beside, below.y, right, coach});
  draw_cards(pen, {beside, below.y + coach + gap, right, below.height - coach - gap}, sitting_,
             typing_, cards_);
}

// A small window or large letters: what is said and what can be done keep their size; room, field
// and chart take turns, unless the window is high.
void DrillScreen::draw_narrow(Pen& pen, const Box& below) {
  const double gap = pen.px(5), left = below.width * 0.5, right = below.width - left - gap;
  const auto scene = scene_of(sitting_);
  const double spoken = std::max(
      pen.px(150), std::min(clinician_height(pen, left, scene), below.height - pen.px(230)));
  draw_clinician(pen, {below.x, below.y, left, spoken}, scene);
  const Box rest{below.x, below.y + spoken + gap, left, below.height - spoken - gap};
  if (rest.height > pen.px(700)) {
    const double part = pen.px(200);
    room_.draw(pen, {rest.x, rest.y, left, rest.height - 2 * (part + gap)}, scene);
    draw_close_up(pen, {rest.x, rest.bottom() - 2 * part - gap, left, part}, scene);
    draw_running_chart(pen, {rest.x, rest.bottom() - part, left, part}, sitting_);
  } else {
    draw_shown(pen, rest);
  }
  const double beside = below.x + left + gap;
  const double coach = pen.px(112), hands = pen.px(136);
  draw_guide(pen, {beside, below.y, right, coach});
  const double cards = below.height - coach - hands - 2 * gap;
  draw_cards(pen, {beside, below.y + coach + gap, right, cards}, sitting_, typing_, cards_);
  draw_hands(pen, {beside, below.bottom() - hands, right, hands}, sitting_);
}

// Very large letters: what is said and what can be done keep their size, all else takes turns. What
// is told comes to the front by itself, and whatever is in words shares the room as it needs it.
void DrillScreen::draw_compact(Pen& pen, const Box& below) {
  const double gap = pen.px(5), left = below.width * 0.5, right = below.width - left - gap;
  const double tabs = pen.px(32), room = below.height - tabs - 2 * gap;
  switcher(pen, {below.x, below.y, left, tabs},
           {pen.t("view.guide"), pen.t("view.hands"), pen.t("view.room"), pen.t("view.field"),
            pen.t("view.chart")},
           page_, false, press_view);
  const bool told = is_told(sitting_) || taught() || pad_lost_, words = told || page_ == 0;
  const auto scene = scene_of(sitting_);
  const double least = words ? 0 : std::min(pen.px(150), below.height * 0.5);
  // The guide keeps its first lines, the lesson all of them.
  const double most = taught() || pad_lost_ ? room * 0.55 : room - pen.px(82);
  const double spoken = std::max(least, std::min(clinician_height(pen, left, scene), most));
  const Box above{below.x, below.y + tabs + gap, left, spoken};
  draw_clinician(pen, above, scene);
  const Box in{below.x, above.bottom() + gap, left, below.bottom() - above.bottom() - gap};
  if (words) draw_guide(pen, in);
  if (!told && page_ == 1) draw_hands(pen, in, sitting_);
  if (!told && page_ == 2) room_.draw(pen, in, scene);
  if (!told && page_ == 3) draw_close_up(pen, in, scene);
  if (!told && page_ == 4) draw_running_chart(pen, in, sitting_);
  draw_cards(pen, {below.x + left + gap, below.y, right, below.height}, sitting_, typing_, cards_);
}

void DrillScreen::draw_guide(Pen& pen, const Box& box) {
  if (pad_lost_)
    draw_pad_lost(pen, box);
  else if (taught())
    draw_lesson(pen, box);
  else
    draw_coach(pen, box, sitting_);
}

// Where time may not stand still, it goes on without the gamepad too.
void DrillScreen::draw_pad_lost(Pen& pen, const Box& box) {
  const auto& ink = pen.ink();
  pen.canvas.rectangle(box, {ink.caution_soft, {ink.caution, pen.px(2.5)}}, pen.px(10));
  const Box in = box.inset(pen.px(8));
  const char* key = sitting_.may_pause() ? "drill.pad-lost.about" : "drill.pad-lost.assessed";
  paragraph(pen, {in.x, in.y}, in.width, pen.t(key, {cap_of(keys_.key(Deed::pause), pen.t)}),
            TextSize::label, ink.caution, Weight::bold, in.bottom());
}

void DrillScreen::draw_lesson(Pen& pen, const Box& box) {
  const auto& ink = pen.ink();
  pen.canvas.rectangle(box, {ink.accent_soft, {ink.accent, pen.px(2.5)}}, pen.px(10));
  const Box in = box.inset(pen.px(8));
  const auto text = teacher_->text(sitting_, keys_, pen.t);
  const auto asks = *teacher_->asks();
  const bool reads = asks == Lesson::welcome || asks == Lesson::farewell;
  double y = in.y, head_width = in.width;
  if (reads) {
    const auto label = pen.t("lesson.next");
    const auto key = cap_of(keys_.key(Deed::go), pen.t);
    const double width = std::min(in.width / 2, button_width(pen, label, key));
    const double height = pen.px(30);
    button(pen, {in.right() - width, in.y - pen.px(2), width, height}, label, key,
           {true, false, true}, press_lesson);
    head_width -= width + pen.px(8);
    y += pen.px(5);
  }
  const auto head =
      pen.t("lesson.head", {std::to_string(teacher_->done() + 1), std::to_string(lesson_count)});
  y = paragraph(pen, {in.x, y}, head_width, head, TextSize::label, ink.accent_strong,
                Weight::bold) +
      (reads ? pen.px(5) : 0);
  const bool fits = y + picture::paragraph_height(pen.canvas, text, in.width,
                                                  pen.size(TextSize::body), Weight::bold) <=
                    in.bottom();
  paragraph(pen, {in.x, y}, in.width, text, fits ? TextSize::body : TextSize::label, ink.ink,
            fits ? Weight::bold : Weight::regular);
}

// A ring around what the lesson is about.
void DrillScreen::draw_pointer(Pen& pen) {
  if (!taught()) return;
  int id = -1;
  switch (*teacher_->asks()) {
    case Lesson::break_off:
      id = press_break_off;
      break;
    case Lesson::pause:
    case Lesson::go_on:
      id = press_pause;
      break;
    case Lesson::pace:
      id = press_slower;
      break;
    case Lesson::help:
      id = press_help;
      break;
    default:
      if (teacher_->about()) id = press_card + static_cast<int>(teacher_->about().at());
  }
  if (const auto at = hits_.box_of(id))
    pen.canvas.rectangle(at->inset(-pen.px(1)), {picture::nothing, {pen.ink().need, pen.px(3)}},
                         pen.px(7));
}

void DrillScreen::draw_shown(Pen& pen, const Box& box) {
  const double tabs = pen.px(30);
  switcher(pen, {box.x, box.y, box.width, tabs},
           {pen.t("view.room"), pen.t("view.field"), pen.t("view.chart")}, shown_, false,
           press_view);
  const Box in{box.x, box.y + tabs + pen.px(3), box.width, box.height - tabs - pen.px(3)};
  if (shown_ == 0) room_.draw(pen, in, scene_of(sitting_));
  if (shown_ == 1) draw_close_up(pen, in, scene_of(sitting_));
  if (shown_ == 2) draw_running_chart(pen, in, sitting_);
}

// How far the lesson is, while the drill goes on until its next moment comes.
std::string DrillScreen::lesson_badge(const Pen& pen, double room) const {
  const std::vector<std::string> count{std::to_string(teacher_->done() + 1),
                                       std::to_string(lesson_count)};
  auto text = pen.t("lesson.on.long", count);
  const double width =
      pen.canvas.measure(text, pen.size(TextSize::label), Weight::bold).width + pen.px(16);
  return width <= room ? text : pen.t("lesson.on", count);
}

void DrillScreen::draw_bar(Pen& pen, const Box& box) {
  const auto& ink = pen.ink();
  const auto& t = pen.t;
  pen.canvas.rectangle(box, {ink.card, {}});
  pen.canvas.line({box.x, box.bottom()}, {box.right(), box.bottom()}, {ink.edge, pen.px(1)});
  const double y = box.centre().y, gap = pen.px(8);
  double right = box.right() - gap;
  const bool roomy = box.width > pen.px(900);
  const auto add_button = [&](std::string_view label, std::string_view cap, int id) {
    const auto key = roomy ? cap : std::string_view();
    const double width = button_width(pen, label, key);
    right -= width;
    button(pen, {right, box.y + pen.px(6), width, box.height - pen.px(12)}, label, key, {}, id);
    right -= gap;
  };
  const auto cap = [&](Deed deed) { return cap_of(keys_.key(deed), t); };
  add_button(t("drill.leave"), cap(Deed::leave), press_leave);
  add_button(t("drill.help"), cap(Deed::help), press_help);
  if (sitting_.may_pause()) {
    if (box.width > pen.px(1100)) {
      add_button(t("drill.quicker"), cap(Deed::quicker), press_quicker);
      add_button(t("drill.slower"), cap(Deed::slower), press_slower);
    }
    add_button(t(sitting_.clock().paused() ? "drill.go-on" : "drill.pause"), cap(Deed::pause),
               press_pause);
  }
  static constexpr const char* levels[] = {"level.guided", "level.unaided", "level.assessed"};
  double x = badge(pen, {box.x + gap, y}, t(levels[static_cast<int>(sitting_.level())]),
                   ink.accent_soft, ink.accent_strong);
  auto style = pen.style(TextSize::heading, ink.ink, Weight::bold);
  style.level = picture::Level::middle;
  const auto time = clock_text(sitting_.run().now());
  pen.canvas.text({x + gap, y}, time, style);
  x += gap + pen.px(76);
  auto soft = pen.style(TextSize::label, ink.ink_soft);
  soft.level = picture::Level::middle;
  if (box.width > pen.px(900)) {
    pen.canvas.text({x, y}, t("drill.pace", {text_of(sitting_.clock().pace())}), soft);
    x += pen.px(64);
  }
  if (taught() && right - x < pen.px(160))
    ;  // the lesson's own panel says that time waits
  else if (taught())
    x = badge(pen, {x, y}, t("lesson.waits"), ink.accent_soft, ink.accent_strong) + gap;
  else if (teacher_ && !teacher_->over())
    x = badge(pen, {x, y}, lesson_badge(pen, right - x - 2 * gap), ink.accent_soft,
              ink.accent_strong) +
        gap;
  else if (pad_lost_ || sitting_.clock().paused() || stopped())
    x = badge(pen, {x, y}, t(pad_lost_ ? "drill.pad-lost" : "drill.paused"), ink.caution_soft,
              ink.caution) +
        gap;
  else if (sitting_.lapsing())
    x = badge(pen, {x, y}, t("drill.lapse", {std::to_string(PaceClock::lapse_speed)}),
              ink.caution_soft, ink.caution) +
        gap;
  if (newer_ && right - x > pen.px(90)) {
    const auto newer = picture::shorten(pen.canvas, t("drill.newer"), right - x - pen.px(40),
                                        pen.size(TextSize::label), Weight::bold);
    x = badge(pen, {x, y}, newer, ink.caution_soft, ink.caution) + gap;
  }
  // Whole or not at all: whoever practises knows it from the briefing.
  for (const auto& title : {full_title(sitting_.procedure()), sitting_.procedure().title})
    if (pen.canvas.measure(title, soft.size, soft.weight).width <= right - x - 2 * gap)
      return pen.canvas.text({x + gap, y}, title, soft);
}

}  // namespace beforehand::stage
