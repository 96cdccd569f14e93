// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <nlohmann/json_fwd.hpp>
#include <string_view>

#include "study/player.hpp"
#include "study/statistics.hpp"

namespace beforehand::command {

/// Mean, deviation and quantiles, with their intervals; the unit is its key's.
nlohmann::ordered_json summary_json(const study::Summary&);
nlohmann::ordered_json interval_json(const study::Interval&);

/// " s" or nothing.
std::string_view unit(study::Measure);

}  // namespace beforehand::command
