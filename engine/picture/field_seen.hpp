// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include "drill/world.hpp"

namespace beforehand::picture {

/// What can be seen at the tooth now. It differs from the world's flags in two things: what steps
/// clear and nothing leaves was there before the drill began, and what hands take off is off when
/// half of their step has passed.
procedure::FieldSet seen_at_tooth(const procedure::Procedure&, const drill::World&);

/// Whether a retraction cord lies round the tooth.
bool cord_lies(const procedure::Procedure&, const drill::World&);

/// Where what stays on the patient for a while has got to; by its icon.
enum class Fixed {
  never,  ///< not a thing of that kind
  not_yet,
  on,
  off,  ///< taken off again
};
Fixed fixed_on_patient(const procedure::Procedure&, const drill::World&,
                       const procedure::FieldSet& seen, SupplyIx);

}  // namespace beforehand::picture
