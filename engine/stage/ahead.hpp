// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <vector>

#include "drill/world.hpp"
#include "procedure/procedure.hpp"
#include "timing/windows.hpp"

namespace beforehand::stage {

/// A prep of the trainee's that lies before them: the first open step of an action, and its window.
struct Ahead {
  StepIx step;
  ActionIx action;
  timing::Window window;

  bool open(Ms now) const { return window.earliest <= now; }
  /// How long until somebody has to wait for it; negative: they already do.
  Ms left(Ms now) const { return window.latest - now; }
};

/// How far each step is, as the windows ask for it.
void progress_of(const procedure::Procedure&, const drill::World&,
                 std::vector<timing::StepTime>& out);

/// Looks ahead for one person of one procedure, which must outlive it.
class LookAhead {
 public:
  LookAhead(const procedure::Procedure& procedure, PersonIx whom)
      : procedure_(procedure), whom_(whom), finder_(procedure) {}

  /// What the person has yet to do that somebody will wait for, the most urgent first; one entry
  /// an action. None is open before its turn, however useful it may be already.
  std::vector<Ahead> find(const drill::World&);
  /// What nobody waits for but is the person's to do, and whose turn has come: capping what was
  /// used, for instance. As last found; one entry an action.
  const std::vector<Ahead>& loose() const { return loose_; }
  /// One window a step, as last found.
  const std::vector<timing::Window>& windows() const { return windows_; }

 private:
  const procedure::Procedure& procedure_;
  PersonIx whom_;
  timing::WindowFinder finder_;
  std::vector<timing::StepTime> progress_;
  std::vector<timing::Window> windows_;
  std::vector<Ahead> loose_;
};

/// A cover that the person keeps up although nothing needs it now, or none.
ActionIx held_in_vain(const procedure::Procedure&, const drill::World&, PersonIx whom,
                      const std::vector<Ahead>& ahead);

/// Up to when time may run fast: while a stretch marked for it goes on and nothing of the trainee's
/// is open or under way, until `margin` before the next window opens or the next thing happens by
/// itself (`next_moment`). Not after now: not.
Ms lapse_until(const procedure::Procedure&, const drill::World&, PersonIx trainee,
               const std::vector<Ahead>& ahead, Ms next_moment, Ms margin = Ms{4000});

}  // namespace beforehand::stage
