// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <string>
#include <vector>

#include "picture/activity_chart.hpp"

namespace beforehand::command {

/// Activity charts one below the other on the same scale of time, as one SVG picture. `description`
/// is for those who do not see it.
std::string charts_svg(const std::vector<picture::ActivityChart>&, const std::string& title,
                       const std::string& description);

}  // namespace beforehand::command
