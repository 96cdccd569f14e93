// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <vector>

#include "procedure/procedure.hpp"

namespace beforehand::procedure {

/// Fills in what follows from what is written, in this order:
///  1. the life of each supply: the steps that handle one supply, in file order, follow one another
///  (implied links);
///  2. each cover is a need of the steps it covers, each predecessor that only others do is a need,
///  each pass serves a
///     need, and each need knows the step that prepared what it uses up;
///  3. a take-back that must free a hand is a need of the first later step that lacks one;
///  4. reach times, kinds of action, the order relation and a topological order.
/// Expects links and needs as the reader leaves them: those written, a need by its supply alone. A
/// need whose `from` step does not apply (its signals) does not count. Deriving again gives the
/// same. Gives the problems that make the procedure unplayable: cycles, a need nobody can satisfy,
/// more hands than people have, a pass nobody needs. References must already be resolved.
std::vector<Problem> derive(Procedure&);

}  // namespace beforehand::procedure
