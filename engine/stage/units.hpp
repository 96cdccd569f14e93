// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

namespace beforehand::stage {

/// How many units of the theme a screen needs at least.
struct Units {
  double width = 640, height = 360;
};

}  // namespace beforehand::stage
