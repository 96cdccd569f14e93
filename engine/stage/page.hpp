// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// The frame most screens have: a card that scrolls, and a bar of buttons below it.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "stage/flow.hpp"
#include "stage/widgets.hpp"

namespace beforehand::stage {

struct BarButton {
  std::string label, key;
  int id = 0;
  ButtonLook look{};
};

/// Whether the letters are so large for the window that parts of a screen have to take turns.
bool is_compact(const Pen&, const Box& window);

/// Draws the buttons: the last one at the right edge, the others from the left; where they do not
/// fit one row, in more. Gives the height that it took.
double button_bar(Pen&, const Box& box, const std::vector<BarButton>&);
double button_bar_height(const Pen&, double width, const std::vector<BarButton>&);

/// Buttons written into a flow one after the other, in a further row where they find no room.
class FlowButtons {
 public:
  FlowButtons(Pen& pen, Flow& flow, double indent = 0)
      : pen_(pen), flow_(flow), left_(flow.x() + indent), x_(left_) {}

  void add(std::string_view label, std::string_view key, int id, ButtonLook look = {});
  /// Moves the flow below them.
  void end();

 private:
  Pen& pen_;
  Flow& flow_;
  double left_, x_;
};

/// A card that scrolls over the bar of buttons, in the whole window.
void page(Pen&, const Box& box, Scroll&, const std::function<void(Flow&)>& write,
          const std::vector<BarButton>&);

/// The same without the bar: a card that scrolls. Gives the box inside its margins.
Box scrolling_card(Pen&, const Box& card, Scroll&, const std::function<void(Flow&)>& write);

}  // namespace beforehand::stage
