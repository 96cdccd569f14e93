// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <string>
#include <vector>

#include "picture/activity_chart.hpp"

namespace beforehand::picture {

/// A chart of a long procedure, to be read on paper: broken into bands of time, one under the
/// other, as many as the number of bars asks for. Every bar of work has a number and as much of its
/// name as it holds; below, a list for each person says what the numbers are.
class ChartPage {
 public:
  ChartPage(const Canvas& canvas, const ActivityChart& chart, const ChartWords& words,
            const Theme& theme, double width);

  double height() const { return height_; }
  void draw(Canvas& canvas, Point top_left) const;

 private:
  struct Band {
    ActivityChart chart;
    ChartView view;
    double height = 0;
  };
  struct Entry {
    std::string number, time, text;
    std::vector<std::string> lines;  // the text, broken to the list's width
  };

  void number_bars(const ActivityChart& chart);
  Band band_of(const Canvas& canvas, const ActivityChart& chart, ChartView view,
               double ms_per_unit) const;
  void name(const Canvas& canvas, Bar& bar, const std::string& number, std::size_t lane,
            double ms_per_unit, Band& band) const;
  double column_width() const {
    return lists_.empty() ? width_ : width_ / static_cast<double>(lists_.size());
  }
  double row_height() const { return theme_.size(TextSize::label) * 1.3; }

  Theme theme_;
  double width_ = 0, height_ = 0;
  std::vector<Band> bands_;
  std::vector<std::string> names_;
  std::vector<std::vector<std::string>> numbers_;  // by lane and bar; empty: not numbered
  std::vector<std::vector<Entry>> lists_;          // by lane
};

}  // namespace beforehand::picture
