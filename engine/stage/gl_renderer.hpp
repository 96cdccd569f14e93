// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// Draws a finished Dear ImGui frame with OpenGL 1.x calls, which every driver has, software ones
// included.
#pragma once

struct ImDrawData;
struct ImFontAtlas;

namespace beforehand::stage {

/// Needs a current OpenGL context for its whole life.
class GlRenderer {
 public:
  GlRenderer() = default;
  ~GlRenderer();
  GlRenderer(const GlRenderer&) = delete;
  GlRenderer& operator=(const GlRenderer&) = delete;

  /// Puts the atlas's picture on the card and its id into the atlas; a former picture is freed.
  void upload(ImFontAtlas& atlas);

  /// Clears the window to black and draws the frame over it. Sizes are taken from the frame.
  void draw(const ImDrawData& frame) const;

 private:
  unsigned texture_ = 0;
};

}  // namespace beforehand::stage
