// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "timing/step_graph.hpp"

#include <queue>
#include <stdexcept>

namespace beforehand::timing {

using procedure::Anchor;
using procedure::Link;
using procedure::Need;
using procedure::Role;
using procedure::Step;

namespace {

// What comes before one step, by step index; numbered by node only once the order is known.
struct Before {
  std::vector<StepGraph::Edge> edges;
  std::vector<std::uint16_t> held;
  std::vector<StepGraph::Decision> decisions;
};

std::uint16_t index(StepIx step) { return step.value; }

void add_link(const Procedure& p, const Link& link, Before& before) {
  const Step& pred = p.step(link.step);
  const bool from_start = link.from == Anchor::start || pred.is_cover();
  before.edges.push_back({link.at_least.count(), index(link.step), from_start});
  if (link.from == Anchor::start) return;
  for (const auto covered : pred.covers) {
    before.edges.push_back({link.at_least.count(), index(covered), false});
  }
}

void add_need(const Need& need, Before& before) {
  if (!need.from) return;
  const bool cover = need.kind == Need::Kind::cover;
  before.edges.push_back({0, index(need.from), cover});
  if (need.kind != Need::Kind::done) before.held.push_back(index(need.from));
}

void add_decisions(const Procedure& p, const std::vector<SignalIx>& signals, Before& before) {
  for (const auto ix : signals) {
    const auto& signal = p.signal(ix);
    if (!signal.after) continue;
    before.decisions.push_back({signal.delay.count(), index(signal.after), signal.from_start});
  }
}

std::vector<Before> collect(const Procedure& p) {
  std::vector<Before> all(p.steps.size());
  for (std::size_t i = 0; i < all.size(); ++i) {
    for (const auto& link : p.steps[i].after) add_link(p, link, all[i]);
    for (const auto& need : p.steps[i].needs) add_need(need, all[i]);
    add_decisions(p, p.steps[i].when, all[i]);
    add_decisions(p, p.steps[i].unless, all[i]);
  }
  return all;
}

// Kahn's algorithm; of the steps that may come next, the first in the file.
std::vector<std::uint16_t> topological(const std::vector<Before>& all) {
  std::vector<std::vector<std::uint16_t>> next(all.size());
  std::vector<std::size_t> open(all.size());
  for (std::size_t i = 0; i < all.size(); ++i) {
    for (const auto& e : all[i].edges) next[e.pred].push_back(static_cast<std::uint16_t>(i));
    for (const auto& d : all[i].decisions) next[d.pred].push_back(static_cast<std::uint16_t>(i));
    open[i] = all[i].edges.size() + all[i].decisions.size();
  }
  std::priority_queue<std::uint16_t, std::vector<std::uint16_t>, std::greater<>> free;
  for (std::size_t i = 0; i < all.size(); ++i) {
    if (open[i] == 0) free.push(static_cast<std::uint16_t>(i));
  }
  std::vector<std::uint16_t> order;
  while (!free.empty()) {
    order.push_back(free.top());
    free.pop();
    for (const auto i : next[order.back()]) {
      if (--open[i] == 0) free.push(i);
    }
  }
  if (order.size() < all.size()) throw std::invalid_argument("the step graph runs in a circle");
  return order;
}

void add_max_lags(const Procedure& p, StepGraph& graph, std::uint16_t to) {
  const Step& step = p.step(graph.nodes[to].step);
  for (const auto& link : step.after) {
    if (link.at_most == never) continue;
    graph.max_lags.push_back({link.at_most.count(), graph.node_of[link.step.at()], to,
                              link.from == Anchor::start, false});
  }
  for (const auto& need : step.needs) {
    if (!need.prepared_by || p.supply(need.supply).working_time == never) continue;
    graph.max_lags.push_back({p.supply(need.supply).working_time.count(),
                              graph.node_of[need.prepared_by.at()], to, false, true});
  }
}

}  // namespace

StepGraph::StepGraph(const Procedure& p) {
  const auto before = collect(p);
  const auto order = topological(before);
  node_of.resize(order.size());
  for (std::size_t n = 0; n < order.size(); ++n) node_of[order[n]] = static_cast<std::uint16_t>(n);
  for (const auto i : order) {
    for (auto e : before[i].edges) {
      e.pred = node_of[e.pred];
      edges.push_back(e);
    }
    for (auto d : before[i].decisions) {
      d.pred = node_of[d.pred];
      decisions.push_back(d);
    }
    for (const auto h : before[i].held) {
      const auto pred = node_of[h];
      held.push_back({p.offer.count() + nodes[pred].usual, pred, node_of[i]});
    }
    const Step& s = p.steps[i];
    const auto length = [&s](Ms takes) { return s.is_cover() ? 0 : (takes + s.reach).count(); };
    nodes.push_back({StepIx{i}, p.person(s.by.front()).role == Role::clinician,
                     static_cast<std::uint32_t>(edges.size()),
                     static_cast<std::uint32_t>(decisions.size()), length(s.takes.least),
                     length(s.takes.usual), length(s.takes.most)});
  }
  for (std::size_t n = 0; n < nodes.size(); ++n) {
    add_max_lags(p, *this, static_cast<std::uint16_t>(n));
  }
}

}  // namespace beforehand::timing
