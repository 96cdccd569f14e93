// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "procedure/event_graph.hpp"

#include <algorithm>
#include <cassert>
#include <functional>
#include <queue>

namespace beforehand::procedure {

EventGraph::EventGraph(const Procedure& p) : event_count_(2 * p.steps.size()) {
  for (std::size_t i = 0; i < p.steps.size(); ++i) {
    const StepIx ix{i};
    const Step& step = p.steps[i];
    for (const Link& link : step.after)
      edges_.push_back({event(link.step, link.from), start(ix), link.at_least, &link});
    const Ms least = step.is_cover() ? Ms{0} : step.takes.least + step.reach;
    edges_.push_back({start(ix), end(ix), least, nullptr});
    for (const StepIx covered : step.covers)
      edges_.push_back({end(covered), end(ix), Ms{0}, nullptr});
  }
  std::stable_sort(edges_.begin(), edges_.end(),
                   [](const Edge& a, const Edge& b) { return a.to < b.to; });
  put_in_order();
}

// Kahn's algorithm (1962), the event first in the file first.
void EventGraph::put_in_order() {
  first_in_.assign(event_count_ + 1, 0);
  for (const Edge& e : edges_) ++first_in_[e.to + 1];
  for (std::size_t i = 0; i < event_count_; ++i) first_in_[i + 1] += first_in_[i];

  std::vector<std::uint32_t> waits_for(event_count_), first_out(event_count_ + 1),
      out(edges_.size());
  for (const Edge& e : edges_) {
    ++waits_for[e.to];
    ++first_out[e.from + 1];
  }
  for (std::size_t i = 0; i < event_count_; ++i) first_out[i + 1] += first_out[i];
  auto next_out = first_out;
  for (const Edge& e : edges_) out[next_out[e.from]++] = e.to;

  std::priority_queue<Event, std::vector<Event>, std::greater<>> ready;
  for (Event e = 0; e < event_count_; ++e) {
    if (waits_for[e] == 0) ready.push(e);
  }
  order_.clear();
  while (!ready.empty()) {
    const Event e = ready.top();
    ready.pop();
    order_.push_back(e);
    for (auto i = first_out[e]; i < first_out[e + 1]; ++i) {
      if (--waits_for[out[i]] == 0) ready.push(out[i]);
    }
  }
}

std::vector<EventGraph::Edge> EventGraph::take_cycle() {
  assert(has_cycle());
  std::vector<bool> left(event_count_, true);
  for (const Event e : order_) left[e] = false;
  // Whatever is left waits for something that is left: going back meets a cycle.
  std::vector<bool> met(event_count_);
  auto at = static_cast<Event>(std::find(left.begin(), left.end(), true) - left.begin());
  while (!met[at]) {
    met[at] = true;
    auto i = first_in_[at];
    while (!left[edges_[i].from]) ++i;
    at = edges_[i].from;
  }
  auto cycle = shortest_cycle_through(at, left);
  const Edge last = cycle.back();
  std::erase_if(edges_, [&](const Edge& e) {
    return e.from == last.from && e.to == last.to && e.link == last.link;
  });
  put_in_order();
  return cycle;
}

std::vector<EventGraph::Edge> EventGraph::shortest_cycle_through(
    Event event, const std::vector<bool>& left) const {
  std::vector<const Edge*> onward(event_count_);  // the edge that leads on towards `event`
  std::queue<Event> reached({event});
  while (!onward[event]) {
    const Event to = reached.front();
    reached.pop();
    for (auto i = first_in_[to]; i < first_in_[to + 1]; ++i) {
      const Edge& edge = edges_[i];
      if (!left[edge.from] || onward[edge.from]) continue;
      onward[edge.from] = &edge;
      reached.push(edge.from);
    }
  }
  std::vector<Edge> cycle;
  Event at = event;
  do {
    cycle.push_back(*onward[at]);
    at = onward[at]->to;
  } while (at != event);
  return cycle;
}

std::vector<StepIx> EventGraph::topological() const {
  std::vector<StepIx> steps;
  steps.reserve(event_count_ / 2);
  for (const Event e : order_) {
    if (e == start(step(e))) steps.push_back(step(e));
  }
  return steps;
}

std::vector<std::vector<std::uint64_t>> EventGraph::before() const {
  const std::size_t steps = event_count_ / 2, words = (steps + 63) / 64;
  std::vector<std::uint64_t> sets(event_count_ * words);
  for (const Event to : order_) {
    std::uint64_t* const set = sets.data() + to * words;
    for (auto i = first_in_[to]; i < first_in_[to + 1]; ++i) {
      const Event from = edges_[i].from;
      for (std::size_t w = 0; w < words; ++w) set[w] |= sets[from * words + w];
      if (from % 2 == 0) set[from / 2 / 64] |= std::uint64_t{1} << (from / 2 % 64);
    }
  }
  std::vector<std::vector<std::uint64_t>> out(steps);
  for (std::size_t s = 0; s < steps; ++s) {
    const auto* set = sets.data() + 2 * s * words;
    out[s].assign(set, set + words);
  }
  return out;
}

EventGraph::Ways EventGraph::longest_from(Event source, const std::vector<bool>& counts) const {
  Ways ways{std::vector<Ms>(event_count_, Ways::unreached()),
            std::vector<const Edge*>(event_count_)};
  ways.length[source] = Ms{0};
  for (const Event to : order_) {
    if (!counts[step(to).at()]) continue;
    for (auto i = first_in_[to]; i < first_in_[to + 1]; ++i) {
      const Edge& edge = edges_[i];
      if (!ways.reaches(edge.from) || ways.length[edge.from] + edge.lag <= ways.length[to])
        continue;
      ways.length[to] = ways.length[edge.from] + edge.lag;
      ways.last[to] = &edge;
    }
  }
  return ways;
}

}  // namespace beforehand::procedure
