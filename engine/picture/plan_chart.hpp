// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include "picture/activity_chart.hpp"
#include "timing/explain.hpp"

namespace beforehand::picture {

/// The reference plan: a lane a person, the critical chain marked, what is handed over as links,
/// and each person's shares of the chair time.
ActivityChart plan_chart(const procedure::Procedure& procedure, const timing::Plan& plan,
                         const timing::Explanation& explanation);

/// Adds the plan to a chart of what was played, as pale bars under each lane; what was added before
/// goes.
void add_planned(ActivityChart& played, const procedure::Procedure& procedure,
                 const timing::Plan& plan);

}  // namespace beforehand::picture
