// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <string>

#include "study/crew.hpp"

// What a long command shows meanwhile, and how it is stopped.

namespace beforehand::command {

/// Whether somebody looks at the standard error.
bool on_terminal();

/// From now on Ctrl-C ends nothing: interrupted() says that it was pressed.
void heed_interrupts();
bool interrupted();

/// Shows a bar of what is done of `what` ("runs") on a terminal, and stops at Ctrl-C.
study::Watch watch(const std::string& what);

/// Takes the bar away.
void clear_progress();

}  // namespace beforehand::command
