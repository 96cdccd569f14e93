// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "picture/chart_page.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "drawing.hpp"

namespace beforehand::picture {
namespace {

using std::chrono::seconds;

// Steps of 2 to 40 s for two people, with a cover now and then; invented.
ActivityChart procedure_of(int steps) {
  ActivityChart chart;
  chart.title = "Invented";
  chart.lanes = {{"Clinician", {}, {}, {}, {80, 0, 20, 0, 0}},
                 {"Assistant", {}, {}, {}, {50, 20, 0, 30, 0}}};
  Ms t{0};
  for (int i = 0; i < steps; ++i) {
    const Ms length = seconds(2 + (i * 13) % 39);
    Bar bar{Activity::work, t, t + length, "Does thing number " + std::to_string(i)};
    if (i % 7 == 6) bar.activity = Activity::cover;
    chart.lanes[static_cast<std::size_t>(i % 2)].bars.push_back(bar);
    t += length / 2 + seconds(1);
  }
  return chart;
}

struct Drawn {
  explicit Drawn(const ActivityChart& chart, double width = 1200)
      : canvas(width, 100, "t"), page(canvas, chart, {}, {}, width) {
    page.draw(canvas, {0, 0});
  }
  bool shows(const std::string& text) const {
    return std::any_of(canvas.texts.begin(), canvas.texts.end(),
                       [&](const DrawnText& t) { return t.text == text; });
  }

  NotingCanvas canvas;
  ChartPage page;
};

TEST(ChartPage, ListsEveryStepWithItsNumber) {
  for (const int steps : {1, 12, 40, 90}) {
    const Drawn drawn(procedure_of(steps));
    for (int i = 0; i < steps; ++i) {
      EXPECT_TRUE(drawn.shows("Does thing number " + std::to_string(i))) << i << " of " << steps;
      const auto number = std::to_string(i + 1);
      // once in the list, and at least once in the chart, alone or before the name
      const auto times = std::count_if(
          drawn.canvas.texts.begin(), drawn.canvas.texts.end(),
          [&](const auto& t) { return t.text == number || t.text.starts_with(number + " "); });
      EXPECT_GE(times, 2) << number << " of " << steps;
    }
  }
}

TEST(ChartPage, LettersAreLargeEnoughInsideAndNotOnEachOther) {
  const Drawn drawn(procedure_of(60));
  const auto& texts = drawn.canvas.texts;
  for (std::size_t i = 0; i < texts.size(); ++i) {
    EXPECT_GE(texts[i].size, 16);
    EXPECT_TRUE(is_within(texts[i].box, {0, 0, 1200, drawn.page.height()})) << texts[i].text;
    for (std::size_t k = 0; k < i; ++k) {
      EXPECT_FALSE(texts[i].box.inset(1).overlaps(texts[k].box.inset(1)))
          << texts[i].text << " on " << texts[k].text;
    }
  }
}

TEST(ChartPage, SixtyStepsFitTheShapeOfA4) {
  constexpr double width = 1500;  // a letter of 16 is 2.2 mm high on the page then
  EXPECT_LT(Drawn(procedure_of(60), width).page.height(), width * 297 / 210);
}

TEST(ChartPage, TheLegendIsOfEverythingWhateverTheLastBandShows) {
  auto chart = procedure_of(60);
  for (auto& bar : chart.lanes[1].bars) {
    if (bar.from > seconds(200)) bar.activity = Activity::work;
  }
  EXPECT_TRUE(Drawn(chart).shows("holding"));
}

TEST(ChartPage, AnEmptyChartIsAPageToo) {
  ActivityChart chart;
  EXPECT_GT(Drawn(chart).page.height(), 0);
  chart.lanes = {{"A", {}, {}, {}, {}}};
  EXPECT_TRUE(Drawn(chart).shows("A"));
}

}  // namespace
}  // namespace beforehand::picture
