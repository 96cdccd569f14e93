// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <string>
#include <vector>

#include "base/time.hpp"
#include "picture/canvas.hpp"
#include "picture/palette.hpp"
#include "procedure/procedure.hpp"

// The field close up: what can be seen where the work is, and nothing that cannot.

namespace beforehand::picture {

/// What the close-up is of.
enum class Subject {
  tooth,
  crown,     ///< a tooth that is cut down all round
  patient,   ///< where no tooth matters: the patient in the chair, from the side
  surfaces,  ///< where no patient matters: chair and unit
};

/// Where the surfaces stand on their way from one patient to the next.
enum class Surface { used, bare, cleaned, wet, dry, covered };
inline constexpr std::size_t surface_count = 6;

/// How the chair holds the patient.
enum class Posture { reclined, flat, half_upright };

/// A supply at work, or left on the patient.
struct ToolSeen {
  std::string icon, name;
};

struct FieldView {
  std::string title = "The field";
  Subject subject = Subject::tooth;
  std::string tooth;         ///< "46" and in words; may be empty
  procedure::FieldSet seen;  ///< what can be seen at the tooth, see field_seen.hpp
  double filled_share = 0;   ///< of the preparation, 0 to 1
  bool suction = false;      ///< a tip is at the tooth
  bool rinsing = false;      ///< water is running
  bool drying = false;       ///< air is blowing
  bool light = false;        ///< the curing light is on
  bool dam = true;           ///< isolated by a dam; otherwise by cotton rolls
  bool tooth_out = false;    ///< there is a socket
  bool stitched = false;     ///< with a thread across
  bool corded = false;       ///< a thread lies round the margin
  Posture posture = Posture::reclined;
  Surface surface = Surface::used;
  Ms on_clock = never;             ///< since the clock was started; never: it was not
  std::vector<ToolSeen> tools;     ///< at work now, at most two
  std::vector<ToolSeen> left;      ///< put on the patient and left there
  std::vector<std::string> words;  ///< what is seen, in words, for under the picture
};

/// The picture with its words below, as many as fit.
void draw_field(Canvas& canvas, const FieldView& field, const Theme& theme, const Box& box);

}  // namespace beforehand::picture
