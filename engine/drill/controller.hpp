// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <memory>
#include <string_view>
#include <vector>

#include "drill/world.hpp"

namespace beforehand::drill {

/// Decides for one person. Asked after every change of the world, in the order of the people, until
/// nobody has anything more to decide at that moment.
class Controller {
 public:
  virtual ~Controller() = default;

  /// The person's next decision now, or false for none. `out.at` and `out.person` are filled in by
  /// the run.
  virtual bool decide(const Procedure&, const World&, Command& out) = 0;

  /// When it wants to be asked again even if nothing happens; `never` for not at all. Later than
  /// the world's now.
  virtual Ms wake(const Procedure&, const World&) { return never; }
};

}  // namespace beforehand::drill
