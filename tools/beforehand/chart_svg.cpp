// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "chart_svg.hpp"

#include <algorithm>

#include "picture/svg_canvas.hpp"

namespace beforehand::command {

std::string charts_svg(const std::vector<picture::ActivityChart>& charts, const std::string& title,
                       const std::string& description) {
  using namespace picture;
  constexpr double width = 1400, margin = 16, inside = width - 2 * margin;
  const Theme theme;
  Ms longest{0};
  for (const auto& chart : charts) longest = std::max(longest, whole(chart).to);
  const SvgCanvas ruler(width, 100, title);
  std::vector<double> heights;
  double height = margin;
  for (const auto& chart : charts) {
    auto view = whole(chart);
    view.to = longest;
    view.legend = &chart == &charts.back();
    heights.push_back(chart_height(ruler, chart, view, theme, inside));
    height += heights.back() + margin;
  }
  SvgCanvas canvas(width, height, title, description);
  double top = margin;
  for (std::size_t i = 0; i < charts.size(); ++i) {
    auto view = whole(charts[i]);
    view.to = longest;
    view.legend = i + 1 == charts.size();
    draw_chart(canvas, charts[i], view, theme, {margin, top, inside, heights[i]});
    top += heights[i] + margin;
  }
  return canvas.str();
}

}  // namespace beforehand::command
