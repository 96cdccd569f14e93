// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/page_chart.hpp"

#include <algorithm>

namespace beforehand::stage {

void write_chart(Pen& pen, Flow& flow, const picture::ActivityChart& chart,
                 const picture::ChartView& view) {
  const double roomy = flow.width() > pen.px(1400) ? 1.3 : 1;
  const double height =
      roomy * picture::chart_height(pen.canvas, chart, view, pen.theme, flow.width());
  picture::draw_chart(pen.canvas, chart, view, pen.theme, {flow.x(), flow.y, flow.width(), height});
  flow.y += height + pen.px(10);
}

namespace {

void write_lane(Pen& pen, Flow& flow, const picture::Lane& lane) {
  const auto& ink = pen.ink();
  const double indent = pen.px(62);  // an hour's clock
  flow.text(lane.name, ink.ink, Weight::bold, TextSize::label);
  auto bars = lane.bars;
  std::erase_if(bars, [](const auto& bar) { return !picture::is_named(bar); });
  std::stable_sort(bars.begin(), bars.end(),
                   [](const auto& a, const auto& b) { return a.from < b.from; });
  for (const auto& bar : bars) {
    paragraph(pen, {flow.x(), flow.y}, indent, clock_text(bar.from), TextSize::label, ink.ink_soft);
    flow.y = paragraph(pen, {flow.x() + indent, flow.y}, flow.width() - indent, bar.label,
                       TextSize::label, ink.ink);
  }
}

}  // namespace

// The lanes stand beside each other where there is room, else one below the other.
void write_in_words(Pen& pen, Flow& flow, const picture::ActivityChart& chart) {
  const auto count = static_cast<double>(std::max<std::size_t>(1, chart.lanes.size()));
  const double gap = pen.px(20), each = (flow.width() + gap) / count - gap;
  const bool beside = each >= pen.px(280);
  double below = flow.y;
  for (std::size_t i = 0; i < chart.lanes.size(); ++i) {
    const double x = flow.x() + (beside ? static_cast<double>(i) * (each + gap) : 0);
    Flow column(pen, {x, beside ? flow.y : below}, beside ? each : flow.width());
    write_lane(pen, column, chart.lanes[i]);
    column.gap(10);
    below = std::max(below, column.y);
  }
  flow.y = below;
}

}  // namespace beforehand::stage
