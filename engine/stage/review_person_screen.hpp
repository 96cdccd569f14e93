// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "stage/flow.hpp"
#include "stage/input.hpp"
#include "stage/page.hpp"
#include "stage/pen.hpp"
#include "stage/review_desk.hpp"

namespace beforehand::stage {

/// One trainee in one scenario: the curve, what to practise next and why, the weak steps, every
/// drill, and what trainers signed and wrote.
class ReviewPerson {
 public:
  enum class Outcome { stay, leave, session, pair, report, sign, note };

  /// `trainer`: whether whoever looks may sign and write. `scenario`: the one to begin with.
  ReviewPerson(ReviewDesk::Trainee, std::string scenario, bool trainer);

  /// The records of the same trainee, read again; the place stays.
  void refresh(ReviewDesk::Trainee);
  /// The criteria of the scenario shown; asked for again when that changes.
  void show_criteria(std::vector<records::Criterion>);
  bool wants_criteria() const { return review() && criteria_of_ != review()->scenario; }
  void tell(std::string words, bool wrong = false);

  Outcome handle(const Input&);
  void draw(Pen&, const Box&);

  const records::TraineeFile& file() const { return trainee_.file; }
  /// What is shown, or nullptr when the trainee has no drills.
  const records::ScenarioReview* review() const;
  const procedure::Procedure* procedure() const;
  /// The sign-off that stands for the scenario shown, or nullptr.
  const records::SignOff* signed_off() const;
  /// The drill the keyboard is on, or nullptr.
  const records::SessionRecord* session() const;
  /// The drill marked for comparing, or nullptr.
  const records::SessionRecord* marked() const;

 private:
  /// How a drill stands in its list.
  struct RowShape {
    static constexpr double mark = 26;  ///< units, before all else
    bool slim = false;                  ///< the level stands on a line of its own
    double day = 0, words = 0, height = 0;
  };

  Outcome on_key(Key);
  Outcome on_press(Point);
  Outcome if_may(Outcome) const;
  void move(long by);
  void step_scenario(int by);
  std::size_t drills() const { return review() ? review()->sessions.size() : 0; }
  const records::SessionRecord& drill(std::size_t newest_first) const;
  std::vector<BarButton> buttons(const Pen&) const;
  double draw_head(Pen&, const Box&);
  void draw_columns(Pen&, const Box&);
  void draw_beside(Pen&, const Box&);
  void draw_curve(Pen&, const Box&) const;
  void draw_drills(Pen&, const Box&);
  RowShape row_shape(const Pen&, double width) const;
  std::string level_words(const records::SessionRecord&, const Strings&) const;
  static std::string verdict_of(const records::SessionRecord&, const Strings&);
  void draw_drill(Pen&, const Box&, std::size_t, const RowShape&);
  void draw_words(Pen&, const Box&);
  void write_words(Flow&, Pen&) const;
  void write_criteria(Flow&, Pen&) const;
  void write_steps(Flow&, Pen&) const;
  void write_sign_offs(Flow&, Pen&) const;

  ReviewDesk::Trainee trainee_;
  bool trainer_;
  std::size_t scenario_ = 0, row_ = 0;
  records::Id marked_;
  std::string criteria_of_;
  std::vector<records::Criterion> criteria_;
  std::string told_;
  bool wrong_ = false;
  bool one_at_a_time_ = false, drills_first_ = false;  // where only one of the two has room
  Scroll list_, words_;
  Hits hits_;
};

}  // namespace beforehand::stage
