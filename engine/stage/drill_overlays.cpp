// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// What stands before a drill until it is answered or read: whether to leave, the keys, the signs.
#include <algorithm>

#include "picture/text.hpp"
#include "stage/drill_screen.hpp"
#include "stage/flow.hpp"
#include "stage/picture_key.hpp"
#include "stage/widgets.hpp"

namespace beforehand::stage {

namespace {

// What stands before the drill until a key is pressed. Gives the room inside.
Box cover_drill(Pen& pen, const Box& box, double width, double height) {
  pen.hits.clear();  // nothing behind it can be pressed
  pen.canvas.rectangle(box, {pen.ink().ink.with_alpha(110), {}});
  height = std::min(height, box.height - pen.px(8));
  return panel(pen, {box.centre().x - width / 2, box.centre().y - height / 2, width, height})
      .inset(-pen.px(4));
}

double help_width(const Pen& pen, const Box& box) {
  return std::min(pen.px(820), box.width - pen.px(12));
}

}  // namespace

void DrillScreen::draw_question(Pen& pen, const Box& box) {
  const auto& t = pen.t;
  const double width = std::min(pen.px(560), box.width - pen.px(24));
  const Box in = cover_drill(pen, box, width, pen.px(200)).inset(pen.px(4));
  Flow flow(pen, {in.x, in.y}, in.width);
  flow.heading(t("drill.ask.title"));
  flow.text(t(teacher_               ? "drill.ask.lesson"
              : sitting_.may_pause() ? "drill.ask.text"
                                     : "drill.ask.assessed"),
            pen.ink().ink);
  const double row = in.bottom() - button_height(pen), half = (in.width - pen.px(12)) / 2;
  button(pen, {in.x, row, half, button_height(pen)}, t("drill.ask.leave"), t("key.enter"), {},
         press_leave);
  button(pen, {in.x + half + pen.px(12), row, half, button_height(pen)}, t("drill.ask.stay"),
         t("key.escape"), {true, false, true}, press_stay);
}

void DrillScreen::draw_help(Pen& pen, const Box& box) {
  auto lines = key_lines(keys_, sitting_.may_pause(), pen.t);
  lines.push_back(pen.t("drill.help.signs", {cap_of(keys_.key(Deed::help), pen.t)}));
  const double width = help_width(pen, box), inner = width - pen.px(20),
               size = pen.size(TextSize::label);
  double height = pen.px(20);
  for (const auto& line : lines)
    height += picture::paragraph_height(pen.canvas, line, inner, size, Weight::bold);
  const double between = box.height - height > pen.px(90) ? pen.px(6) : 0;
  const Box in = cover_drill(pen, box, width, height + between * static_cast<double>(lines.size()));
  double y = in.y;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    const bool last = i + 1 == lines.size();
    const double top = y;
    y = paragraph(pen, {in.x, y}, in.width, lines[i], TextSize::label,
                  last ? pen.ink().accent : pen.ink().ink, last ? Weight::bold : Weight::regular,
                  in.bottom() + pen.px(6)) +
        between;
    if (last) pen.hits.add({in.x, top, in.width, y - top}, press_help);
  }
}

void DrillScreen::draw_signs(Pen& pen, const Box& box) {
  const double width = help_width(pen, box), inner = width - pen.px(20);
  const auto close = pen.t("drill.help.close");
  const double last =
      picture::paragraph_height(pen.canvas, close, inner, pen.size(TextSize::label), Weight::bold);
  const double signs = picture_key(pen, {0, 0, inner, 0}, false);
  const Box in = cover_drill(pen, box, width, signs + last + pen.px(26));
  const double y = picture_key(pen, in);
  paragraph(pen, {in.x, y + pen.px(4)}, in.width, close, TextSize::label, pen.ink().accent,
            Weight::bold);
}

}  // namespace beforehand::stage
