// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <string>
#include <vector>

#include "drill/session.hpp"
#include "picture/activity_chart.hpp"
#include "procedure/procedure.hpp"
#include "scoring/debrief.hpp"
#include "scoring/score.hpp"
#include "stage/flow.hpp"
#include "stage/input.hpp"
#include "stage/pen.hpp"
#include "timing/plan.hpp"

namespace beforehand::stage {

/// What the trainee sees after a drill: what went well, what to change and why, and everything
/// behind the figures.
class DebriefScreen {
 public:
  enum class Outcome { stay, again, fresh, home };

  /// The procedure must outlive the screen. `saved` is where the recording is, or empty; `problem`
  /// why it is not complete.
  DebriefScreen(const procedure::Procedure&, const drill::Session&, PersonIx trainee,
                std::string saved, std::string problem, const Strings&);

  /// Takes in the reference plan for the signals that occurred.
  void refer_to(const timing::Plan&);

  /// What became of the record, in words.
  void tell(std::string words) { told_ = std::move(words); }

  Outcome handle(const Input&);
  void draw(Pen&, const Box&);

  const scoring::Score& score() const { return score_; }
  const Scroll& scroll() const { return scroll_; }

 private:
  void draw_totals(Pen&, const Box&);
  void write_points(Pen&, Flow& well, Flow& change) const;
  void write_chart(Pen&, Flow&);
  void write_needs(Pen&, Flow&) const;
  void write_errors(Pen&, Flow&) const;
  void write_time(Pen&, Flow&) const;
  void write_saved(Pen&, Flow&) const;
  void zoom();
  void pan(int direction);

  const procedure::Procedure& procedure_;
  PersonIx trainee_;
  enum class Ending { done, closed, left } ending_;
  std::uint64_t seed_;
  std::string saved_, problem_, told_;
  scoring::Score score_;
  scoring::Debrief debrief_;
  picture::ActivityChart chart_;
  picture::ChartView view_;
  bool zoomed_ = false;
  Scroll scroll_;
  Hits hits_;
};

}  // namespace beforehand::stage
