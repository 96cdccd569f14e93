// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <array>
#include <chrono>
#include <memory>

#include "stage/comparison.hpp"
#include "stage/replay_screen.hpp"

namespace beforehand::stage {

/// Two sessions on one axis of time, with what is better and worse, and the room of either at any
/// moment.
class SideBySideScreen {
 public:
  enum class Outcome { stay, back };

  /// The first is the later one: changes are told of it against the second. The texts must outlive
  /// the screen.
  SideBySideScreen(Played first, Played second, const Strings&, const std::string& back);
  SideBySideScreen(const SideBySideScreen&) = delete;
  SideBySideScreen& operator=(const SideBySideScreen&) = delete;

  /// Moves the line of the moment in both charts.
  void point(Ms moment);

  Outcome handle(const Input&);
  void pass(std::chrono::microseconds real);
  bool playing() const { return watching_ && watching_->playing(); }
  void draw(Pen&, const Box&);

  Ms moment() const { return moment_; }
  /// The room of one of the two, when it is shown.
  ReplayScreen* watching() { return watching_.get(); }
  const ScrubChart& chart(std::size_t of) const { return sides_[of].chart; }

 private:
  struct Side {
    Played played;
    scoring::Score score;
    ScrubChart chart;
    explicit Side(Played, const Strings&);
  };

  void move(Ms by) { point(moment_ + by); }
  void zoom();
  void watch(std::size_t side);
  Outcome on_key(const Input&);
  std::string name_of(const Side&, std::size_t position) const;
  void write_needs(Pen&, Flow&) const;
  void write_figures(Pen&, Flow&) const;
  void draw_words(Pen&, const Box&, bool compact);
  void draw_charts(Pen&, const Box&);
  std::vector<BarButton> buttons(const Pen&) const;

  const Strings& t_;
  std::string back_;
  std::array<Side, 2> sides_;
  std::vector<NeedDifference> needs_;
  Ms moment_{0};
  bool compact_ = false, charts_shown_ = false;  // in a small window they take turns
  std::unique_ptr<ReplayScreen> watching_;
  Scroll scroll_;
  Hits hits_;
};

}  // namespace beforehand::stage
