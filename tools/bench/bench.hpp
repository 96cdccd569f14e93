// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <string>

#include "procedure/procedure.hpp"

namespace beforehand::bench {

/// The scenario that is measured: its text, and what was read from it.
struct Input {
  std::string text;
  procedure::Procedure procedure;
};
const Input& input();

}  // namespace beforehand::bench
