// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "chart_svg.hpp"

#include <algorithm>

#include "picture/svg_canvas.hpp"

namespace beforehand::command {

namespace {

using namespace picture;
constexpr double width = 1400, margin = 16, inside = width - 2 * margin, heading = 32;

// All on the scale of the longest.
ChartView view_of(const ActivityChart& chart, const std::vector<ActivityChart>& all) {
  auto view = whole(chart);
  for (const auto& other : all) view.to = std::max(view.to, whole(other).to);
  return view;
}

}  // namespace

std::string charts_svg(const std::vector<ActivityChart>& charts, const std::string& title,
                       const std::string& description) {
  const Theme theme;
  const double above = charts.size() > 1 ? heading : 0;  // one alone has the picture's title
  const SvgCanvas ruler(width, 100, title);
  std::vector<double> heights;
  double height = margin;
  for (const auto& chart : charts) {
    heights.push_back(chart_height(ruler, chart, view_of(chart, charts), theme, inside));
    height += above + heights.back() + margin;
  }
  SvgCanvas canvas(width, height, title, description);
  double top = margin;
  for (std::size_t i = 0; i < charts.size(); ++i) {
    if (above > 0) {
      TextStyle style;
      style.size = theme.size(TextSize::heading);
      style.colour = theme.palette.ink;
      style.weight = Weight::bold;
      canvas.text({margin, top + heading / 2}, charts[i].title, style);
    }
    draw_chart(canvas, charts[i], view_of(charts[i], charts), theme,
               {margin, top + above, inside, heights[i]});
    top += above + heights[i] + margin;
  }
  return canvas.str();
}

}  // namespace beforehand::command
