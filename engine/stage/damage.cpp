// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/damage.hpp"

#include <imgui.h>

#include <algorithm>
#include <cmath>
#include <cstring>
#include <limits>

#include "stage/draw_list_canvas.hpp"

namespace beforehand::stage {
namespace {

std::uint64_t stir(std::uint64_t seed, std::uint64_t value) {
  std::uint64_t x = (seed ^ value) * 0x9E3779B97F4A7C15ULL;
  return x ^ (x >> 29);
}

std::uint64_t bits(float a, float b) {
  std::uint32_t first = 0, second = 0;
  std::memcpy(&first, &a, sizeof first);
  std::memcpy(&second, &b, sizeof second);
  return (std::uint64_t{first} << 32) | second;
}

std::uint64_t fingerprint(const ImDrawVert& v) {
  return stir(stir(stir(1, bits(v.pos.x, v.pos.y)), bits(v.uv.x, v.uv.y)), v.col);
}

PixelBox pixels(const ImVec4& clip) {
  return {static_cast<int>(clip.x), static_cast<int>(clip.y), static_cast<int>(std::ceil(clip.z)),
          static_cast<int>(std::ceil(clip.w))};
}

std::uint64_t fingerprint(const PixelBox& box, std::uint64_t seed) {
  const auto pair = [](int a, int b) {
    return (static_cast<std::uint64_t>(static_cast<std::uint32_t>(a)) << 32) |
           static_cast<std::uint32_t>(b);
  };
  return stir(stir(seed, pair(box.left, box.top)), pair(box.right, box.bottom));
}

// Fingerprints by tile, in the order in which things are drawn.
class Tiles {
 public:
  Tiles(std::vector<std::uint64_t>& values, int width, int height)
      : values_(values),
        window_{0, 0, width, height},
        columns_((width + Damage::tile - 1) / Damage::tile) {
    const int rows = (height + Damage::tile - 1) / Damage::tile;
    values_.assign(static_cast<std::size_t>(columns_) * static_cast<std::size_t>(rows), 7);
  }

  void touch(const PixelBox& box, std::uint64_t value) {
    const auto in = box.common(window_);
    if (in.empty()) return;
    for (int y = in.top / Damage::tile; y <= (in.bottom - 1) / Damage::tile; ++y)
      for (int x = in.left / Damage::tile; x <= (in.right - 1) / Damage::tile; ++x) {
        auto& at = values_[static_cast<std::size_t>(y * columns_ + x)];
        at = stir(at, value);
      }
  }

  int columns() const { return columns_; }

 private:
  std::vector<std::uint64_t>& values_;
  PixelBox window_;
  int columns_;
};

void take_in(Tiles& tiles, const ImDrawCmd& command, const ImDrawList& list,
             const std::vector<std::uint64_t>& vertices) {
  const auto clip = pixels(command.ClipRect);
  const auto seed = fingerprint(clip, reinterpret_cast<std::uintptr_t>(command.GetTexID()) + 11);
  const ImDrawIdx* index = list.IdxBuffer.Data + command.IdxOffset;
  for (unsigned i = 0; i + 2 < command.ElemCount; i += 3) {
    const auto a = index[i] + command.VtxOffset, b = index[i + 1] + command.VtxOffset,
               c = index[i + 2] + command.VtxOffset;
    const auto at = [&](unsigned v) { return list.VtxBuffer.Data[v].pos; };
    const auto [left, right] = std::minmax({at(a).x, at(b).x, at(c).x});
    const auto [top, bottom] = std::minmax({at(a).y, at(b).y, at(c).y});
    const PixelBox box{static_cast<int>(std::floor(left)), static_cast<int>(std::floor(top)),
                       static_cast<int>(std::ceil(right)) + 1,
                       static_cast<int>(std::ceil(bottom)) + 1};
    tiles.touch(box.common(clip), stir(stir(stir(seed, vertices[a]), vertices[b]), vertices[c]));
  }
}

void take_in_area(Tiles& tiles, const ImDrawCmd& command) {
  const auto& area = *static_cast<const SolidArea*>(command.UserCallbackData);
  const auto box = PixelBox{area.x, area.y, area.x + area.width, area.y + area.height}.common(
      pixels(command.ClipRect));
  const auto& c = area.colour;
  const auto colour =
      static_cast<std::uint64_t>(c.red) << 16 | static_cast<std::uint64_t>(c.green) << 8 | c.blue;
  tiles.touch(box, fingerprint(box, colour));
}

// Joins the two boxes whose common surrounding wastes least.
void join_cheapest(std::vector<PixelBox>& boxes) {
  std::size_t first = 0, second = 1;
  auto least = std::numeric_limits<std::int64_t>::max();
  for (std::size_t i = 0; i < boxes.size(); ++i)
    for (std::size_t j = i + 1; j < boxes.size(); ++j) {
      const auto waste = boxes[i].around(boxes[j]).area() - boxes[i].area() - boxes[j].area();
      if (waste < least) least = waste, first = i, second = j;
    }
  boxes[first] = boxes[first].around(boxes[second]);
  boxes.erase(boxes.begin() + static_cast<std::ptrdiff_t>(second));
}

void join_overlapping(std::vector<PixelBox>& boxes) {
  for (std::size_t i = 0; i < boxes.size(); ++i)
    for (std::size_t j = i + 1; j < boxes.size(); ++j)
      if (!boxes[i].common(boxes[j]).empty()) {
        boxes[i] = boxes[i].around(boxes[j]);
        boxes.erase(boxes.begin() + static_cast<std::ptrdiff_t>(j));
        return join_overlapping(boxes);
      }
}

}  // namespace

PixelBox PixelBox::common(const PixelBox& other) const {
  return {std::max(left, other.left), std::max(top, other.top), std::min(right, other.right),
          std::min(bottom, other.bottom)};
}

PixelBox PixelBox::around(const PixelBox& other) const {
  return {std::min(left, other.left), std::min(top, other.top), std::max(right, other.right),
          std::max(bottom, other.bottom)};
}

std::int64_t PixelBox::area() const {
  return empty() ? 0 : std::int64_t{right - left} * (bottom - top);
}

std::vector<PixelBox> Damage::since_last(const ImDrawData& frame) {
  const int width = static_cast<int>(frame.DisplaySize.x);
  const int height = static_cast<int>(frame.DisplaySize.y);
  Tiles tiles(now_, width, height);
  for (int i = 0; i < frame.CmdListsCount; ++i) {
    const ImDrawList& list = *frame.CmdLists[i];
    vertices_.resize(static_cast<std::size_t>(list.VtxBuffer.Size));
    for (std::size_t v = 0; v < vertices_.size(); ++v)
      vertices_[v] = fingerprint(list.VtxBuffer.Data[v]);
    for (const ImDrawCmd& command : list.CmdBuffer)
      if (command.UserCallback == solid_area)
        take_in_area(tiles, command);
      else if (command.UserCallback == nullptr)
        take_in(tiles, command, list, vertices_);
  }
  const bool comparable = width == width_ && height == height_ && before_.size() == now_.size();
  width_ = width;
  height_ = height;
  std::vector<PixelBox> boxes;
  if (!comparable) {
    boxes.push_back({0, 0, width, height});
  } else {
    const auto columns = static_cast<std::size_t>(tiles.columns());
    for (std::size_t t = 0; t < now_.size(); ++t) {
      if (now_[t] == before_[t]) continue;
      const int x = static_cast<int>(t % columns) * tile, y = static_cast<int>(t / columns) * tile;
      const PixelBox one{x, y, std::min(x + tile, width), std::min(y + tile, height)};
      if (!boxes.empty() && boxes.back().right == one.left && boxes.back().top == one.top)
        boxes.back().right = one.right;
      else
        boxes.push_back(one);
      const auto below = [&](const PixelBox& b) {
        return b.left == boxes.back().left && b.right == boxes.back().right &&
               b.bottom == boxes.back().top;
      };
      const bool row_ends =
          x + tile >= width || t + 1 == now_.size() || now_[t + 1] == before_[t + 1];
      if (!row_ends) continue;
      const auto above = std::find_if(boxes.begin(), boxes.end() - 1, below);
      if (above == boxes.end() - 1) continue;
      above->bottom = boxes.back().bottom;
      boxes.pop_back();
    }
  }
  while (boxes.size() > most_boxes) join_cheapest(boxes);
  join_overlapping(boxes);
  std::swap(before_, now_);
  return boxes;
}

}  // namespace beforehand::stage
