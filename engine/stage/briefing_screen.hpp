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
#include "stage/page.hpp"
#include "stage/pen.hpp"
#include "stage/shelf.hpp"
#include "timing/explain.hpp"

namespace beforehand::stage {

/// What the trainee hears before the drill: the announced plan, the cautions, what to have ready,
/// the keys; and the reference plan, once it is found.
class BriefingScreen {
 public:
  /// laid: another card or other materials were chosen, see choice().
  enum class Outcome { stay, begin, back, observe, rehearse, improve, compare, laid };

  /// The item must outlive the screen. Without a procedure it shows what has to be mended, and
  /// nothing can be begun.
  BriefingScreen(const ShelfItem& item, std::vector<Overlay> materials, const Choice& choice,
                 const KeyMap& keys = {}, const Scroll& scroll = {})
      : item_(item),
        materials_(std::move(materials)),
        choice_(choice),
        keys_(keys),
        scroll_(scroll) {}

  /// Shows the plan that is best if no signal comes.
  void show(const timing::Plan&, const timing::Explanation&);

  Outcome handle(const Input&);
  void draw(Pen&, const Box&);
  const Scroll& scroll() const { return scroll_; }
  const Choice& choice() const { return choice_; }

 private:
  Outcome lay(std::string& file, const std::vector<Overlay>& offered, int by);
  Outcome on_symbol(char32_t symbol);
  Outcome on_press(int id);
  bool playable() const { return item_.procedure != nullptr; }
  const procedure::Procedure& procedure() const { return *item_.procedure; }
  void draw_page(Pen&, const Box& inside);
  void write_laid(Pen&, Flow&) const;
  void write_plan(Pen&, Flow&) const;
  void write_step(Pen&, Flow&, const procedure::Step&) const;
  void write_ready(Pen&, Flow&) const;
  void write_keys(Pen&, Flow&) const;
  std::vector<BarButton> bar_buttons(const Pen&, bool with_ways) const;
  void write_ways(Pen&, Flow&) const;
  void write_reference(Pen&, Flow&) const;
  bool in_part(const procedure::Step&) const;

  const ShelfItem& item_;
  std::vector<Overlay> materials_;
  Choice choice_;
  KeyMap keys_;
  std::optional<timing::Plan> plan_;
  picture::ActivityChart chart_;
  Scroll scroll_;
  bool ways_in_page_ = false;
  Hits hits_;
};

}  // namespace beforehand::stage
