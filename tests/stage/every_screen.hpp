// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "playing.hpp"

namespace beforehand::stage {

/// Gets the program whenever it stands at something worth looking at, and what that is called
/// (letters and hyphens).
using Looker = std::function<void(Program&, const std::string& name)>;

/// One stretch of the way through the program, and its name.
struct Tour {
  std::string name;
  std::function<void(const std::string& language, const Looker&)> walk;
};

/// All of them: together they come past every screen, empty and full, with what it can show.
std::vector<Tour> every_screen();

/// What is typed for a step that no protocol has.
inline constexpr const char* own_step =
    "Something long that nobody has ever written down in a protocol before today";

/// A window a person may have.
struct Look {
  int width, height;
  double scale;
};

/// Both sizes at both scales.
inline constexpr Look usual_looks[] = {
    {1280, 720, 1}, {1280, 720, 2}, {1920, 1080, 1}, {1920, 1080, 2}};

}  // namespace beforehand::stage
