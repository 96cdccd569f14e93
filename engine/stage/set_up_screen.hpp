// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <chrono>
#include <optional>
#include <string>
#include <vector>

#include "drill/set_up.hpp"
#include "records/record.hpp"
#include "stage/flow.hpp"
#include "stage/input.hpp"
#include "stage/pen.hpp"

namespace beforehand::stage {

/// Laying the tray for the announced plan, from the cabinet and the counter, before the drill.
class SetUpScreen {
 public:
  enum class Outcome { stay, drill, back };

  /// The procedure must outlive the screen; `items` is what set_up_of() gave, not empty.
  SetUpScreen(const procedure::Procedure& procedure, std::vector<drill::SetUpItem> items)
      : procedure_(procedure), items_(std::move(items)) {}

  /// Takes the place of one for an older version of the scenario: what lay there still lies here,
  /// as far as it is there at all.
  void go_on_from(const SetUpScreen& older);

  Outcome handle(const Input&);
  void pass(std::chrono::microseconds real);
  void draw(Pen&, const Box&);

  const std::vector<drill::SetUpItem>& items() const { return items_; }
  const std::vector<std::size_t>& laid() const { return laid_; }
  /// What was found, once it has been looked at.
  const std::optional<drill::SetUpCheck>& check() const { return check_; }
  /// How it went, in one line; empty when it was passed over.
  std::string summary(const Strings&) const;
  /// The same to be kept; nothing when it was passed over.
  std::optional<records::TaskRecord> record() const;

 private:
  enum class Focus { cabinet, tray, done, skip };

  Outcome on_key(const Input&);
  Outcome on_press(Point at);
  Outcome act();
  void look_at_it();
  void move(int by);
  void turn(int by);
  void lay(std::size_t row);
  void take_back(std::size_t row);
  std::vector<std::size_t> left_in_cabinet() const;
  void draw_laying(Pen&, const Box&);
  void draw_list(Pen&, const Box&, bool tray);
  void write_check(Flow&, const Strings&, const picture::Palette&) const;

  const procedure::Procedure& procedure_;
  std::vector<drill::SetUpItem> items_;
  std::vector<std::size_t> laid_;
  std::optional<drill::SetUpCheck> check_;
  std::chrono::microseconds taken_{0};
  bool newer_ = false;  // the scenario was saved anew meanwhile
  Focus focus_ = Focus::cabinet;
  std::size_t row_ = 0, tray_row_ = 0;
  Scroll cabinet_scroll_, tray_scroll_, page_;
  Box tray_;  // of its list, when last drawn
  Hits hits_;
};

}  // namespace beforehand::stage
