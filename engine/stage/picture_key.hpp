// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include "stage/pen.hpp"

namespace beforehand::stage {

/// What the signs of room and chart mean: each sign as it is drawn there, with its words beside it,
/// in two columns. Gives the y below it; with `draws` off, that alone.
double picture_key(Pen&, const Box&, bool draws = true);

}  // namespace beforehand::stage
