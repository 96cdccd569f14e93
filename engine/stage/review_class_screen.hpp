// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <string>
#include <vector>

#include "records/cohort.hpp"
#include "stage/input.hpp"
#include "stage/pen.hpp"
#include "stage/review_desk.hpp"

namespace beforehand::stage {

/// Everybody's standing: who is ready, who is not, who is due. Only the rows in view are drawn.
class ReviewClass {
 public:
  enum class Outcome { stay, leave, open, heat, report };

  explicit ReviewClass(ReviewDesk&);

  /// Reads the table again; the view and the place in it stay.
  void refresh();
  Outcome handle(const Input&);
  void draw(Pen&, const Box&);
  void tell(std::string words) { told_ = std::move(words); }

  const records::CohortTable& table() const { return table_; }
  const records::CohortView& view() const { return view_; }
  /// The row the keyboard is on, or nullptr.
  const records::CohortRow* row() const { return table_.size() > 0 ? &table_[row_] : nullptr; }
  /// The scenario shown, or empty for all.
  std::string scenario() const;

 private:
  struct Column {
    records::CohortView::Column what;
    double x = 0, width = 0;
  };

  Outcome on_key(Key);
  Outcome on_press(Point);
  Outcome escape();
  void load();
  void changed();
  void move(long by);
  void step_scenario(int by);
  void step_only(int by);
  void sort_by(records::CohortView::Column);
  double width_of(const Pen&, records::CohortView::Column) const;
  std::vector<Column> columns_for(const Pen&, double width) const;
  std::string cell(const Pen&, const records::CohortRow&, records::CohortView::Column) const;
  std::vector<std::string> only_words(const Pen&) const;
  double draw_filters(Pen&, const Box&);
  void draw_head(Pen&, const Box&, const std::vector<Column>&);
  void draw_rows(Pen&, const Box&, const std::vector<Column>&);
  void measure_rows(const Pen&, const std::vector<Column>&);
  void draw_row(Pen&, const Box&, std::size_t, const std::vector<Column>&);
  void draw_empty(Pen&, const Box&);

  ReviewDesk& desk_;
  std::vector<ReviewDesk::Scenario> scenarios_;
  std::size_t scenario_ = 0;  // 0: all
  records::CohortTable table_;
  records::CohortView view_;
  std::size_t row_ = 0, page_ = 10;
  std::string told_, problem_;
  Scroll scroll_;
  std::vector<double> tops_;      // of the rows and below the last, as drawn
  std::vector<double> measured_;  // for which widths and size of letters; empty: for none
  Hits hits_;
};

/// "Signed off", "Evidence complete", ... with a sign of its own.
std::string standing_words(records::Readiness, const Strings&);
picture::Colour standing_colour(records::Readiness, const picture::Palette&);
/// When it is due, seen from now.
std::string due_words(records::Moment due, records::Moment now, const Strings&);
std::string points(double total);

}  // namespace beforehand::stage
