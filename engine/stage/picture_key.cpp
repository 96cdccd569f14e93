// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/picture_key.hpp"

#include <algorithm>
#include <functional>
#include <vector>

#include "picture/chart_bars.hpp"
#include "picture/supply_tile.hpp"
#include "picture/text.hpp"
#include "stage/widgets.hpp"

namespace beforehand::stage {
namespace {

using picture::Activity;
using picture::SupplyView;
using procedure::SupplyState;

/// A sign and the key of its words.
struct Line {
  std::function<void(Pen&, const Box&)> sign;
  const char* words;
};

Line tile(const char* words, SupplyState state, const std::function<void(SupplyView&)>& also = {}) {
  return {[state, also](Pen& pen, const Box& box) {
            SupplyView view;
            view.name = view.icon = "cup";
            view.state = state;
            if (also) also(view);
            picture::draw_supply(
                pen.canvas, view,
                {box.centre().x - pen.px(13), box.centre().y - pen.px(13), pen.px(26), pen.px(26)},
                pen.theme);
          },
          words};
}

Line sign(const char* words, const char* text) {
  return {[text](Pen& pen, const Box& box) {
            auto style = pen.style(TextSize::label, pen.ink().ink, Weight::bold);
            style.align = picture::Align::centre;
            style.level = picture::Level::middle;
            pen.canvas.text(box.centre(), text, style);
          },
          words};
}

Box bar_in(const Pen& pen, const Box& box) {
  return {box.x + pen.px(4), box.centre().y - pen.px(9), box.width - pen.px(8), pen.px(18)};
}

Line bar(const char* words, Activity activity) {
  return {[activity](Pen& pen, const Box& box) {
            picture::draw_activity(pen.canvas, activity, bar_in(pen, box), pen.theme);
          },
          words};
}

std::vector<Line> all_lines() {
  const auto prepared = SupplyState::prepared;
  return {
      tile("sign.sealed", SupplyState::set_out, [](SupplyView& v) { v.sealed = true; }),
      tile("sign.prepared", prepared),
      tile("sign.running-out", prepared, [](SupplyView& v) { v.left = Ms{1}, v.left_share = 0.6; }),
      tile("sign.set", SupplyState::set),
      tile("sign.soiled", SupplyState::soiled),
      tile("sign.cleaned", SupplyState::cleaned),
      tile("sign.hazard", SupplyState::set_out, [](SupplyView& v) { v.hazards.set(0); }),
      tile("sign.window", SupplyState::set_out, [](SupplyView& v) { v.open_window = true; }),
      sign("sign.reach", "I–V"),
      sign("sign.clock", "12"),
      {[](Pen& pen, const Box& box) {
         picture::draw_bracket(pen.canvas, bar_in(pen, box), pen.theme);
       },
       "sign.bracket"},
      bar("chart.work", Activity::work),
      bar("chart.cover", Activity::cover),
      bar("chart.waiting", Activity::waiting),
  };
}

}  // namespace

double picture_key(Pen& pen, const Box& box, bool draws) {
  const auto lines = all_lines();
  const double between = pen.px(14), mark = pen.px(40), gap = pen.px(8);
  const double width = (box.width - between) / 2, text = width - mark - gap;
  const std::size_t half = (lines.size() + 1) / 2;
  double y = box.y, bottom = box.y;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    if (i == half) y = box.y;
    const double x = box.x + (i < half ? 0 : width + between);
    const auto words = pen.t(lines[i].words);
    const double high =
        picture::paragraph_height(pen.canvas, words, text, pen.size(TextSize::label));
    const double row = std::max(high, pen.px(30));
    if (draws) {
      lines[i].sign(pen, {x, y, mark, row});
      paragraph(pen, {x + mark + gap, y + (row - high) / 2}, text, words, TextSize::label,
                pen.ink().ink);
    }
    y += row + pen.px(3);
    bottom = std::max(bottom, y);
  }
  return bottom;
}

}  // namespace beforehand::stage
