// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "picture/canvas.hpp"

namespace beforehand::picture {

/// Breaks text at spaces so that no line is wider than `width`, but never between a figure and its
/// unit; a word wider than that is broken between characters. A newline in the text stays a break.
/// Never gives an empty vector.
std::vector<std::string> wrap(const Canvas& canvas, std::string_view text, double width,
                              double size, Weight weight = Weight::regular);

/// The text if it fits, otherwise its beginning with an ellipsis; empty when not even one character
/// and the ellipsis fit.
std::string shorten(const Canvas& canvas, std::string_view text, double width, double size,
                    Weight weight = Weight::regular);

/// Draws wrapped text from the box's top. Lines that would pass the bottom are left out, the last
/// one kept ends in an ellipsis then. Gives the height used. style.level is not looked at.
double paragraph(Canvas& canvas, const Box& box, std::string_view text, const TextStyle& style);

/// The height `paragraph` would use in a box that is high enough.
double paragraph_height(const Canvas& canvas, std::string_view text, double width, double size,
                        Weight weight = Weight::regular);

}  // namespace beforehand::picture
