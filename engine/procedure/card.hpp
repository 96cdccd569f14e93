// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include "procedure/procedure.hpp"
#include "procedure/yaml_tree.hpp"

// A preference card: a small file that says how one clinician does what a scenario describes. It is
// laid over the scenario before that is read, so that the whole is checked as if it had been
// written so.

namespace beforehand::procedure {

/// Lays a card over a scenario: changed keys replaced, new things added, steps changed, added,
/// moved and left out. The head of the card (id, title, hand) goes to `procedure`. Gives the root
/// of what is to be read; its nodes belong to the two trees. Reports what is wrong with the card.
const Node* lay_over(Tree& scenario, Tree& card, Procedure& procedure, Report& report);

}  // namespace beforehand::procedure
