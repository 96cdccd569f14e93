// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <vector>

#include "timing/network.hpp"

namespace beforehand::timing {

/// A simple temporal network with uncertainty: besides its constraints, contingent links whose
/// duration others decide, somewhere between its bounds.
struct UncertainNetwork {
  struct Contingent {
    TemporalNetwork::Point from = 0, to = 0;
    Ms least{0}, most{0};  ///< 0 <= least <= most
  };
  std::size_t points = 1;
  std::vector<TemporalNetwork::Constraint> constraints;
  std::vector<Contingent> contingent;
};

/// Whether the points that are not contingent can be timed, as one goes along, so that all
/// constraints hold whatever the contingent durations turn out to be; one may react at once to what
/// one sees.
struct Controllability {
  bool controllable = true;
  /// If not: what goes round in a circle that cannot be kept.
  std::vector<std::size_t> constraints, contingent;
};

/// Morris 2014, Dynamic controllability and dispatchability relationships (CPAIOR 2014, LNCS 8451):
/// backward propagation from each point that a negative edge leads to, O(points^3). No point may be
/// the end of two contingent links.
Controllability dynamic_controllability(const UncertainNetwork&);

}  // namespace beforehand::timing
