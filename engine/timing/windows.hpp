// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <vector>

#include "procedure/procedure.hpp"

namespace beforehand::timing {

using procedure::Procedure;

/// How far a step is, as the windows need it. A step not yet decided by its signals is open.
struct StepTime {
  enum class State : std::uint8_t { open, doing, done, skipped } state = State::open;
  Ms start = never;  ///< known once doing
  Ms end = never;    ///< known once done; while doing: the expected end, or never if unknown
};

/// Where in time a step can lie. All moments are drill time.
struct Window {
  Ms earliest =
      never;  ///< earliest useful start: predecessors, lags, working time and offer time considered
  Ms expected = never;  ///< start if all goes as usual and nobody is late
  Ms latest = never;    ///< latest start at which nobody waits; never: nobody waits for it
  Ms need = never;      ///< when what it serves is needed, if all goes as usual
  StepIx serves;        ///< the step that would wait
};

/// One window a step (a done or skipped step has its times, no need), from now on, by propagation
/// over the step graph (Dechter, Meiri, Pearl 1991): forward with least durations for `earliest` of
/// what a prep serves, with usual ones for `expected` and `need`, backward from the needs for
/// `latest`. `out` is reused, so that calls at every event of a drill allocate nothing. Steps on
/// signals still open count as not happening.
void windows(const Procedure&, const std::vector<StepTime>& progress, Ms now,
             std::vector<Window>& out);

/// The earliest the whole procedure can end, people and hands not considered: a lower bound of
/// every plan. `happened` lists the signals taken to happen; all others do not.
Ms earliest_finish(const Procedure&, const std::vector<SignalIx>& happened);

}  // namespace beforehand::timing
