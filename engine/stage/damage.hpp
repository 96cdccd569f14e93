// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <cstdint>
#include <vector>

struct ImDrawData;

namespace beforehand::stage {

/// Whole pixels, from the top left corner of the window.
struct PixelBox {
  int left = 0, top = 0, right = 0, bottom = 0;  ///< right and bottom lie outside
  bool empty() const { return right <= left || bottom <= top; }
  PixelBox common(const PixelBox& other) const;
  PixelBox around(const PixelBox& other) const;  ///< the smallest that holds both
  std::int64_t area() const;
  bool operator==(const PixelBox&) const = default;
};

/// Tells which parts of the window a frame changes. Where no graphics card does the work, drawing
/// what has not changed is nearly all of a frame's cost.
class Damage {
 public:
  /// Squares of this side are compared; it is also the finest that is told apart.
  static constexpr int tile = 32;
  /// No more boxes than these are given: each of them costs a walk over the frame.
  static constexpr std::size_t most_boxes = 5;

  /// The boxes outside which this frame looks as the one of the last call did; they do not overlap.
  /// The whole window after forget(), at the first call and after a change of size; none when
  /// nothing has changed.
  std::vector<PixelBox> since_last(const ImDrawData& frame);

  /// What is shown is no longer what was compared last.
  void forget() { before_.clear(); }

 private:
  int width_ = 0, height_ = 0;
  std::vector<std::uint64_t> before_, now_;  // a fingerprint a tile
  std::vector<std::uint64_t> vertices_;      // a fingerprint a vertex, kept to keep its memory
};

}  // namespace beforehand::stage
