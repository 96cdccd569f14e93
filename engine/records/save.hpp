// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <optional>
#include <string>

#include "procedure/procedure.hpp"
#include "records/record.hpp"

namespace beforehand::records {

/// What the store needs to know of a drill beside its session.
struct Sitting {
  Id id, trainee;
  Moment started{}, ended{};
  std::string program;        ///< version it was played with
  std::string scenario_text;  ///< the procedure's file, as it was read
  Around around{};
};

/// The session as the store keeps it, scored against `reference`, or against the earliest possible
/// finish when there is none. Its trainee is the procedure's assistant. A session that was cut off
/// or broken off gives a record that is not complete, scored as far as it goes.
NewSession new_session(const procedure::Procedure&, const drill::Session&, const Sitting&,
                       std::optional<scoring::Reference> reference = {});

/// The needs with names, in the score's order.
std::vector<NeedRecord> needs_of(const procedure::Procedure&, const scoring::Score&);

/// For each step that is the trainee's first of all, applied and was reached: whether it was done
/// by the trainee, without an error, and everything it serves was ready unasked in time. In the
/// procedure's order. Empty at the guided level, whose windows are hints.
std::vector<StepOutcome> outcomes_of(const procedure::Procedure&, const drill::Session&,
                                     const scoring::Score&, PersonIx trainee);

/// The hash under which a scenario's text is kept.
std::string scenario_hash(const std::string& text);

}  // namespace beforehand::records
