// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <string>
#include <vector>

#include "picture/canvas.hpp"
#include "picture/palette.hpp"
#include "procedure/procedure.hpp"

// The field close up: one molar from above with what can be seen on it, and nothing that cannot.

namespace beforehand::picture {

struct FieldView {
  std::string title = "The field";
  std::string tooth;               ///< "46" and in words; may be empty
  procedure::FieldSet seen;        ///< the world's field flags
  double filled_share = 0;         ///< of the preparation, 0 to 1
  bool suction = false;            ///< a tip is at the tooth
  bool rinsing = false;            ///< water is running
  bool drying = false;             ///< air is blowing
  bool light = false;              ///< the curing light is on
  std::vector<std::string> words;  ///< what is seen, in words, for under the picture
};

/// The picture with its words below, as many as fit.
void draw_field(Canvas& canvas, const FieldView& field, const Theme& theme, const Box& box);

}  // namespace beforehand::picture
