// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <vector>

#include "procedure/procedure.hpp"

namespace beforehand::procedure {

/// Fills in what follows from what is written, in this order:
///  1. implied links: the steps that handle one supply follow one another in file order (its life);
///     what is `for` a step ends before it; a cover starts before what it covers;
///  2. reach times, kinds of action, the order relation and a topological order;
///  3. a take-back that must free a hand is a need of the first later step that lacks one;
///  4. where a predecessor may not apply, links to what must come before it in any case;
///  5. needs: each supply's, with the pass that serves it and the step that prepared it; each cover
///     is a need of the steps it covers, each predecessor that only others do is a need.
/// Expects links and needs as the reader leaves them: those written, a need by its supply alone.
/// References must already be resolved. A need whose `from` step does not apply (its signals) does
/// not count. Deriving again gives the same.
/// Gives the problems that make the procedure unplayable: cycles, a need nobody can satisfy, more
/// hands than people have, a pass nobody needs. With a cycle it stops there, and the order stays
/// empty.
std::vector<Problem> derive(Procedure&);

}  // namespace beforehand::procedure
