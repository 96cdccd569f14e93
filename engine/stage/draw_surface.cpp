// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/draw_surface.hpp"

#include <imgui.h>

#include <cassert>

namespace beforehand::stage {

DrawSurface::DrawSurface(const FontFiles& files, const picture::Theme& theme)
    : files_(files), context_(ImGui::CreateContext()) {
  ImGuiIO& io = ImGui::GetIO();
  io.IniFilename = nullptr;  // nothing is written beside the program
  io.LogFilename = nullptr;
  io.BackendFlags |= ImGuiBackendFlags_RendererHasVtxOffset;
  ImGui::GetStyle().AntiAliasedLinesUseTex = false;  // the atlas is not smoothed, see the renderer
  set_theme(theme);
}

DrawSurface::~DrawSurface() { ImGui::DestroyContext(context_); }

void DrawSurface::set_theme(const picture::Theme& theme) {
  assert(!drawing_);
  fonts_.bake(atlas(), files_, theme);
}

DrawListCanvas& DrawSurface::begin(double width, double height) {
  assert(!drawing_);
  drawing_ = true;
  ImGuiIO& io = ImGui::GetIO();
  io.DisplaySize = {static_cast<float>(width), static_cast<float>(height)};
  io.DeltaTime = 1.0f / 60;  // no widget of the library is used, so its clock does not matter
  ImGui::NewFrame();
  canvas_ = std::make_unique<DrawListCanvas>(*ImGui::GetBackgroundDrawList(), fonts_);
  return *canvas_;
}

const ImDrawData& DrawSurface::end() {
  assert(drawing_);
  drawing_ = false;
  ImGui::Render();
  return *ImGui::GetDrawData();
}

ImFontAtlas& DrawSurface::atlas() { return *ImGui::GetIO().Fonts; }

}  // namespace beforehand::stage
