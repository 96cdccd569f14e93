// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <vector>

#include "study/crew.hpp"
#include "study/player.hpp"
#include "study/statistics.hpp"

namespace beforehand::study {

/// How many runs, of which clinicians, on how many threads.
struct Runs {
  std::size_t count = 1000;
  std::uint64_t seed = 1;  ///< of the first run; the next has the next, so that the same seeds are
                           ///< the same clinicians whoever assists
  unsigned threads = 0;    ///< 0: as many as the machine runs at once; changes no figure
  Watch watch;             ///< counts runs
};

/// What the runs say of one need: who stood still for whom.
struct Waiting {
  StepIx step;            ///< what the clinician wanted to start
  std::uint8_t need = 0;  ///< position in the step's needs
  StepIx from;            ///< what it waited for
  std::size_t arose = 0;  ///< runs in which it was the assistant's to serve
  std::size_t waited = 0, asked = 0;
  Ms wait{0};  ///< over all runs
};

struct Simulation {
  std::size_t wanted = 0;         ///< runs asked for; more than there are when it was stopped
  std::vector<Outcome> outcomes;  ///< by run
  std::vector<Waiting> waiting;   ///< needs that arose, in the order of the steps

  std::vector<double> sample(Measure) const;
  Summary summary(Measure m) const { return summarize(sample(m)); }
};

/// Plays a procedure so many times with one bot. The same runs give the same simulation, on any
/// number of threads; stopped early, it is that of the first so many runs.
Simulation simulate(const Procedure&, const drill::Habit&, const Runs&);

}  // namespace beforehand::study
