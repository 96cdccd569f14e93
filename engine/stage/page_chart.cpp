// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/page_chart.hpp"

namespace beforehand::stage {

void write_chart(Pen& pen, Flow& flow, const picture::ActivityChart& chart,
                 const picture::ChartView& view) {
  const double roomy = flow.width() > pen.px(1400) ? 1.3 : 1;
  const double height =
      roomy * picture::chart_height(pen.canvas, chart, view, pen.theme, flow.width());
  picture::draw_chart(pen.canvas, chart, view, pen.theme, {flow.x(), flow.y, flow.width(), height});
  flow.y += height + pen.px(10);
}

}  // namespace beforehand::stage
