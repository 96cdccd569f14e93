// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <chrono>
#include <optional>
#include <string>
#include <vector>

#include "drill/turnover.hpp"
#include "records/record.hpp"
#include "stage/flow.hpp"
#include "stage/input.hpp"
#include "stage/pen.hpp"

namespace beforehand::stage {

/// Clearing up after the drill: each used thing to where it goes.
class TurnoverScreen {
 public:
  enum class Outcome { stay, debrief };

  /// The procedure must outlive the screen; `left` is what leftovers() gave, not empty.
  TurnoverScreen(const procedure::Procedure& procedure, std::vector<drill::Leftover> left)
      : procedure_(procedure), left_(std::move(left)) {}

  /// What else was used in the drill, so that the end can say why it was not asked for.
  void tell_used(const drill::World&, const drill::Session&);

  /// Whether a newer version of the scenario has been saved meanwhile: this drill keeps its own.
  void tell_newer(bool newer) { newer_ = newer; }

  Outcome handle(const Input&);
  void pass(std::chrono::microseconds real);
  void draw(Pen&, const Box&);

  const std::vector<drill::Leftover>& left() const { return left_; }
  const std::vector<drill::Cleared>& cleared() const { return cleared_; }
  /// What was found, once everything is cleared away.
  const std::optional<drill::TurnoverCheck>& check() const { return check_; }
  /// How it went, in one line; empty when it was passed over.
  std::string summary(const Strings&) const;
  /// The same to be kept; nothing when it was passed over.
  std::optional<records::TaskRecord> record() const;

 private:
  Outcome on_key(const Input&);
  Outcome on_press(Point at);
  Scroll& scroll_at(Point);
  void clear(drill::Destination);
  void take_back();
  std::vector<std::size_t> waiting() const;
  void draw_clearing(Pen&, const Box&);
  void draw_destinations(Pen&, const Box&);
  void write_check(Flow&, const Strings&, const picture::Palette&) const;
  void write_not_asked(Flow&, const Strings&, const picture::Palette&) const;

  const procedure::Procedure& procedure_;
  std::vector<drill::Leftover> left_;
  std::vector<drill::Cleared> cleared_;
  std::vector<std::string> put_, open_;  // not asked for: in its place already, or not settled
  std::optional<drill::TurnoverCheck> check_;
  std::chrono::microseconds taken_{0};
  std::size_t row_ = 0, destination_ = 0;
  bool on_skip_ = false, newer_ = false;
  Scroll list_, destinations_, page_;
  Box where_;  // of the destinations, when last drawn
  Hits hits_;
};

}  // namespace beforehand::stage
