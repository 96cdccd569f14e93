// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <span>
#include <string_view>

#include "picture/canvas.hpp"

namespace beforehand::picture {

/// The eight colours of Okabe and Ito, "Color Universal Design" (2008), told apart by nearly
/// everyone.
namespace okabe_ito {
inline constexpr Colour black = Colour::hex(0x000000);
inline constexpr Colour orange = Colour::hex(0xE69F00);
inline constexpr Colour sky_blue = Colour::hex(0x56B4E9);
inline constexpr Colour bluish_green = Colour::hex(0x009E73);
inline constexpr Colour yellow = Colour::hex(0xF0E442);
inline constexpr Colour blue = Colour::hex(0x0072B2);
inline constexpr Colour vermillion = Colour::hex(0xD55E00);
inline constexpr Colour reddish_purple = Colour::hex(0xCC79A7);
}  // namespace okabe_ito

/// The theme's surfaces and texts: a bright operatory, pale and cool, with one deep blue-green to
/// act on.
struct Palette {
  Colour page = Colour::hex(0xEAF0EF);         ///< behind everything
  Colour card = Colour::hex(0xFFFFFF);         ///< what is read or worked on
  Colour well = Colour::hex(0xF4F8F7);         ///< sunken: lanes, lists, fields
  Colour edge = Colour::hex(0xB9C7C6);         ///< quiet outlines and grid lines
  Colour edge_strong = Colour::hex(0x637677);  ///< outlines that mean something (3:1 on card)
  Colour ink = Colour::hex(0x16282B);          ///< text, and outlines of data
  Colour ink_soft = Colour::hex(0x455A5E);     ///< secondary text

  Colour accent = Colour::hex(0x0B5F6B);  ///< what can be acted on, and where attention belongs
  Colour accent_strong = Colour::hex(0x07444D);  ///< pressed, hovered
  Colour accent_soft = Colour::hex(0xD5E9EA);    ///< chosen, selected
  Colour on_accent = Colour::hex(0xFFFFFF);

  Colour good = Colour::hex(0x1B5E3F);
  Colour good_soft = Colour::hex(0xDCEFE4);
  Colour caution = Colour::hex(0x7A4300);
  Colour caution_soft = Colour::hex(0xFFEFCF);
  Colour danger = Colour::hex(0x9A2410);
  Colour danger_soft = Colour::hex(0xFBE3DC);

  // The activities of the chart, Okabe-Ito, each with a shape of its own beside.
  Colour work = okabe_ito::sky_blue;
  Colour cover = Colour::hex(0x5CC4A4);  ///< bluish green, tinted so that dark text reads on it
  Colour waiting = okabe_ito::vermillion;
  Colour standby = Colour::hex(0xD3DCDB);
  Colour avoidable_idle = okabe_ito::yellow;
  Colour window = okabe_ito::blue;
  Colour need = Colour::hex(0x8A3F74);    ///< reddish purple, darkened: a line on white
  Colour waited = Colour::hex(0xB34300);  ///< vermillion, darkened likewise
};

/// The theme's palette for those who need more contrast: black on white, and 7:1 wherever there is
/// text (WCAG 2.1, success criterion 1.4.6).
Palette high_contrast();

/// Text sizes at scale 1, canvas units.
enum class TextSize { body, label, heading, title };

struct Theme {
  Palette palette;
  double scale = 1;             ///< 1 to 2 on screen; print may use less
  bool reduced_motion = false;  ///< things are where they are going to be
  bool left_handed = false;     ///< the operator: the room is mirrored

  /// A length that grows with the scale.
  double px(double at_scale_1) const { return at_scale_1 * scale; }
  /// body 17, label 16, heading 21, title 30; times the scale.
  double size(TextSize size) const;
};

/// WCAG 2.1 relative luminance contrast, 1 to 21. Both colours opaque.
double contrast(Colour a, Colour b);

/// `over` drawn on an opaque `under`.
Colour blend(Colour over, Colour under);

/// A text and what it stands on, as the program uses them. Every new pair is added here, where a
/// test holds it to 4.5:1.
struct TextPair {
  std::string_view name;
  Colour Palette::*text;
  Colour Palette::*surface;
};
std::span<const TextPair> text_pairs();

}  // namespace beforehand::picture
