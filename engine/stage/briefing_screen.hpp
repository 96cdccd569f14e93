// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <optional>
#include <string>

#include "picture/activity_chart.hpp"
#include "procedure/procedure.hpp"
#include "stage/choice.hpp"
#include "stage/flow.hpp"
#include "stage/input.hpp"
#include "stage/key_map.hpp"
#include "stage/pen.hpp"
#include "timing/explain.hpp"

namespace beforehand::stage {

/// What the trainee hears before the drill: the announced plan, the cautions, what to have ready,
/// the keys; and the reference plan, once it is found.
class BriefingScreen {
 public:
  enum class Outcome { stay, begin, back, observe, rehearse, improve };

  /// The procedure must outlive the screen.
  BriefingScreen(const procedure::Procedure& procedure, const Choice& choice,
                 const KeyMap& keys = {})
      : procedure_(procedure), choice_(choice), keys_(keys) {}

  /// Shows the plan that is best if no signal comes.
  void show(const timing::Plan&, const timing::Explanation&);

  Outcome handle(const Input&);
  void draw(Pen&, const Box&);
  const Scroll& scroll() const { return scroll_; }

 private:
  void write_plan(Pen&, Flow&) const;
  void write_step(Pen&, Flow&, const procedure::Step&) const;
  void write_ready(Pen&, Flow&) const;
  void write_keys(Pen&, Flow&) const;
  double bar_height(const Pen&, double width) const;
  void draw_bar(Pen&, const Box&) const;
  void write_reference(Pen&, Flow&) const;
  bool in_part(const procedure::Step&) const;

  const procedure::Procedure& procedure_;
  Choice choice_;
  KeyMap keys_;
  std::optional<timing::Plan> plan_;
  picture::ActivityChart chart_;
  Scroll scroll_;
  Hits hits_;
};

}  // namespace beforehand::stage
