// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include "scoring/trace.hpp"

// What had to be done again because the first had set. In the drill a step is done once, and what
// comes after counts for the next of its kind or for nothing; in the score the one that was used
// does the step, and the first was spent for nothing.

namespace beforehand::scoring {

/// The step that uses up what `prep` made ready, while it is still to come or not over at `at`.
StepIx user_of(const Procedure&, const Trace&, StepIx prep, Ms at);

/// The trainee's action that made ready what then set; none when somebody else made it.
const Action* made_what_set(const Frame&, const Session&, const Trace&, const drill::Event& set);

/// Marks what was spent for nothing, and gives its step to what was done again.
void find_redone(const Frame&, const Session&, Trace&);

}  // namespace beforehand::scoring
