// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <chrono>
#include <string>
#include <vector>

#include "drill/replay.hpp"
#include "stage/captions.hpp"
#include "stage/drill_panels.hpp"
#include "stage/input.hpp"
#include "stage/pace.hpp"
#include "stage/page.hpp"
#include "stage/played.hpp"
#include "stage/replay_moments.hpp"
#include "stage/scrub_chart.hpp"

namespace beforehand::stage {

/// A session played again: the room at any moment of it, the chart to go there, and the list of
/// what happened.
class ReplayScreen {
 public:
  enum class Outcome { stay, back };

  /// How long before a mistake one wants to look: what led to it is seen, too.
  static constexpr Ms lead_in{2000};

  /// `back` is what the way out is called. The texts must outlive the screen.
  ReplayScreen(Played, const Strings&, const std::string& back);
  ReplayScreen(const ReplayScreen&) = delete;
  ReplayScreen& operator=(const ReplayScreen&) = delete;

  /// Lays the plan under the chart.
  void refer_to(const timing::Plan&);

  /// Shows the room at a moment, standing still.
  void show(Ms moment);
  /// Shows what led to an error, by its position in Score::errors.
  void show_error(std::size_t error);
  /// The moment of the list, exactly.
  void show_moment(std::size_t position);
  void set_playing(bool playing) { clock_.set_paused(!playing); }

  Outcome handle(const Input&);
  void pass(std::chrono::microseconds real);
  /// Whether something moves by itself.
  bool playing() const { return !clock_.paused(); }
  void draw(Pen&, const Box&);

  Ms now() const { return replay_.now(); }
  const drill::World& world() const { return replay_.world(); }
  const scoring::Score& score() const { return score_; }
  /// What is listed, and which of it is marked.
  const std::vector<ReplayMoment>& moments() const { return moments_; }
  std::size_t marked() const { return marked_; }
  const ScrubChart& chart() const { return chart_; }
  const Hits& hits() const { return hits_; }

 private:
  struct Line {
    std::string text;
    Colour colour;
    Weight weight;
  };

  void go(Ms moment);
  void go_on(int by);
  bool read_on(int by);
  void step(int by);
  void mark_last();
  bool listed(const ReplayMoment& m) const { return !only_marks_ || m.bad || m.sign == "!"; }
  Outcome on_key(const Input&);
  Outcome on_press(int id);
  void toggle_playing();
  Scene scene() const;
  void draw_bar(Pen&, const Box&);
  void draw_wide(Pen&, const Box&);
  void draw_compact(Pen&, const Box&);
  void draw_around(Pen&, const Box&);
  void draw_running(Pen&, const Box&);
  void draw_list(Pen&, const Box&);
  void draw_row(Pen&, const Box&, std::size_t) const;
  double text_indent(const Pen&) const;
  void follow(const Pen&, double view, const std::vector<double>& tops);
  std::vector<Line> lines_of(const Pen&, std::size_t) const;
  BarButton filter_button(const Pen&) const;
  std::vector<BarButton> transport(const Pen&, bool brief) const;

  Played played_;
  const Strings& t_;
  std::string back_;
  scoring::Score score_;
  drill::Replay replay_;
  std::vector<Caption> captions_;  // of the whole session
  std::vector<ReplayMoment> moments_;
  ScrubChart chart_;
  PaceClock clock_{usual};
  std::size_t marked_ = 0;  // in moments_
  bool awaited_ = false;    // the marked one is still to come
  bool only_marks_ = false, followed_ = false, compact_ = false, slim_ = false;
  std::size_t view_ = 0;  // of a small window: room, field, chart, what was said
  RoomPanel room_;
  Scroll list_;
  double row_top_ = 0, row_end_ = 0;  // of the marked row in the list, as last drawn
  Hits hits_;
};

}  // namespace beforehand::stage
