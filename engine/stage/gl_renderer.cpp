// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/gl_renderer.hpp"

#include <GL/gl.h>
#include <imgui.h>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <string>

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

// The scissor that keeps drawing inside a box; false when nothing of it is left.
bool keep_inside(const PixelBox& box, int height) {
  if (box.empty()) return false;
  glScissor(box.left, height - box.bottom, box.right - box.left, box.bottom - box.top);
  return true;
}

PixelBox clip_of(const ImDrawCmd& command) {
  const auto& clip = command.ClipRect;
  return {static_cast<int>(clip.x), static_cast<int>(clip.y), static_cast<int>(clip.z),
          static_cast<int>(clip.w)};
}

void draw_area(const ImDrawCmd& command, const PixelBox& box, int height) {
  const auto& area = *static_cast<const SolidArea*>(command.UserCallbackData);
  const PixelBox whole{area.x, area.y, area.x + area.width, area.y + area.height};
  if (!keep_inside(whole.common(clip_of(command)).common(box), height)) return;
  const auto part = [](std::uint8_t value) { return static_cast<float>(value) / 255.0f; };
  glClearColor(part(area.colour.red), part(area.colour.green), part(area.colour.blue), 1);
  glClear(GL_COLOR_BUFFER_BIT);
}

bool touches(const ImVec2& a, const ImVec2& b, const ImVec2& c, const PixelBox& box) {
  const auto left = static_cast<float>(box.left), right = static_cast<float>(box.right);
  const auto top = static_cast<float>(box.top), bottom = static_cast<float>(box.bottom);
  return std::max({a.x, b.x, c.x}) >= left && std::min({a.x, b.x, c.x}) <= right &&
         std::max({a.y, b.y, c.y}) >= top && std::min({a.y, b.y, c.y}) <= bottom;
}

// Whether the buffer still holds what was drawn into it after it was shown. Only asked of drivers
// that draw without a graphics card: others may answer differently from one moment to the next, and
// need no help.
bool keeps_buffer(const std::function<void()>& show) {
  const auto* name = reinterpret_cast<const char*>(glGetString(GL_RENDERER));
  const std::string renderer = name == nullptr ? "" : name;
  if (renderer.find("llvmpipe") == std::string::npos &&
      renderer.find("softpipe") == std::string::npos)
    return false;
  glDisable(GL_SCISSOR_TEST);
  for (const float shade : {0.84f, 0.94f, 0.84f, 0.94f}) {  // pale: it may be seen
    glClearColor(shade, shade, shade, 1);
    glClear(GL_COLOR_BUFFER_BIT);
    show();
    std::uint8_t pixel[4] = {};
    glReadPixels(0, 0, 1, 1, GL_RGBA, GL_UNSIGNED_BYTE, pixel);
    if ((pixel[0] > 227) != (shade > 0.9f)) return false;
  }
  return true;
}

}  // namespace

GlRenderer::GlRenderer(const std::function<void()>& show) : keeps_(keeps_buffer(show)) {}

GlRenderer::~GlRenderer() {
  if (letters_ != 0) glDeleteTextures(1, &letters_);
}

void GlRenderer::upload(ImFontAtlas& atlas) {
  unsigned char* pixels = nullptr;
  int width = 0, height = 0;
  atlas.GetTexDataAsRGBA32(&pixels, &width, &height);
  if (letters_ == 0) glGenTextures(1, &letters_);
  glBindTexture(GL_TEXTURE_2D, letters_);
  // Letters are baked at the sizes they are shown in and stand on whole pixels: nothing to smooth.
  glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MIN_FILTER, GL_NEAREST);
  glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MAG_FILTER, GL_NEAREST);
  glPixelStorei(GL_UNPACK_ROW_LENGTH, 0);
  glTexImage2D(GL_TEXTURE_2D, 0, GL_RGBA, width, height, 0, GL_RGBA, GL_UNSIGNED_BYTE, pixels);
  atlas.SetTexID(reinterpret_cast<ImTextureID>(static_cast<std::intptr_t>(letters_)));
  atlas.ClearTexData();
  damage_.forget();
}

void GlRenderer::draw_command(const ImDrawList& list, const ImDrawCmd& command,
                              const PixelBox& box) {
  if (!keep_inside(clip_of(command).common(box), height_)) return;
  const ImDrawVert* vertices = list.VtxBuffer.Data + command.VtxOffset;
  const ImDrawIdx* index = list.IdxBuffer.Data + command.IdxOffset;
  indices_.clear();
  for (unsigned i = 0; i + 2 < command.ElemCount; i += 3, index += 3)
    if (touches(vertices[index[0]].pos, vertices[index[1]].pos, vertices[index[2]].pos, box))
      indices_.insert(indices_.end(), index, index + 3);
  if (indices_.empty()) return;
  glBindTexture(GL_TEXTURE_2D,
                static_cast<GLuint>(reinterpret_cast<std::intptr_t>(command.GetTexID())));
  constexpr auto stride = static_cast<GLsizei>(sizeof(ImDrawVert));
  glVertexPointer(2, GL_FLOAT, stride, &vertices->pos);
  glTexCoordPointer(2, GL_FLOAT, stride, &vertices->uv);
  glColorPointer(4, GL_UNSIGNED_BYTE, stride, &vertices->col);
  glDrawElements(GL_TRIANGLES, static_cast<GLsizei>(indices_.size()), GL_UNSIGNED_INT,
                 indices_.data());
}

void GlRenderer::draw_within(const ImDrawData& frame, const PixelBox& box) {
  if (!keep_inside(box, height_)) return;
  glClearColor(0, 0, 0, 1);
  glClear(GL_COLOR_BUFFER_BIT);
  for (int i = 0; i < frame.CmdListsCount; ++i) {
    const ImDrawList& list = *frame.CmdLists[i];
    for (const ImDrawCmd& command : list.CmdBuffer)
      if (command.UserCallback == solid_area)
        draw_area(command, box, height_);
      else if (command.UserCallback == nullptr)
        draw_command(list, command, box);
  }
}

bool GlRenderer::draw(const ImDrawData& frame, bool always) {
  const int width = static_cast<int>(frame.DisplaySize.x);
  const int height = static_cast<int>(frame.DisplaySize.y);
  if (width <= 0 || height <= 0) return false;
  auto boxes = damage_.since_last(frame);
  if (boxes.empty() && !always) return false;
  if (!keeps_) boxes.assign(1, {0, 0, width, height});
  height_ = height;
  set_up(width, height);
  for (const auto& box : boxes) draw_within(frame, box);
  return true;
}

}  // namespace beforehand::stage
