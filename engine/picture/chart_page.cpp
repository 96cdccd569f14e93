// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "picture/chart_page.hpp"

#include <algorithm>
#include <cmath>

#include "picture/chart_layout.hpp"
#include "picture/text.hpp"

namespace beforehand::picture {

namespace {

constexpr double room_for_a_bar = 120;  // on average, at scale 1
constexpr double band_gap = 14;
constexpr double indent = 96;     // of a list's names, after number and time
constexpr double least_name = 4;  // characters; less says nothing

double most_bars(const ActivityChart& chart) {
  std::ptrdiff_t most = 0;
  for (const Lane& lane : chart.lanes) {
    most = std::max(most, std::count_if(lane.bars.begin(), lane.bars.end(), is_named));
  }
  return static_cast<double>(most);
}

Ms whole_ms(double ms) { return Ms{std::llround(ms)}; }

}  // namespace

// The last band shows the shares beside it, and so much less time.
ChartPage::ChartPage(const Canvas& canvas, const ActivityChart& chart, const ChartWords& words,
                     const Theme& theme, double width)
    : theme_(theme), width_(width) {
  number_bars(chart);
  ChartView view = whole(chart);
  view.words = words;
  const Ms end = view.to;
  const double narrow = lay_out(canvas, chart, view, theme, {0, 0, width, 1}).plot.width;
  view.shares = false;
  const double wide = lay_out(canvas, chart, view, theme, {0, 0, width, 1}).plot.width;
  const double needed = most_bars(chart) * theme.px(room_for_a_bar);
  const double count = std::max(1.0, std::ceil((needed + wide - narrow) / wide));
  const double ms_per_unit = static_cast<double>(end.count()) / ((count - 1) * wide + narrow);
  view.legend = false;
  for (int i = 0; i < static_cast<int>(count); ++i) {
    const bool last = i + 1 == static_cast<int>(count);
    view.from = whole_ms(i * wide * ms_per_unit);
    view.to = last ? end : whole_ms((i + 1) * wide * ms_per_unit);
    view.shares = view.legend = last;
    bands_.push_back(band_of(canvas, chart, view, ms_per_unit));
    height_ += bands_.back().height + theme.px(band_gap);
  }
  std::size_t longest = 0;
  for (auto& list : lists_) {
    std::size_t lines = 0;
    for (auto& entry : list) {
      entry.lines = wrap(canvas, entry.text, column_width() - theme.px(indent + band_gap),
                         theme.size(TextSize::label));
      lines += entry.lines.size();
    }
    longest = std::max(longest, lines);
  }
  height_ += row_height() * static_cast<double>(longest + 1) + theme.px(band_gap);
}

// In the order of time, over all lanes.
void ChartPage::number_bars(const ActivityChart& chart) {
  std::vector<std::pair<std::size_t, std::size_t>> order;
  for (std::size_t lane = 0; lane < chart.lanes.size(); ++lane) {
    const auto& bars = chart.lanes[lane].bars;
    names_.push_back(chart.lanes[lane].name);
    numbers_.emplace_back(bars.size());
    for (std::size_t i = 0; i < bars.size(); ++i) {
      if (is_named(bars[i])) order.emplace_back(lane, i);
    }
  }
  const auto bar = [&](const auto& at) -> const Bar& {
    return chart.lanes[at.first].bars[at.second];
  };
  std::stable_sort(order.begin(), order.end(),
                   [&](const auto& a, const auto& b) { return bar(a).from < bar(b).from; });
  lists_.resize(chart.lanes.size());
  for (std::size_t n = 0; n < order.size(); ++n) {
    const auto number = std::to_string(n + 1);
    numbers_[order[n].first][order[n].second] = number;
    lists_[order[n].first].push_back(
        {number, clock_text(bar(order[n]).from), bar(order[n]).label, {}});
  }
}

// What lies in the band, each bar named as far as it has room.
ChartPage::Band ChartPage::band_of(const Canvas& canvas, const ActivityChart& chart, ChartView view,
                                   double ms_per_unit) const {
  Band band;
  band.view = std::move(view);
  band.chart.title = chart.title;
  band.chart.links = chart.links;
  band.chart.marks = chart.marks;
  for (std::size_t i = 0; i < chart.lanes.size(); ++i) {
    Lane lane = chart.lanes[i];
    lane.bars.clear();
    for (std::size_t b = 0; b < chart.lanes[i].bars.size(); ++b) {
      Bar bar = chart.lanes[i].bars[b];
      const bool seen = bar.to > band.view.from && bar.from < band.view.to;
      if (!seen && !band.view.legend) continue;  // the legend is of everything
      if (seen && !numbers_[i][b].empty()) name(canvas, bar, numbers_[i][b], i, ms_per_unit, band);
      lane.bars.push_back(std::move(bar));
    }
    band.chart.lanes.push_back(std::move(lane));
  }
  std::stable_sort(band.chart.marks.begin(), band.chart.marks.end(),
                   [](const ChartMark& a, const ChartMark& b) { return a.at < b.at; });
  band.height = chart_height(canvas, band.chart, band.view, theme_, width_);
  return band;
}

// Number and name, or part of the name, or the number alone; or the number above the bar.
void ChartPage::name(const Canvas& canvas, Bar& bar, const std::string& number, std::size_t lane,
                     double ms_per_unit, Band& band) const {
  const Ms from = std::max(bar.from, band.view.from), to = std::min(bar.to, band.view.to);
  const double size = theme_.size(TextSize::label);
  const double room = static_cast<double>((to - from).count()) / ms_per_unit - theme_.px(2 * 5 + 1);
  const auto shown = shorten(canvas, number + ' ' + bar.label, room, size);
  const bool says_enough =
      static_cast<double>(shown.size()) >= static_cast<double>(number.size()) + 1 + least_name;
  bar.label = says_enough ? shown : number;
  if (says_enough || canvas.measure(number, size, Weight::regular).width <= room) return;
  bar.label.clear();
  band.chart.marks.push_back({ChartMark::Kind::step, lane, from + (to - from) / 2, number});
}

void ChartPage::draw(Canvas& canvas, Point top_left) const {
  double y = top_left.y;
  for (const Band& band : bands_) {
    draw_chart(canvas, band.chart, band.view, theme_, {top_left.x, y, width_, band.height});
    y += band.height + theme_.px(band_gap);
  }
  const double size = theme_.size(TextSize::label);
  for (std::size_t i = 0; i < lists_.size(); ++i) {
    const double x = top_left.x + column_width() * static_cast<double>(i);
    const auto write = [&](double dx, double row, const std::string& text, Align align,
                           Weight weight) {
      canvas.text({x + theme_.px(dx), y + row_height() * (row + 0.5)}, text,
                  {size, theme_.palette.ink, weight, align, Level::middle});
    };
    write(0, 0, names_[i], Align::left, Weight::bold);
    double row = 1;
    for (const Entry& entry : lists_[i]) {
      write(28, row, entry.number, Align::right, Weight::bold);
      write(84, row, entry.time, Align::right, Weight::regular);
      for (const auto& line : entry.lines) {
        write(indent, row, line, Align::left, Weight::regular);
        row += 1;
      }
    }
  }
}

}  // namespace beforehand::picture
