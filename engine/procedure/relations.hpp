// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <vector>

#include "procedure/procedure.hpp"

// Small questions about steps, asked by derive() and check().

namespace beforehand::procedure {

/// By supply: the steps that handle it, in file order: those that do something to it and those that
/// need it.
std::vector<std::vector<StepIx>> lives(const Procedure&);

/// All supplies, what is used first at the front, what nothing uses at the end.
std::vector<SupplyIx> in_order_of_use(const Procedure&);

bool is_conditional(const Step&);

/// True when `step` applies in every case in which `other` does.
bool applies_whenever(const Step& step, const Step& other);

/// True when there is a case in which both apply.
bool can_both_apply(const Step&, const Step&);

/// True when `step` needs `supply` handed over.
bool needs_supply(const Step& step, SupplyIx supply);
bool keeps(const Step& step, SupplyIx supply);

/// True when a need of kind `done` is met as soon as that step has started: nothing of `step` waits
/// for its end.
bool start_suffices(const Step& step, const Need& need);

/// The supply that a step takes another out of, which must have been set out first; none for any
/// other step.
SupplyIx comes_out_of(const Procedure&, const Step&);

/// The person who does it if all goes well.
inline PersonIx doer(const Step& step) { return step.by.front(); }

/// "line 40"; with a card laid over the scenario "line 40 of the scenario" or "line 4 of the card".
Said line_in(const Procedure&, Mark);
/// "etch (line 40)".
Said named(const Procedure&, const Step&);

}  // namespace beforehand::procedure
