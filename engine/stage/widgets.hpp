// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// The few things screens are made of. Each draws itself, says where it can be pressed, and
// remembers nothing.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "stage/pen.hpp"

namespace beforehand::stage {

/// A white card with a quiet edge. Gives the box inside its margins.
Box panel(Pen&, const Box& box);

/// A bold line; gives the y below it.
double heading(Pen&, Point at, double width, std::string_view text);

/// Wrapped text; gives the y below it. Lines past `bottom` are left out with an ellipsis.
double paragraph(Pen&, Point at, double width, std::string_view text, TextSize size, Colour colour,
                 Weight weight = Weight::regular, double bottom = 1e9);

/// The width and drawing of a key's cap, its middle at `at.y`; gives the x right of it.
double key_cap(Pen&, Point at, std::string_view key);
double key_cap_width(const Pen&, std::string_view key);

/// A small filled label; gives the x right of it. `at` is its left end, middle height.
double badge(Pen&, Point at, std::string_view text, Colour fill, Colour text_colour);

struct ButtonLook {
  bool primary = false;  ///< the thing to do next
  bool focused = false;  ///< where the keyboard is
  bool enabled = true;
};

/// A button with an optional key cap. A press on it means `id`; a disabled one cannot be pressed.
void button(Pen&, const Box& box, std::string_view label, std::string_view key, ButtonLook look,
            int id);
double button_width(const Pen&, std::string_view label, std::string_view key);
double button_height(const Pen&);

/// Buttons in a row, each as wide as its label and its key: one after the other from `x` on, or one
/// before the other up to it. `x` is where the next one goes.
struct ButtonRow {
  Pen& pen;
  double x, y, height, gap;
  bool leftward = false;
  void add(std::string_view label, std::string_view key, int id, ButtonLook look = {});
};

/// One of a few, side by side; option i is pressed as `first_id` + i.
void switcher(Pen&, const Box& box, const std::vector<std::string>& options, std::size_t chosen,
              bool focused, int first_id);

/// One of many, shown one at a time, with an arrow on either side.
void stepper(Pen&, const Box& box, std::string_view text, bool focused, int back_id, int on_id);

/// A line to type in. `hint` is shown while it is empty.
void text_field(Pen&, const Box& box, std::string_view text, std::string_view hint, bool focused,
                int id);

/// The bar that says how much lies above and below, at the right edge of the view; what the view
/// cuts pales into the ground (a card's, if none is given). Drawn after what is in the view.
void scroll_bar(Pen&, const Box& view, const Scroll& scroll,
                std::optional<Colour> ground = std::nullopt);

/// How far something has come, `share` from 0 to 1.
void progress_bar(Pen&, const Box& box, double share);

/// The outline that says where the keyboard is.
void focus_ring(Pen&, const Box& box, double radius);

}  // namespace beforehand::stage
