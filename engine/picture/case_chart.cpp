// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "picture/case_chart.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "picture/chart_build.hpp"

namespace beforehand::picture {
namespace {

Lane lane_of(const study::CaseFigures& c, std::size_t index) {
  Lane lane;
  lane.name = c.lanes[index];
  for (const auto& w : c.work)
    if (w.lane == index)
      lane.bars.push_back(
          {w.beside ? Activity::cover : Activity::work, w.start, w.end, w.label, w.beside});
  for (const auto& a : c.apart)
    if (a.lane == index)
      lane.bars.push_back({a.waiting ? Activity::waiting : Activity::standby, a.from, a.to, ""});
  std::stable_sort(lane.bars.begin(), lane.bars.end(),
                   [](const Bar& a, const Bar& b) { return a.from < b.from; });
  lane.shares = shares_of(c.time[index]);
  return lane;
}

}  // namespace

ActivityChart case_chart(const study::CaseFigures& c, const std::string& title) {
  ActivityChart chart;
  chart.title = title;
  for (std::size_t i = 0; i < c.lanes.size(); ++i) chart.lanes.push_back(lane_of(c, i));
  int number = 0;
  for (const auto* list : {&c.out_of_order, &c.repeated, &c.extra})
    for (const auto i : *list)
      chart.marks.push_back(
          {ChartMark::Kind::error, c.work[i].lane, c.work[i].start, fmt::format("{}", ++number)});
  return chart;
}

}  // namespace beforehand::picture
