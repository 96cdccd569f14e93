// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <string>

#include "scoring/score.hpp"

namespace beforehand::command {

/// The debrief for a terminal, at most 80 columns wide: what happened, what went well, what to
/// change and why, every need and error with its moment, the cautions.
std::string score_text(const procedure::Procedure&, const drill::Session&, const scoring::Score&);

}  // namespace beforehand::command
