// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// Draws a finished Dear ImGui frame with OpenGL 1.x calls, which every driver has, software ones
// included.
#pragma once

#include <cstdint>
#include <functional>
#include <vector>

#include "stage/damage.hpp"

struct ImDrawCmd;
struct ImDrawData;
struct ImDrawList;
struct ImFontAtlas;

namespace beforehand::stage {

/// Needs a current OpenGL context for its whole life. Without a graphics card it draws only what
/// differs from what the window shows.
class GlRenderer {
 public:
  /// `show` puts what was drawn on the window; it is tried a few times to see what the driver does.
  explicit GlRenderer(const std::function<void()>& show);
  ~GlRenderer();
  GlRenderer(const GlRenderer&) = delete;
  GlRenderer& operator=(const GlRenderer&) = delete;

  /// Puts the atlas's picture on the card and its id into the atlas; a former picture is freed.
  void upload(ImFontAtlas& atlas);

  /// Draws the frame. Sizes are taken from it. False, and nothing drawn, when it looks as the last
  /// one did and `always` is not set.
  bool draw(const ImDrawData& frame, bool always);

 private:
  void draw_within(const ImDrawData& frame, const PixelBox& box);
  void draw_command(const ImDrawList&, const ImDrawCmd&, const PixelBox& box);

  bool keeps_;  // what was drawn is still there after it was shown
  Damage damage_;
  unsigned letters_ = 0;  // texture
  int height_ = 0;
  std::vector<std::uint32_t> indices_;
};

}  // namespace beforehand::stage
