// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "scoring/planned.hpp"

#include <utility>

#include "timing/plan.hpp"

namespace beforehand::scoring {

std::optional<Reference> planned_reference(const Procedure& p, const Session& session,
                                           std::function<bool()> stopped) {
  timing::PlanRequest request;
  request.happened = signals_shown(session);
  request.phase = session.setup.phase;
  request.stopped = std::move(stopped);
  const auto plan = timing::plan(p, request);
  if (!plan.found() || !plan.chair_time_proven) return std::nullopt;
  return Reference{plan.chair_time, true};
}

}  // namespace beforehand::scoring
