// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <cstdint>
#include <vector>

#include "procedure/procedure.hpp"

namespace beforehand::procedure {

/// The starts and ends of all steps, and what must lie between them at least: durations, links, and
/// covers that last as long as what they cover.
class EventGraph {
 public:
  using Event = std::uint32_t;  ///< 2 * step for its start, 2 * step + 1 for its end

  /// `to` comes no earlier than `lag` after `from`.
  struct Edge {
    Event from, to;
    Ms lag;
    const Link* link;  ///< none for a duration or the end of a cover
  };

  explicit EventGraph(const Procedure& procedure);

  static Event start(StepIx s) { return static_cast<Event>(2 * s.at()); }
  static Event end(StepIx s) { return start(s) + 1; }
  static Event event(StepIx s, Anchor a) { return a == Anchor::start ? start(s) : end(s); }
  static StepIx step(Event e) { return StepIx{e / 2}; }

  bool has_cycle() const { return order_.size() < event_count_; }

  /// The shortest cycle through an event that lies on one, as edges that lead on from one another;
  /// and the graph without its last edge, so that the next can be asked for. Needs has_cycle().
  std::vector<Edge> take_cycle();

  /// Every step, each after those whose start must come before its own; file order where free.
  std::vector<StepIx> topological() const;

  /// By step, the set of steps that must start before it. Needs no cycle.
  std::vector<std::vector<std::uint64_t>> before() const;

  /// Longest way from one event to all others, over steps that `counts` only.
  struct Ways {
    std::vector<Ms> length;         ///< by event; unreached() where there is no way
    std::vector<const Edge*> last;  ///< by event; the edge it is reached by
    static constexpr Ms unreached() { return -never; }
    bool reaches(Event e) const { return length[e] != unreached(); }
  };
  Ways longest_from(Event source, const std::vector<bool>& counts) const;

 private:
  void put_in_order();
  std::vector<Edge> shortest_cycle_through(Event event, const std::vector<bool>& left) const;

  std::size_t event_count_;
  std::vector<Edge> edges_;              // by `to`, then as found
  std::vector<std::uint32_t> first_in_;  // by event: its first edge in edges_
  std::vector<Event> order_;             // topological, as far as it goes
};

}  // namespace beforehand::procedure
