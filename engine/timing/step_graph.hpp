// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <cstdint>
#include <vector>

#include "procedure/procedure.hpp"

namespace beforehand::timing {

using procedure::Procedure;

/// The step graph of a procedure in flat arrays, steps in topological order: what propagation runs
/// over. Needs are links too: something passed or done ends, a cover starts, before the step that
/// needs it. The end of a cover is the end of the steps it covers.
struct StepGraph {
  /// Throws std::invalid_argument when the links run in a circle.
  explicit StepGraph(const Procedure&);

  /// `pred`'s anchor lies `lag` or more before the node's start.
  struct Edge {
    std::int64_t lag = 0;
    std::uint16_t pred = 0;
    bool from_start = false;
  };
  /// `pred`, a pass or a cover, keeps a hand until the node starts. Begun more than `ahead` before
  /// that, it only blocks it.
  struct Held {
    std::int64_t ahead = 0;
    std::uint16_t pred = 0, node = 0;
  };
  /// The moment `delay` after `pred`'s anchor, at which a signal the node depends on is decided.
  struct Decision {
    std::int64_t delay = 0;
    std::uint16_t pred = 0;
    bool from_start = false;
  };
  struct Node {
    StepIx step;
    bool clinician = false;  ///< done by the clinician, if all goes as usual
    std::uint32_t edges_end =
        0;  ///< the node's edges end here, and begin where the last node's end
    std::uint32_t decisions_end = 0;
    std::int64_t least = 0, usual = 0, most = 0;  ///< duration, reach included
  };
  /// `to`'s anchor lies `most` or less after `from`'s.
  struct MaxLag {
    std::int64_t most = 0;
    std::uint16_t from = 0, to = 0;
    bool from_start = false, to_end = false;
  };

  std::vector<Node> nodes;
  std::vector<Edge> edges;
  std::vector<Held> held;
  std::vector<Decision> decisions;
  std::vector<MaxLag> max_lags;
  std::vector<std::uint16_t> node_of;  ///< by step

  std::uint32_t edges_begin(std::size_t node) const {
    return node == 0 ? 0 : nodes[node - 1].edges_end;
  }
  std::uint32_t decisions_begin(std::size_t node) const {
    return node == 0 ? 0 : nodes[node - 1].decisions_end;
  }
};

}  // namespace beforehand::timing
