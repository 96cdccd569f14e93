// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include "picture/activity_chart.hpp"

namespace beforehand::picture {

/// The shape of an activity in its row: full for work, hatched for cover, hollow for waiting, a
/// thin band for standing by, cross-hatched for avoidable idleness. Colour only repeats what the
/// shape says.
void draw_activity(Canvas& canvas, Activity activity, const Box& row, const Theme& theme);

/// A strong edge for a bar on the critical chain.
void draw_critical(Canvas& canvas, const Box& row, const Theme& theme);

/// A bar of the plan, to compare with.
void draw_planned(Canvas& canvas, const Box& row, const Theme& theme);

/// The label where it fits the room: whole, else shortened to no less than eight characters, which
/// still tell one step from another, else nothing.
std::string label_for(const Canvas&, std::string_view label, double room, double size);

/// The same on the visible part of a bar.
void draw_bar_label(Canvas& canvas, std::string_view label, Activity activity, const Box& visible,
                    const Theme& theme, Colour ink, Colour plate);

void draw_bracket(Canvas& canvas, const Box& box, const Theme& theme);

/// A request (speech bubble), an error (diamond) or a signal (flag) with its number; the number
/// alone for a step.
void draw_mark(Canvas& canvas, ChartMark::Kind kind, std::string_view text, Point centre,
               double size, const Theme& theme);

/// From where something became ready to where it was used.
void draw_link(Canvas& canvas, Point ready, Point used, bool waited, const Theme& theme);

}  // namespace beforehand::picture
