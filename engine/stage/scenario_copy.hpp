// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <string>

#include "procedure/load.hpp"

namespace beforehand::stage {

/// Writes a changed scenario into a folder of its own in `folder`, under an id that no other there
/// has ("NAME-2"), and gives the file. `from` is what it was made of: its texts in other languages
/// go with it, beside it. Nothing is written and std::runtime_error thrown when the text is no
/// sound scenario or the disk refuses.
std::string write_copy(const std::string& folder, std::string yaml, const procedure::Files& from);

}  // namespace beforehand::stage
