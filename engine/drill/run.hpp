// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <memory>
#include <vector>

#include "drill/controller.hpp"
#include "drill/mechanics.hpp"
#include "drill/session.hpp"
#include "drill/world.hpp"

namespace beforehand::drill {

/// The one loop that plays a drill, for the window, the commands and replay alike. The result
/// depends on the procedure, the set-up and the commands only, never on how the time was cut into
/// calls of advance_to.
class Run {
 public:
  /// `procedure` must outlive the run. A person without a controller is driven by submit().
  Run(const Procedure& procedure, Setup setup);
  Run(const Run&) = delete;  // the parts refer to each other
  Run& operator=(const Run&) = delete;

  /// Replaces who decides for a person. Before the first advance only.
  void control(PersonIx person, std::unique_ptr<Controller> controller);

  /// A decision from outside at the current moment (a human's key, a recording). Applied at once.
  void submit(Command command);

  /// Plays everything up to and including moment `t`; now() is then t, or the end of the drill.
  void advance_to(Ms t);

  /// Plays to the end of the drill. Every drill ends.
  void play_out();

  /// The next moment at which something happens by itself, or never.
  Ms next_moment() const;

  Ms now() const { return world_.now; }
  bool over() const { return world_.over; }
  const World& world() const { return world_; }
  const Procedure& procedure() const { return procedure_; }
  const Session& session() const { return session_; }

  /// Ends the drill now, as broken off by a person.
  void abandon();

 private:
  void settle();
  Ms next_wake() const;

  const Procedure& procedure_;
  World world_;
  Session session_;
  Mechanics mechanics_;
  std::vector<std::unique_ptr<Controller>> controllers_;
  bool changed_ = true;  // since the controllers were last asked
};

}  // namespace beforehand::drill
