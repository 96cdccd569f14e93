// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <string>
#include <vector>

#include "base/strings.hpp"
#include "drill/session.hpp"
#include "drill/world.hpp"
#include "picture/activity_chart.hpp"
#include "scoring/score.hpp"
#include "timing/windows.hpp"

namespace beforehand::picture {

/// What was played, for the debrief and the report: everybody's time, what was ready for what,
/// requests and errors. Errors carry the number of their place in score.errors, from 1; requests
/// letters from A in order of time.
ActivityChart played_chart(const procedure::Procedure& procedure, const drill::Session& session,
                           const scoring::Score& score, const Strings&);

/// The letters of a request by its position: "A" to "Z", then "AA" and so on.
std::string request_letters(std::size_t index);

/// The drill at its moment: what was done and is being done, in everybody's lane. Guided adds what
/// is expected next and, for the trainee, the windows ahead; an empty `windows` shows only what an
/// operatory would.
ActivityChart live_chart(const procedure::Procedure& procedure, const drill::World& world,
                         const std::vector<timing::Window>& windows, PersonIx trainee,
                         const Strings&);

/// How a step is drawn: what takes a hand and not the attention, as a cover and the curing light
/// do, is held, in every chart and in the score.
Activity activity_of_step(const procedure::Step&);

/// The parts of a person's time in percent.
Shares shares_of(const scoring::TimeSplit&);

/// A stretch of time with `now` at a third from the left, or at the start of the drill further
/// left.
ChartView around_now(Ms now, Ms length);

}  // namespace beforehand::picture
