// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <functional>
#include <optional>

#include "scoring/score.hpp"

namespace beforehand::scoring {

/// The chair time of the reference plan for the part that was played and the signals that occurred.
/// Nothing when it could not be proven before `stopped` said so: then score() has the earliest
/// possible finish to measure against.
std::optional<Reference> planned_reference(const Procedure&, const Session&,
                                           std::function<bool()> stopped = {});

}  // namespace beforehand::scoring
