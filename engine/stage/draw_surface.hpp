// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <memory>

#include "picture/palette.hpp"
#include "stage/draw_list_canvas.hpp"

struct ImDrawData;
struct ImFontAtlas;
struct ImGuiContext;

namespace beforehand::stage {

/// A Dear ImGui context used for what it does best here: letters and smooth shapes turned into
/// triangles. It needs no display, so tests build whole frames. One at a time in a process.
class DrawSurface {
 public:
  DrawSurface(const FontFiles& files, const picture::Theme& theme);
  ~DrawSurface();
  DrawSurface(const DrawSurface&) = delete;
  DrawSurface& operator=(const DrawSurface&) = delete;

  /// Bakes the letters anew, for another scale. Not between begin() and end().
  void set_theme(const picture::Theme& theme);

  /// Starts a frame of this size in canvas units (pixels) and gives the canvas for it; it is valid
  /// until end().
  DrawListCanvas& begin(double width, double height);
  /// Ends the frame. The triangles stay valid until the next begin().
  const ImDrawData& end();

  ImFontAtlas& atlas();
  const FontSet& fonts() const { return fonts_; }

 private:
  FontFiles files_;
  FontSet fonts_;
  ImGuiContext* context_;
  std::unique_ptr<DrawListCanvas> canvas_;  // kept until the next one: the triangles refer to it
  bool drawing_ = false;
};

}  // namespace beforehand::stage
