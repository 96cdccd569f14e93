// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/drill_panels.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include "base/time.hpp"
#include "picture/chart_build.hpp"
#include "picture/room_build.hpp"
#include "picture/text.hpp"
#include "scoring/hindsight.hpp"
#include "stage/guide.hpp"
#include "stage/heard.hpp"
#include "stage/picture_words.hpp"
#include "stage/widgets.hpp"

namespace beforehand::stage {
namespace {

using drill::Level;
using drill::World;
using picture::Paint;
using procedure::Role;

constexpr Ms chart_length{90'000};
constexpr Ms caption_stays{7000};
constexpr Ms letter_takes{80};  // to be read in passing: 150 words a minute
constexpr Ms told_stays{5000};

TextStyle middle(TextStyle style) {
  style.level = picture::Level::middle;
  return style;
}

void line_of(Pen& pen, Point at, double width, std::string_view text, TextStyle style) {
  pen.canvas.text(at, picture::shorten(pen.canvas, text, width, style.size, style.weight),
                  middle(style));
}

// At least so long, and longer for whoever has more to read.
const Caption* latest(std::span<const Caption> all, std::initializer_list<Caption::Kind> kinds,
                      Ms now, Ms stays) {
  for (auto caption = all.rbegin(); caption != all.rend(); ++caption)
    if (std::find(kinds.begin(), kinds.end(), caption->kind) != kinds.end()) {
      const Ms reading = letter_takes * static_cast<std::int64_t>(caption->text.size());
      return now - caption->at <= std::max(stays, reading) ? &*caption : nullptr;
    }
  return nullptr;
}

// What the clinician waits for; none when at work.
StepIx waiting_step(const World& world) {
  for (std::size_t i = 0; i < world.steps.size(); ++i)
    if (world.steps[i].awaited != never) return StepIx{i};
  return {};
}

// What somebody else does for the step that is awaited, and the clinician sees it done.
StepIx awaited_work(const Scene& scene, StepIx step) {
  const auto clinician = scene.procedure.who(Role::clinician);
  StepIx found;
  for (const auto& need : scene.procedure.step(step).needs) {
    if (drill::is_met(scene.procedure, scene.world, step, need, clinician)) continue;
    if (!drill::being_served(scene.procedure, scene.world, need, clinician)) return {};
    found = need.from;
  }
  return found;
}

std::string state_line(const Scene& scene, const Strings& t, bool& waits, double& share) {
  const auto& world = scene.world;
  const auto& procedure = scene.procedure;
  const auto clinician = procedure.who(Role::clinician);
  const auto* doing = world.person(clinician).attention();
  waits = false;
  share = -1;
  if (doing != nullptr && doing->step) {
    if (doing->ends != never && doing->ends > doing->started)
      share = std::clamp(
          to_seconds(world.now - doing->started) / to_seconds(doing->ends - doing->started), 0.0,
          1.0);
    const auto& title = procedure.step(doing->step).title;
    return doing->helping ? t("drill.helps-self", {title}) : title;
  }
  const StepIx step = waiting_step(world);
  if (const StepIx work = step ? awaited_work(scene, step) : StepIx{})
    return t("drill.waits-for", {procedure.step(work).title});
  // A hand's second is nobody's fault.
  waits = step && world.now - world.step(step).awaited > scoring::allowance;
  if (step) return t("drill.waits", {procedure.step(step).title});
  return t(world.closing_at == never ? "drill.pauses" : "drill.has-finished");
}

/// What is said or seen now, and how it looks.
struct Bubble {
  std::string text;
  Colour fill, ink;
  bool strong = false;
  Weight weight() const { return strong ? Weight::bold : Weight::regular; }
};

std::optional<Bubble> bubble_of(const Pen& pen, const Scene& scene) {
  using Kind = Caption::Kind;
  const auto& ink = pen.ink();
  if (scene.lapsing)
    return Bubble{pen.t("drill.lapse.about", {std::to_string(PaceClock::lapse_speed)}),
                  ink.caution_soft, ink.caution, false};
  const auto* caption =
      latest(scene.captions, {Kind::said, Kind::asked, Kind::cue}, scene.world.now, caption_stays);
  if (caption == nullptr) return std::nullopt;
  if (caption->kind == Kind::asked)
    return Bubble{pen.t("drill.asks", {caption->text}), ink.danger_soft, ink.danger, true};
  if (caption->kind == Kind::cue)
    return Bubble{pen.t("drill.sees", {caption->text}), ink.caution_soft, ink.caution, true};
  return Bubble{pen.t("drill.says", {caption->text}), ink.accent_soft, ink.accent_strong, false};
}

// At the foot of the box and no higher than its text. Gives the y of its top.
double draw_bubble(Pen& pen, const Box& box, const Bubble& bubble) {
  const double margin = pen.px(8), width = box.width - 2 * margin;
  const double wanted = picture::paragraph_height(pen.canvas, bubble.text, width,
                                                  pen.size(TextSize::label), bubble.weight());
  const double height = std::min(box.height, wanted + 2 * margin);
  const Box around{box.x, box.bottom() - height, box.width, height};
  pen.canvas.rectangle(around, {bubble.fill, {bubble.ink, pen.px(bubble.strong ? 2 : 1)}},
                       pen.px(8));
  paragraph(pen, {box.x + margin, around.y + margin}, width, bubble.text, TextSize::label,
            bubble.ink, bubble.weight(), around.bottom() - margin + pen.px(3));
  return around.y;
}

}  // namespace

Scene scene_of(const Sitting& sitting) {
  Scene scene{sitting.procedure(), sitting.world(), sitting.trainee(), sitting.captions(), {},
              sitting.lapsing()};
  if (sitting.level() == Level::guided)
    for (const auto& prep : sitting.ahead())
      if (const auto supply = sitting.procedure().action(prep.action).supply;
          supply && prep.open(sitting.run().now()))
        scene.open_windows.push_back(supply);
  return scene;
}

double clinician_height(const Pen& pen, double width, const Scene& scene) {
  bool waits = false;
  double share = -1;
  const double in = width - pen.px(20), margin = pen.px(8);
  double height = pen.px(20 + 27) +
                  picture::paragraph_height(pen.canvas, state_line(scene, pen.t, waits, share), in,
                                            pen.size(TextSize::body), Weight::bold);
  if (const auto said = bubble_of(pen, scene))
    height += pen.px(6) + 2 * margin +
              picture::paragraph_height(pen.canvas, said->text, in - 2 * margin,
                                        pen.size(TextSize::label), said->weight());
  return height;
}

namespace {

// The clinician's name, and how far the step has come.
void draw_whose(Pen& pen, const Box& in, const Scene& scene, bool waits, double share) {
  const auto& ink = pen.ink();
  const auto name = scene.procedure.person(scene.procedure.who(Role::clinician)).name;
  const double y = in.y + pen.px(12);
  const double x =
      badge(pen, {in.x, y}, name, waits ? ink.danger_soft : ink.well, waits ? ink.danger : ink.ink);
  const Box track{x + pen.px(10), y - pen.px(5), in.right() - x - pen.px(10), pen.px(10)};
  if (share < 0 || track.width <= pen.px(20)) return;
  pen.canvas.rectangle(track, {ink.well, {ink.edge_strong, pen.px(1)}}, pen.px(5));
  pen.canvas.rectangle({track.x, track.y, track.width * share, track.height}, {ink.accent, {}},
                       pen.px(5));
}

}  // namespace

void draw_clinician(Pen& pen, const Box& box, const Scene& scene) {
  const auto& ink = pen.ink();
  pen.canvas.rectangle(box, {ink.card, {ink.edge, pen.px(1)}}, pen.px(10));
  const Box in = box.inset(pen.px(10));
  bool waits = false;
  double share = -1;
  const auto line = state_line(scene, pen.t, waits, share);
  // What is said comes before who says it, where there is no room for both.
  const bool tight = box.height + pen.px(1) < clinician_height(pen, box.width, scene);
  if (!tight) draw_whose(pen, in, scene, waits, share);
  const double top = in.y + (tight ? 0 : pen.px(27));
  const double title =
      picture::paragraph_height(pen.canvas, line, in.width, pen.size(TextSize::body), Weight::bold);
  const double words = std::max((in.bottom() - top) * 0.56, in.bottom() - top - title - pen.px(4));
  double bottom = in.bottom();
  if (const auto said = bubble_of(pen, scene))
    bottom = draw_bubble(pen, {in.x, in.bottom() - words, in.width, words}, *said) - pen.px(2);
  paragraph(pen, {in.x, top}, in.width, line, TextSize::body, waits ? ink.danger : ink.ink,
            Weight::bold, bottom);
}

namespace {

struct Slot {
  std::vector<std::string> texts;  // the same in ever fewer words
  bool busy = false, held = false;
};

// The first of them that there is room for; the last, to be cut short, where there is none.
std::string first_that_fits(const Pen& pen, const std::vector<std::string>& texts, double room,
                            Weight weight) {
  for (const auto& text : texts)
    if (pen.canvas.measure(text, pen.size(TextSize::label), weight).width <= room) return text;
  return texts.back();
}

// What an action is done with, or else its title.
std::string brief_of(const procedure::Procedure& procedure, ActionIx action, const Strings& t) {
  const auto supply = procedure.action(action).supply;
  return supply ? procedure.supply(supply).name : title_of(procedure, action, t);
}

std::vector<Slot> slots_of(const Sitting& sitting, const Strings& t) {
  const auto& procedure = sitting.procedure();
  const auto& person = sitting.world().person(sitting.trainee());
  std::vector<Slot> slots;
  for (const auto& doing : person.doing) {
    const auto title = doing.action ? title_of(procedure, doing.action, t)
                       : doing.step ? procedure.step(doing.step).title
                                    : std::string();
    std::string text = title;
    const auto brief = doing.action ? brief_of(procedure, doing.action, t) : title;
    if (doing.cover)
      text = t("hand.holding", {brief});
    else if (doing.ends != never)
      text = t("hand.doing",
               {title, duration_text(std::max(Ms{0}, doing.ends - sitting.run().now()))});
    for (int hand = 0; hand < doing.hands; ++hand)
      slots.push_back({{text, title, brief}, true, doing.cover});
  }
  for (const auto supply : person.holds) {
    const bool offered = sitting.world().supply(supply).offered;
    const auto& name = procedure.supply(supply).name;
    slots.push_back({{t(offered ? "hand.offering" : "hand.has", {name}), name}, true, offered});
  }
  const auto hands = static_cast<std::size_t>(procedure.person(sitting.trainee()).hands);
  while (slots.size() < hands) slots.push_back({{t("hand.free")}});
  return slots;
}

}  // namespace

void draw_hands(Pen& pen, const Box& box, const Sitting& sitting) {
  const auto& ink = pen.ink();
  const auto& person = sitting.world().person(sitting.trainee());
  pen.canvas.rectangle(box, {ink.card, {ink.edge, pen.px(1)}}, pen.px(10));
  const Box in = box.inset(pen.px(8));
  const double gap = pen.px(5), line = pen.px(27);
  double y = in.y;
  for (const auto& content : slots_of(sitting, pen.t)) {
    const Box slot{in.x, y, in.width, line};
    const Colour fill = content.held ? ink.cover : content.busy ? ink.accent_soft : ink.well;
    pen.canvas.rectangle(
        slot, {fill, {content.busy ? ink.ink : ink.edge, pen.px(content.busy ? 1.5 : 1)}},
        pen.px(6));
    const auto style = pen.style(TextSize::label, content.busy ? ink.ink : ink.ink_soft);
    const double room = slot.width - pen.px(12);
    line_of(pen, {slot.x + pen.px(6), slot.centre().y}, room,
            first_that_fits(pen, content.texts, room, style.weight), style);
    y += line + gap;
  }
  const bool can = person.attention() != nullptr || person.lined_up.has_value();
  if (person.lined_up && person.lined_up->action) {
    const auto action = person.lined_up->action;
    const auto text =
        first_that_fits(pen,
                        {pen.t("hand.lined-up", {title_of(sitting.procedure(), action, pen.t)}),
                         pen.t("hand.lined-up", {brief_of(sitting.procedure(), action, pen.t)})},
                        in.width, Weight::bold);
    line_of(pen, {in.x + pen.px(2), y + pen.px(9)}, in.width, text,
            pen.style(TextSize::label, ink.accent_strong, Weight::bold));
  } else if (person.gloves_soiled)
    badge(pen, {in.x, y + pen.px(10)}, pen.t("hand.gloves-soiled"), ink.caution_soft, ink.caution);
  else
    line_of(pen, {in.x + pen.px(2), y + pen.px(9)}, in.width, pen.t("hand.nothing-lined-up"),
            pen.style(TextSize::label, ink.ink_soft));
  button(pen, {in.x, in.bottom() - pen.px(32), in.width, pen.px(32)}, pen.t("drill.break-off"),
         pen.t("key.backspace"), {false, false, can}, press_break_off);
}

namespace {

struct CoachLine {
  std::string text;
  Colour colour;
  Weight weight = Weight::bold;
  double height = 0;  // as a label
};

// The first line larger than the others, unless they would find no room for it.
void write_coach(Pen& pen, const Box& in, const std::vector<CoachLine>& lines) {
  const double bottom = in.bottom() + pen.px(3);
  double rest = 0;
  for (const auto& line : lines) rest += line.height;
  const auto& first = lines[0];
  bool large = in.y + rest - first.height +
                   picture::paragraph_height(pen.canvas, first.text, in.width,
                                             pen.size(TextSize::body), first.weight) <=
               bottom;
  double y = in.y;
  for (const auto& line : lines) {
    y = paragraph(pen, {in.x, y}, in.width, line.text, large ? TextSize::body : TextSize::label,
                  line.colour, line.weight, bottom);
    large = false;
  }
}

// What the guide tells; why, what comes then, and what to let go besides, where there is room.
void draw_ahead(Pen& pen, const Box& in, const Sitting& sitting) {
  using Kind = GuideLine::Kind;
  const auto& ink = pen.ink();
  std::vector<CoachLine> lines;
  double y = in.y;
  for (const auto& told : guide_of(sitting, pen.t)) {
    const bool besides = told.kind == Kind::let_go && lines.size() > 1;
    const bool aside = told.kind == Kind::why || told.kind == Kind::then;
    const bool calm = aside || told.kind == Kind::nothing;
    CoachLine line{told.text, ink.accent_strong, calm ? Weight::regular : Weight::bold};
    if (told.kind == Kind::late) line.colour = ink.danger;
    if (told.kind == Kind::why) line.colour = ink.ink;
    if (told.kind == Kind::then || told.kind == Kind::nothing) line.colour = ink.ink_soft;
    if (!lines.empty() && !aside) line.colour = ink.caution;
    line.height = picture::paragraph_height(pen.canvas, line.text, in.width,
                                            pen.size(TextSize::label), line.weight);
    if ((aside || besides) && y + line.height > in.bottom() + pen.px(3)) continue;
    y += line.height;
    lines.push_back(std::move(line));
  }
  write_coach(pen, in, lines);
}

}  // namespace

void draw_coach(Pen& pen, const Box& box, const Sitting& sitting) {
  const auto& ink = pen.ink();
  const auto* told =
      latest(sitting.captions(), {Caption::Kind::told}, sitting.run().now(), told_stays);
  const bool problem = !sitting.recording_problem().empty();
  pen.canvas.rectangle(box,
                       {told || problem ? ink.caution_soft : ink.card,
                        {told || problem ? ink.caution : ink.edge, pen.px(1)}},
                       pen.px(10));
  const Box in = box.inset(pen.px(10));
  if (told != nullptr)
    paragraph(pen, {in.x, in.y}, in.width, told->text, TextSize::body, ink.caution, Weight::bold,
              in.bottom());
  else if (problem)
    paragraph(pen, {in.x, in.y}, in.width,
              pen.t("drill.not-recorded", {sitting.recording_problem()}), TextSize::label,
              ink.caution, Weight::bold, in.bottom());
  else if (sitting.level() == Level::guided)
    draw_ahead(pen, in, sitting);
  else
    paragraph(pen, {in.x, in.y}, in.width, pen.t("drill.unaided"), TextSize::label, ink.ink_soft,
              Weight::regular, in.bottom());
}

bool is_told(const Sitting& sitting) {
  return latest(sitting.captions(), {Caption::Kind::told}, sitting.run().now(), told_stays) !=
         nullptr;
}

void draw_running_chart(Pen& pen, const Box& box, const Sitting& sitting) {
  static const std::vector<timing::Window> hidden;
  const auto& ink = pen.ink();
  pen.canvas.rectangle(box, {ink.card, {ink.edge, pen.px(1)}}, pen.px(10));
  const bool guided = sitting.level() == Level::guided;
  const auto chart =
      picture::live_chart(sitting.procedure(), sitting.world(), guided ? sitting.windows() : hidden,
                          sitting.trainee(), pen.t);
  // A pixel at a time: what has not moved by one looks the same. With reduced motion, a second.
  const Ms pixel{chart_length.count() / std::max<std::int64_t>(1, std::lround(box.width * 0.8))};
  const Ms step = pen.theme.reduced_motion ? Ms{1000} : std::max(pixel, Ms{1});
  const Ms now = sitting.run().now() / step.count() * step.count();
  auto view = picture::around_now(now, chart_length);
  view.legend = view.shares = false;
  view.words = chart_words(pen.t);
  picture::draw_chart(pen.canvas, chart, view, pen.theme, box.inset(pen.px(6)));
}

void RoomPanel::draw(Pen& pen, const Box& box, const Scene& scene) {
  pen.canvas.rectangle(box, {pen.ink().card, {pen.ink().edge, pen.px(1)}}, pen.px(10));
  picture::RoomChoice choice;
  choice.trainee = scene.trainee;
  choice.on_patient = pen.t("room.on-patient");
  choice.open_windows = scene.open_windows;
  const bool left = pen.theme.left_handed || scene.procedure.left_handed;
  choice.hand = left ? picture::Handedness::left : picture::Handedness::right;
  choice.still = pen.theme.reduced_motion;
  auto view = picture::room_of(scene.procedure, scene.world, choice);
  view.title = pen.t("room.title");
  view.words = room_words(pen.t);
  auto theme = pen.theme;
  theme.scale = picture::room_scale(theme.scale, box.width, box.height);
  if (!layout_ || box != box_ || theme.scale != scale_ || choice.hand != hand_) {
    layout_ = picture::lay_out(pen.canvas, view, theme, box.inset(theme.px(6)));
    box_ = box;
    scale_ = theme.scale;
    hand_ = choice.hand;
    motion_.forget();
  }
  auto pose = picture::pose_of(view, *layout_);
  if (!pen.theme.reduced_motion) pose = motion_.follow(std::move(pose), scene.world.now);
  picture::draw_room(pen.canvas, view, theme, *layout_, pose);
}

void draw_close_up(Pen& pen, const Box& box, const Scene& scene) {
  pen.canvas.rectangle(box, {pen.ink().card, {pen.ink().edge, pen.px(1)}}, pen.px(10));
  auto view = picture::field_of(scene.procedure, scene.world, field_words(pen.t));
  view.title = pen.t("field.title");
  if (const double speed = handpiece_speed(scene.procedure, scene.world); speed > 0)
    view.words.insert(view.words.begin(),
                      pen.t(speed < 1 ? "field.handpiece-slowing" : "field.handpiece"));
  picture::draw_field(pen.canvas, view, pen.theme, box.inset(pen.px(6)));
}

}  // namespace beforehand::stage
