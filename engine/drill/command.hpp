// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <cstdint>
#include <string_view>

#include "base/index.hpp"
#include "base/time.hpp"

namespace beforehand::drill {

/// What a person can decide. A drill is a function of its procedure, its set-up and these.
enum class Op : std::uint8_t {
  act,        ///< start action `action`, or line it up behind the one going on
  stop,       ///< stop the cover `action`
  break_off,  ///< break off what the person is doing, and clear what is lined up
  begin,      ///< start the own step `step` (the clinician's way of working)
  ask,        ///< ask aloud for need `need` of step `step`; see Command::need
  help,       ///< help oneself to need `need` of step `step`
  raise,      ///< make signal `signal` happen: now, or as soon as what it comes after has begun
};
std::string_view word(Op);

/// Commands with the same moment apply in the order in which they were given.
struct Command {
  Ms at{0};
  PersonIx person;
  Op op = Op::act;
  ActionIx action;
  StepIx step;
  /// Position in the step's needs; one past the last: what somebody keeps from it (kept_from()).
  std::uint8_t need = 0;
  SignalIx signal;

  friend bool operator==(const Command&, const Command&) = default;
};

}  // namespace beforehand::drill
