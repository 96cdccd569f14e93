// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <string>

#include "scoring/score.hpp"

namespace beforehand::command {

/// The scored session as JSON, keys as in docs/scoring.md; ends with a line feed.
std::string score_json(const procedure::Procedure&, const drill::Session&, const scoring::Score&);

}  // namespace beforehand::command
