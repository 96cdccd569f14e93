// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include "stage/flow.hpp"
#include "stage/shelf.hpp"

namespace beforehand::stage {

/// What is wrong with a scenario that cannot be played, an item each, with its place and its
/// remedy, and that saving the file is enough. Items that would begin below `bottom` are counted
/// instead.
void write_problems(Pen&, Flow&, const ShelfItem&, double bottom = 1e9);

/// What is doubtful about one that can be played.
void write_warnings(Pen&, Flow&, const ShelfItem&);

}  // namespace beforehand::stage
