// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// The letters of the screen: found by fontconfig, baked by Dear ImGui at the sizes the theme uses.
#pragma once

#include <string>
#include <vector>

#include "picture/canvas.hpp"
#include "picture/palette.hpp"

struct ImFont;
struct ImFontAtlas;

namespace beforehand::stage {

/// Files of a sans-serif face that can be scaled; empty where there is none.
struct FontFiles {
  std::string regular;
  std::string bold;
};
FontFiles find_fonts();

/// A face baked at one size.
struct BakedFont {
  ImFont* font = nullptr;
  double size = 0;  ///< em size in canvas units
  picture::Weight weight = picture::Weight::regular;
};

/// What a text is drawn with: a baked face and how much it has to be magnified.
struct FontChoice {
  ImFont* font = nullptr;
  double em_to_line = 1;  ///< the library's font size (line height) for an em size of 1
};

class FontSet {
 public:
  /// Fills the atlas with the theme's text sizes in both weights. Files that are empty or cannot be
  /// read are replaced by the library's built-in letters, and complaint() says so.
  void bake(ImFontAtlas& atlas, const FontFiles& files, const picture::Theme& theme);

  /// The nearest baked face that is not smaller, else the largest. Needs bake() before.
  FontChoice choose(double em_size, picture::Weight weight) const;

  /// What a person should know, or empty.
  const std::string& complaint() const { return complaint_; }

 private:
  std::vector<BakedFont> baked_;
  double em_to_line_[2] = {1, 1};
  std::string complaint_;
};

}  // namespace beforehand::stage
