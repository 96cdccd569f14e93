// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "picture/activity_chart.hpp"

#include <gtest/gtest.h>

#include <set>

#include "drawing.hpp"
#include "picture/chart_layout.hpp"

namespace beforehand::picture {
namespace {

using std::chrono::seconds;

/// An invented procedure of `count` steps with everything a chart can show.
ActivityChart invented(int count) {
  ActivityChart chart;
  chart.title = "Invented";
  Lane clinician{"Clinician", {}, {}, {}, {60, 0, 10, 30, 0}};
  Lane assistant{"Assistant <b>", {}, {}, {}, {50, 15, 0, 20, 15}};
  Ms t{0};
  for (int i = 0; i < count; ++i) {
    const Ms length = seconds(8 + (i * 7) % 23);
    const std::string name = "Step number " + std::to_string(i + 1);
    clinician.bars.push_back({Activity::work, t, t + length, name, false, i % 3 == 0, false});
    clinician.bars.push_back({Activity::waiting, t + length, t + length + seconds(3), "waits"});
    clinician.planned.push_back({Activity::work, t, t + length, name});
    assistant.bars.push_back({Activity::work, t, t + length / 2, "Prepare " + name});
    assistant.bars.push_back({Activity::cover, t + seconds(1), t + length, "Suction"});
    assistant.bars.push_back({Activity::standby, t + length / 2, t + length, ""});
    assistant.bars.push_back(
        {Activity::avoidable_idle, t + length, t + length + seconds(3), "could load"});
    assistant.windows.push_back({t, t + length, "Load for " + name});
    chart.links.push_back({1, 0, t + length / 2, t + length + seconds(3), i % 2 == 0});
    chart.marks.push_back({ChartMark::Kind::error, 1, t + length, std::to_string(i + 1)});
    chart.marks.push_back({ChartMark::Kind::request, 0, t + length, "A"});
    t += length + seconds(3);
  }
  chart.lanes = {clinician, assistant};
  return chart;
}

struct Setting {
  double width, height, scale;
  Ms from, to;
};

class Chart : public testing::TestWithParam<Setting> {
 protected:
  Chart() : chart_(invented(20)), view_(whole(chart_)) {
    theme_.scale = GetParam().scale;
    if (GetParam().to > Ms{0}) {
      view_.from = GetParam().from;
      view_.to = GetParam().to;
      chart_.now = view_.from + (view_.to - view_.from) / 3;
    }
    draw_chart(canvas_, chart_, view_, theme_, box_);
  }

  ActivityChart chart_;
  ChartView view_;
  Theme theme_;
  Box box_{10, 10, GetParam().width - 20, GetParam().height - 20};
  NotingCanvas canvas_{GetParam().width, GetParam().height, "chart"};
};

TEST_P(Chart, KeepsEveryTextInsideTheBox) {
  ASSERT_GT(canvas_.texts.size(), 4u);
  const Box room = box_.inset(-1);
  for (const DrawnText& t : canvas_.texts) {
    EXPECT_GE(t.box.x, room.x) << t.text;
    EXPECT_GE(t.box.y, room.y) << t.text;
    EXPECT_LE(t.box.right(), room.right()) << t.text;
    EXPECT_LE(t.box.bottom(), room.bottom()) << t.text;
  }
}

TEST_P(Chart, LetsNoTextLieOnAnother) {
  for (std::size_t i = 0; i < canvas_.texts.size(); ++i) {
    for (std::size_t k = i + 1; k < canvas_.texts.size(); ++k) {
      EXPECT_FALSE(canvas_.texts[i].box.overlaps(canvas_.texts[k].box))
          << canvas_.texts[i].text << " and " << canvas_.texts[k].text;
    }
  }
}

TEST_P(Chart, CutsNoLabelAtTheEdgesOfItsBar) {
  const ChartLayout layout = lay_out(canvas_, chart_, view_, theme_, box_);
  for (std::size_t lane = 0; lane < chart_.lanes.size(); ++lane) {
    for (const Bar& bar : chart_.lanes[lane].bars) {
      for (const DrawnText& t : canvas_.texts) {
        if (t.text != bar.label || !layout.lanes[lane].main.front().overlaps(t.box)) continue;
        if (t.box.x < layout.x(bar.from) || t.box.x > layout.x(bar.to)) continue;
        EXPECT_LE(t.box.right(), layout.x(bar.to)) << t.text;
      }
    }
  }
}

TEST_P(Chart, WritesNothingSmallerThanTheThemeAllowsButMarks) {
  for (const DrawnText& t : canvas_.texts) {
    const bool mark = t.text.size() <= 2;
    if (!mark) {
      EXPECT_GE(t.size, 16 * theme_.scale) << t.text;
    }
  }
}

TEST_P(Chart, FindsTheMomentUnderAPoint) {
  const ChartLayout layout = lay_out(canvas_, chart_, view_, theme_, box_);
  const Ms middle = view_.from + (view_.to - view_.from) / 4;
  const auto found =
      moment_at(canvas_, chart_, view_, theme_, box_, {layout.x(middle), layout.plot.centre().y});
  ASSERT_TRUE(found);
  EXPECT_NEAR(static_cast<double>(found->count()), static_cast<double>(middle.count()), 2);
  EXPECT_FALSE(moment_at(canvas_, chart_, view_, theme_, box_, {box_.x, box_.y}));
}

INSTANTIATE_TEST_SUITE_P(
    Sizes, Chart,
    testing::Values(Setting{1280, 520, 1, {}, {}}, Setting{1920, 600, 1, {}, {}},
                    Setting{1280, 720, 2, {}, {}},  // 200 %
                    Setting{1123, 794, 1, {}, {}},  // A4 across at 96 dots an inch
                    Setting{1280, 420, 1, seconds(60), seconds(120)},  // in a drill
                    Setting{1280, 260, 1, seconds(60), seconds(120)},  // squeezed
                    Setting{1280, 700, 2, seconds(60), seconds(120)}));

TEST(ActivityChart, DrawsEachBarOnceAndSaysWhatItIs) {
  const ActivityChart chart = invented(6);
  SvgCanvas canvas(1280, 520, "chart");
  draw_chart(canvas, chart, whole(chart), {}, {0, 0, 1280, 520});
  const auto document = parse(canvas.str());
  EXPECT_EQ(count(document, "//g[@role='list']"), 2u);
  const std::size_t bars = chart.lanes[0].bars.size() + chart.lanes[1].bars.size() +
                           chart.lanes[0].planned.size() + 3;  // rows for three windows, no more
  const std::size_t items = count(document, "//g[@role='listitem']");
  EXPECT_GE(items, bars);
  EXPECT_LE(items, bars + chart.lanes[1].windows.size());
  EXPECT_EQ(
      count(document, "//g[@role='listitem'][starts-with(title, 'Step number 1, work, 0:00')]"),
      1u);
  EXPECT_EQ(count(document, "//g[@role='list'][title='Assistant <b>']"), 1u);
}

TEST(ActivityChart, TellsActivitiesApartWithoutColour) {
  // What is left of each shape when every colour is the same: elements, their boxes and their
  // dashes.
  std::set<std::string> shapes;
  for (const Activity activity : {Activity::work, Activity::cover, Activity::waiting,
                                  Activity::standby, Activity::avoidable_idle}) {
    ActivityChart chart;
    chart.lanes = {{"A", {{activity, seconds(0), seconds(30), "", true}}, {}, {}, {}}};
    ChartView view;
    view.legend = false;
    SvgCanvas canvas(400, 100, "t");
    draw_chart(canvas, chart, view, {}, {0, 0, 400, 100});
    const auto document = parse(canvas.str());
    std::string shape;
    for (const auto& found : document.select_nodes("//g[@role='listitem']/*[name()!='title']")) {
      const auto node = found.node();
      shape += std::string(node.name()) + node.attribute("height").value() +
               node.attribute("points").value() +
               (node.attribute("fill").value() == std::string("#ffffff") ? "hollow" : "") + ';';
    }
    shapes.insert(shape);
  }
  EXPECT_EQ(shapes.size(), 5u);
}

TEST(ActivityChart, ShowsInTheLegendOnlyWhatIsThere) {
  ActivityChart chart;
  chart.lanes = {{"A", {{Activity::work, seconds(0), seconds(30), "x"}}, {}, {}, {}}};
  NotingCanvas canvas(800, 200, "t");
  const ChartLayout layout = lay_out(canvas, chart, {}, {}, {0, 0, 800, 200});
  ASSERT_EQ(layout.entries.size(), 1u);
  EXPECT_EQ(layout.entries[0].kind, LegendEntry::Kind::work);
}

TEST(ActivityChart, PutsBarsThatOverlapIntoRowsOfTheirOwn) {
  ActivityChart chart;
  chart.lanes = {{"A",
                  {{Activity::work, seconds(0), seconds(30), "a"},
                   {Activity::work, seconds(10), seconds(20), "b"},
                   {Activity::work, seconds(30), seconds(40), "c"}},
                  {},
                  {},
                  {}}};
  SvgCanvas canvas(800, 200, "t");
  const ChartLayout layout = lay_out(canvas, chart, {}, {}, {0, 0, 800, 200});
  EXPECT_EQ(layout.lanes[0].main.size(), 2u);
  EXPECT_EQ(layout.lanes[0].row_of, (std::vector<std::size_t>{0, 1, 0}));
}

TEST(ActivityChart, AnEmptyOneAndOneWithoutLanesCanBeDrawn) {
  ActivityChart chart;
  SvgCanvas canvas(300, 100, "t");
  draw_chart(canvas, chart, whole(chart), {}, {0, 0, 300, 100});
  chart.lanes = {{"A", {}, {}, {}, {}}};
  draw_chart(canvas, chart, whole(chart), {}, {0, 0, 300, 100});
  draw_chart(canvas, invented(5), whole(invented(5)), {}, {0, 0, 20, 10});
  EXPECT_NO_THROW(parse(canvas.str()));
}

TEST(Ticks, AreRoundAndFarEnoughApart) {
  EXPECT_EQ(ticks(seconds(0), seconds(10), Ms{3200}),
            (std::vector<Ms>{seconds(0), seconds(5), seconds(10)}));
  EXPECT_EQ(ticks(seconds(61), seconds(200), seconds(50)),
            (std::vector<Ms>{seconds(120), seconds(180)}));
  EXPECT_EQ(ticks(seconds(0), seconds(20000), seconds(9000)).size(), 2u);
}

}  // namespace
}  // namespace beforehand::picture
