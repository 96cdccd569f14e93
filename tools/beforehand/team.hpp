// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <nlohmann/json_fwd.hpp>
#include <string>

#include "study/team_debrief.hpp"

namespace beforehand::command {

/// What a rehearsal tells the team, for programs and for people.
nlohmann::ordered_json team_json(const procedure::Procedure&, const study::TeamDebrief&);
std::string team_text(const procedure::Procedure&, const study::TeamDebrief&);

}  // namespace beforehand::command
