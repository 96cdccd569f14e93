// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include "drill/controller.hpp"

namespace beforehand::drill {

/// The scripted clinician: works through the graph in the file's order. When nothing can start
/// because a need is missing, stands still; after the procedure's patience asks aloud; after its
/// self-help time gets, holds or does one thing after the other alone, unless somebody is visibly
/// at it. A step that the assistant is preferred for is taken over when the assistant has not
/// begun it in time.
class ScriptedClinician final : public Controller {
 public:
  explicit ScriptedClinician(PersonIx me) : me_(me) {}
  bool decide(const Procedure&, const World&, Command& out) override;
  Ms wake(const Procedure&, const World&) override;

 private:
  bool start_something(const Procedure&, const World&, Command& out);
  bool speak_or_help(const Procedure&, const World&, StepIx awaited, Command& out);

  PersonIx me_;
  std::size_t first_open_ = 0;
};

}  // namespace beforehand::drill
