// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <vector>

#include "stage/played.hpp"

namespace beforehand::command {

/// Opens the window on one session, or on two side by side; gives the exit code.
int play_in_window(std::vector<stage::Played>, Ms at);

/// The figures of two sessions and the needs that went differently, on the standard output.
void print_beside(const stage::Played& first, const stage::Played& second, bool as_json);

}  // namespace beforehand::command
