// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <memory>

#include "drill/run.hpp"

namespace beforehand::drill {

/// A session's commands played again, to any moment of it. A moment before the one reached is
/// played to from the beginning: a drill takes far less than a frame.
class Replay {
 public:
  /// Both must outlive it.
  Replay(const Procedure&, const Session&);

  /// Plays up to and including moment `t`, or to the end of what was recorded.
  void to(Ms t);

  /// The moment of the last thing recorded.
  Ms end() const;

  Ms now() const { return run_->now(); }
  const World& world() const { return run_->world(); }
  const Session& played() const { return run_->session(); }
  const Session& told() const { return told_; }
  const Procedure& procedure() const { return procedure_; }

  // The same in single strides, for whoever compares on the way.
  /// Plays up to where the next command was given; false when there is none left.
  bool reach_command();
  void apply_command();
  /// Plays what came after the last command.
  void finish();

 private:
  void restart();

  const Procedure& procedure_;
  const Session& told_;
  std::unique_ptr<Run> run_;
  std::size_t next_ = 0;  // command
};

}  // namespace beforehand::drill
