// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <vector>

#include "procedure/procedure.hpp"
#include "timing/step_graph.hpp"

namespace beforehand::timing {

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
  Ms latest = never;  ///< latest start at which nobody waits and no maximum lag is overrun; never:
                      ///< nothing depends on it
  Ms need = never;    ///< when what it serves is needed, if all goes as usual; never: nobody waits
  StepIx serves;      ///< the step that would wait; none: nobody waits
};

/// Windows of one procedure, at every event of many drills: the step graph is laid out once, and
/// asking allocates nothing. One object a thread.
class WindowFinder {
 public:
  explicit WindowFinder(const Procedure& p);

  /// One window a step (a done or skipped step has its times, no need), from now on, by propagation
  /// over the step graph (Dechter, Meiri, Pearl 1991): forward with least durations for `earliest`
  /// of what a prep serves, with usual ones for `expected` and `need`, backward from the needs for
  /// `latest`. Steps on signals still open count as not happening; what follows them waits until
  /// the signal is decided. What sets is prepared so late that it keeps even if all else takes its
  /// most and every open signal brings its steps, but no later than the quickest clinician allows.
  /// The clinician's own steps have no `latest`.
  void find(const std::vector<StepTime>& progress, Ms now, std::vector<Window>& out);

 private:
  struct Times {
    std::int64_t start, end;
  };
  enum class Fate : std::uint8_t { gone, undecided, open, doing, done };
  struct State {
    Fate fate;
    Times usual;         // as it is expected to go from now on
    Times ideal;         // a prep: had nobody who prepares been late; else as usual
    Times least;         // as usual, with least durations
    Times most;          // with most durations, and with the steps on signals still open
    std::int64_t quick;  // latest start of a prep at which nobody waits, all with least durations
    std::int64_t need;   // of a clinician's step: when it would start were nobody late
    std::int64_t holds;  // earliest useful start of what is held until another step
    std::int64_t early;  // earliest start at which what it prepares keeps until it is used
  };

  static bool takes_place(const State& s) { return s.fate >= Fate::open; }
  bool decided(std::size_t node, std::int64_t now, std::int64_t& moment) const;
  struct Starts {
    std::int64_t usual = 0, ideal = 0, least = 0, most = 0;
  };
  Starts starts(std::size_t node) const;
  void forward(std::size_t node, const StepTime& progress, std::int64_t now);
  void undecided(std::size_t node, std::int64_t moment);
  void latest_for_the_quickest();
  void keep_within_lags();
  void earliest(std::vector<Window>& out) const;
  std::int64_t useful_start(std::size_t node, const std::vector<Window>& out) const;
  void latest(std::vector<Window>& out) const;

  StepGraph graph_;
  std::vector<State> states_;
};

/// The same for one call; lays out the step graph each time.
void windows(const Procedure&, const std::vector<StepTime>& progress, Ms now,
             std::vector<Window>& out);

/// The earliest the whole procedure can end with usual durations, people and hands not considered:
/// a lower bound of every plan. `happened` lists the signals taken to happen; all others do not.
/// With a phase: the same of that phase alone, everything before it done.
Ms earliest_finish(const Procedure&, const std::vector<SignalIx>& happened, PhaseIx phase = {});

}  // namespace beforehand::timing
