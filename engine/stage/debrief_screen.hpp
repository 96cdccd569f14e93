// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <chrono>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "drill/session.hpp"
#include "procedure/procedure.hpp"
#include "scoring/debrief.hpp"
#include "scoring/score.hpp"
#include "stage/comparison.hpp"
#include "stage/flow.hpp"
#include "stage/input.hpp"
#include "stage/page.hpp"
#include "stage/pen.hpp"
#include "stage/replay_screen.hpp"
#include "stage/scrub_chart.hpp"
#include "timing/plan.hpp"

namespace beforehand::stage {

/// What the trainee sees after a drill, in the order of a good debrief: what happened, what went
/// well, what to change and why, the way to try it again; then everything behind the figures. From
/// the chart and from each mistake one looks into the room at that moment.
class DebriefScreen {
 public:
  enum class Outcome { stay, again, fresh, home, stretch, beside };

  /// The procedure and the texts must outlive the screen. `saved` is where the recording is, or
  /// empty; `problem` why it is not complete.
  DebriefScreen(const procedure::Procedure&, const drill::Session&, PersonIx trainee,
                std::string saved, std::string problem, const Strings&);

  /// Takes in the reference plan for the signals that occurred.
  void refer_to(const timing::Plan&);

  /// What became of the record, in words.
  void tell(std::string words) { told_ = std::move(words); }

  /// Lays own earlier attempts beside this one: the one before, and the best. Neither: this is the
  /// first that is kept.
  void compare_with(const std::optional<records::SessionRecord>& last,
                    const std::optional<records::SessionRecord>& best);

  /// For Outcome::beside: the earlier session to lay beside this one.
  const records::Id& other() const { return other_; }

  /// For Outcome::stretch: the phase to try again.
  PhaseIx stretch() const { return stretch_; }
  /// That phase was tried again: both results are shown.
  void take_stretch(const drill::Session&);
  /// What came before and after the drill, one line each.
  void tell_around(std::vector<std::string> lines) { around_ = std::move(lines); }

  /// It lies in the records, as `whose`. Who only looks at it plays nothing from here.
  void from_records(bool plays, std::string whose) {
    stored_ = true;
    plays_ = plays;
    whose_ = std::move(whose);
  }

  /// Whether a newer version of the scenario has been saved meanwhile: the next drill is of that
  /// one.
  void tell_newer(bool newer) { newer_ = newer; }

  Outcome handle(const Input&);
  void pass(std::chrono::microseconds real);
  bool moves() const { return watching_ && watching_->playing(); }
  void draw(Pen&, const Box&);

  const scoring::Score& score() const { return score_; }
  const scoring::Debrief& advice() const { return debrief_; }
  const drill::Session& session() const { return session_; }
  const Scroll& scroll() const { return scroll_; }
  /// The room at a moment, while it is looked into.
  ReplayScreen* watching() { return watching_.get(); }
  /// Which mistake the keyboard is on: the things to change first, then the errors.
  std::optional<std::size_t> marked() const { return marked_; }
  const ScrubChart& chart() const { return chart_; }

 private:
  struct Tried {
    drill::Session session;
    PhaseIx phase;
    StretchFigures then, now;
    std::string still;  // what is still to change; empty: nothing
    int times = 1;
    bool complete = false;
  };

  Outcome on_press(int id);
  Outcome on_key(const Input&);
  void mark(int by);
  std::size_t targets() const { return debrief_.change.size() + score_.errors.size(); }
  void watch(std::size_t target);
  void watch_at(Ms moment);
  void watch_stretch();
  Outcome beside(const records::Id&);
  Outcome try_again(PhaseIx);
  PhaseIx next_stretch() const;
  PhaseIx phase_of(std::size_t target) const;
  std::optional<std::size_t> error_of(const scoring::Advice&) const;

  struct Part {
    std::string name;
    double value = 0;  ///< 0..1
    std::string about;
  };
  std::vector<Part> parts(const Strings&) const;
  std::string story(const Strings&) const;
  void draw_total(Pen&, Point at) const;
  void draw_totals(Pen&, const Box&);
  void draw_page(Pen&, const Box& in);
  std::vector<BarButton> buttons_for(const Pen&, double width) const;
  void write_totals(Pen&, Flow&) const;
  void write_stretch(Pen&, Flow&);
  void write_chart(Pen&, Flow&);
  void write_points(Pen&, Flow& well, Flow& change);
  void write_earlier(Pen&, Flow&) const;
  void write_needs(Pen&, Flow&) const;
  void write_needs_narrow(Pen&, Flow&) const;
  void write_errors(Pen&, Flow&);
  void write_time(Pen&, Flow&) const;
  void write_saved(Pen&, Flow&) const;
  void begin_target(Pen&, const Flow&, std::size_t target);
  void write_ways(Pen&, Flow&, std::size_t target);

  const procedure::Procedure& procedure_;
  const Strings& t_;
  drill::Session session_;
  PersonIx trainee_;
  enum class Ending { done, closed, left } ending_;
  std::string saved_, problem_, told_;
  std::vector<std::string> around_;
  bool newer_ = false;
  std::string whose_;  // with the day; empty for what was just played
  scoring::Score score_;
  scoring::Debrief debrief_;
  ScrubChart chart_;
  std::vector<Attempt> earlier_;
  records::Id last_, best_, other_;
  bool first_attempt_ = false, stored_ = false, plays_ = true;
  std::optional<Tried> tried_;
  PhaseIx stretch_;
  std::optional<timing::Plan> plan_;
  std::unique_ptr<ReplayScreen> watching_;
  std::optional<Ms> watched_;  // where one looked last
  std::optional<std::size_t> marked_;
  bool to_marked_ = false;  // the next frame scrolls to it
  double page_top_ = 0, target_top_ = 0;
  bool narrow_ = false;  // one column, the figures at its head
  Scroll scroll_;
  Hits hits_;
};

}  // namespace beforehand::stage
