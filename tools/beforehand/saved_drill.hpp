// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <memory>
#include <string>

#include "commands.hpp"

namespace beforehand::command {

/// A drill of the command line on its way into the store; see records/queue.hpp.
class SavedDrill {
 public:
  /// Ends the command when there is no such trainee, or the passcode is wrong.
  explicit SavedDrill(const DrillOptions&);
  ~SavedDrill();
  const std::string& recording() const;
  /// Into the store; where it cannot be reached the drill waits, and the standard error says so.
  void finish();

 private:
  struct State;
  std::unique_ptr<State> state_;
};

}  // namespace beforehand::command
