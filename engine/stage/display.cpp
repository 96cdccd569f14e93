// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include <X11/Xlib.h>

#include <cstdlib>

#include "stage/window.hpp"

namespace beforehand::stage {

// Asked before the window library is touched, because that one ends the whole program when the
// answer is no.
std::string display_problem() {
  const char* name = std::getenv("DISPLAY");
  if (name == nullptr || *name == '\0')
    return "There is no display here (DISPLAY is not set), so no window can be opened.";
  // Kept open: a server may start over when its last client leaves, and would refuse the next one.
  static Display* const display = XOpenDisplay(nullptr);
  if (display == nullptr)
    return "The display \"" + std::string(name) + "\" does not answer, so no window can be opened.";
  return {};
}

}  // namespace beforehand::stage
