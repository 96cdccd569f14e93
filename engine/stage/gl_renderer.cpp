// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/gl_renderer.hpp"

#include <GL/gl.h>
#include <imgui.h>

#include <algorithm>
#include <cstdint>

#include "stage/draw_list_canvas.hpp"

namespace beforehand::stage {
namespace {

void set_up(int width, int height) {
  glViewport(0, 0, width, height);
  glEnable(GL_BLEND);
  glBlendFunc(GL_SRC_ALPHA, GL_ONE_MINUS_SRC_ALPHA);
  glDisable(GL_CULL_FACE);
  glDisable(GL_DEPTH_TEST);
  glDisable(GL_LIGHTING);
  glEnable(GL_SCISSOR_TEST);
  glEnable(GL_TEXTURE_2D);
  glTexEnvi(GL_TEXTURE_ENV, GL_TEXTURE_ENV_MODE, GL_MODULATE);
  glEnableClientState(GL_VERTEX_ARRAY);
  glEnableClientState(GL_TEXTURE_COORD_ARRAY);
  glEnableClientState(GL_COLOR_ARRAY);
  glMatrixMode(GL_PROJECTION);
  glLoadIdentity();
  glOrtho(0, width, height, 0, -1, 1);
  glMatrixMode(GL_MODELVIEW);
  glLoadIdentity();
}

void draw_command(const ImDrawList& list, const ImDrawCmd& command, int height) {
  const auto& clip = command.ClipRect;
  const int left = std::max(0, static_cast<int>(clip.x));
  const int bottom = std::max(0, height - static_cast<int>(clip.w));
  const int right = static_cast<int>(clip.z);
  const int top = height - std::max(0, static_cast<int>(clip.y));
  if (right <= left || top <= bottom) return;
  glScissor(left, bottom, right - left, top - bottom);
  glBindTexture(GL_TEXTURE_2D,
                static_cast<GLuint>(reinterpret_cast<std::intptr_t>(command.GetTexID())));
  const ImDrawVert* vertices = list.VtxBuffer.Data + command.VtxOffset;
  constexpr auto stride = static_cast<GLsizei>(sizeof(ImDrawVert));
  glVertexPointer(2, GL_FLOAT, stride, &vertices->pos);
  glTexCoordPointer(2, GL_FLOAT, stride, &vertices->uv);
  glColorPointer(4, GL_UNSIGNED_BYTE, stride, &vertices->col);
  static_assert(sizeof(ImDrawIdx) == 2 || sizeof(ImDrawIdx) == 4);
  glDrawElements(GL_TRIANGLES, static_cast<GLsizei>(command.ElemCount),
                 sizeof(ImDrawIdx) == 2 ? GL_UNSIGNED_SHORT : GL_UNSIGNED_INT,
                 list.IdxBuffer.Data + command.IdxOffset);
}

void draw_area(const ImDrawCmd& command, int height) {
  const auto& area = *static_cast<const SolidArea*>(command.UserCallbackData);
  const auto& clip = command.ClipRect;
  const int left = std::max(area.x, static_cast<int>(clip.x));
  const int right = std::min(area.x + area.width, static_cast<int>(clip.z));
  const int top = std::max(area.y, static_cast<int>(clip.y));
  const int bottom = std::min(area.y + area.height, static_cast<int>(clip.w));
  if (right <= left || bottom <= top) return;
  glScissor(left, height - bottom, right - left, bottom - top);
  const auto part = [](std::uint8_t value) { return static_cast<float>(value) / 255.0f; };
  glClearColor(part(area.colour.red), part(area.colour.green), part(area.colour.blue), 1);
  glClear(GL_COLOR_BUFFER_BIT);
}

}  // namespace

GlRenderer::~GlRenderer() {
  if (texture_ != 0) glDeleteTextures(1, &texture_);
}

void GlRenderer::upload(ImFontAtlas& atlas) {
  unsigned char* pixels = nullptr;
  int width = 0, height = 0;
  atlas.GetTexDataAsRGBA32(&pixels, &width, &height);
  if (texture_ == 0) glGenTextures(1, &texture_);
  glBindTexture(GL_TEXTURE_2D, texture_);
  // Letters are baked at the sizes they are shown in and stand on whole pixels: nothing to smooth.
  glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MIN_FILTER, GL_NEAREST);
  glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MAG_FILTER, GL_NEAREST);
  glPixelStorei(GL_UNPACK_ROW_LENGTH, 0);
  glTexImage2D(GL_TEXTURE_2D, 0, GL_RGBA, width, height, 0, GL_RGBA, GL_UNSIGNED_BYTE, pixels);
  atlas.SetTexID(reinterpret_cast<ImTextureID>(static_cast<std::intptr_t>(texture_)));
  atlas.ClearTexData();
}

void GlRenderer::draw(const ImDrawData& frame) const {
  const int width = static_cast<int>(frame.DisplaySize.x);
  const int height = static_cast<int>(frame.DisplaySize.y);
  if (width <= 0 || height <= 0) return;
  set_up(width, height);
  glDisable(GL_SCISSOR_TEST);
  glClearColor(0, 0, 0, 1);
  glClear(GL_COLOR_BUFFER_BIT);
  glEnable(GL_SCISSOR_TEST);
  for (int i = 0; i < frame.CmdListsCount; ++i) {
    const ImDrawList& list = *frame.CmdLists[i];
    for (const ImDrawCmd& command : list.CmdBuffer)
      if (command.UserCallback == solid_area)
        draw_area(command, height);
      else if (command.UserCallback == nullptr)
        draw_command(list, command, height);
  }
}

}  // namespace beforehand::stage
