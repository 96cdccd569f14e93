// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "timing/windows.hpp"

#include <algorithm>
#include <cassert>

#include "timing/applies.hpp"

namespace beforehand::timing {

WindowFinder::WindowFinder(const Procedure& p) : graph_(p), states_(graph_.nodes.size()) {}

// Whether all signals of the node are decided by now; else `moment` is when they will be.
bool WindowFinder::decided(std::size_t node, std::uint32_t first, std::int64_t now,
                           std::int64_t& moment) const {
  bool all = true;
  moment = 0;
  for (auto i = first; i < graph_.nodes[node].decisions_end; ++i) {
    const auto& d = graph_.decisions[i];
    const State& pred = states_[d.pred];
    const auto at = (d.from_start ? pred.usual.start : pred.usual.end) + d.delay;
    const bool reached = pred.fate == Fate::done || (pred.fate == Fate::doing && d.from_start);
    all = all && at <= now && (reached || pred.fate == Fate::gone);
    moment = std::max(moment, at);
  }
  return all;
}

void WindowFinder::forward(std::size_t node, std::uint32_t first, const StepTime& progress,
                           std::int64_t now) {
  const auto& n = graph_.nodes[node];
  State& s = states_[node];
  std::int64_t usual = 0, ideal = 0, least = 0;
  for (auto i = first; i < n.edges_end; ++i) {
    const auto& e = graph_.edges[i];
    const State& pred = states_[e.pred];
    const auto lag = pred.fate == Fate::gone ? 0 : e.lag;
    usual = std::max(usual, (e.from_start ? pred.usual.start : pred.usual.end) + lag);
    ideal = std::max(ideal, (e.from_start ? pred.ideal.start : pred.ideal.end) + lag);
    least = std::max(least, (e.from_start ? pred.least.start : pred.least.end) + lag);
  }
  s.need = ideal;
  s.ideal = {ideal, ideal + n.usual};
  if (progress.state == StepTime::State::open) {
    s.fate = Fate::open;
    usual = std::max(usual, now);
    least = std::max(least, now);
    s.usual = {usual, usual + n.usual};
    s.least = {least, least + n.least};
  } else {
    const auto start = progress.start.count();
    const bool done = progress.state == StepTime::State::done;
    s.fate = done ? Fate::done : Fate::doing;
    const auto end = done || progress.end != never ? progress.end.count() : start + n.usual;
    s.usual = {start, done ? end : std::max(now, end)};
    s.least = {start, done ? end : std::min(s.usual.end, std::max(now, start + n.least))};
    s.ideal = {std::min(start, ideal), std::min(s.usual.end, s.ideal.end)};
  }
  if (n.clinician) s.ideal = s.usual;
  s.holds = never.count();
  s.early = 0;
}

// How early is too early: what is held only blocks a hand, what keeps for so long would be past it.
void WindowFinder::keep_within_lags() {
  std::uint32_t edge = 0;
  for (const auto& s : states_) {
    const auto end = graph_.nodes[static_cast<std::size_t>(&s - states_.data())].edges_end;
    for (; edge < end; ++edge) {
      const auto& e = graph_.edges[edge];
      if (!e.held || s.fate != Fate::open) continue;
      const auto usual = e.from_start ? 0 : graph_.nodes[e.pred].usual;
      auto& holds = states_[e.pred].holds;
      holds = std::min(holds, s.least.start - graph_.offer - usual);
    }
  }
  for (const auto& lag : graph_.max_lags) {
    State& from = states_[lag.from];
    const State& to = states_[lag.to];
    if (from.fate != Fate::open || to.fate != Fate::open) continue;
    const auto own = lag.from_start ? 0 : graph_.nodes[lag.from].usual;
    from.early =
        std::max(from.early, (lag.to_end ? to.usual.end : to.usual.start) - lag.most - own);
  }
}

void WindowFinder::earliest(std::vector<Window>& out) const {
  std::uint32_t edge = 0;
  for (std::size_t i = 0; i < states_.size(); ++i) {
    const auto& n = graph_.nodes[i];
    const State& s = states_[i];
    Window& w = out[n.step.at()];
    w = {};
    if (s.fate == Fate::gone) {
      edge = n.edges_end;
      continue;
    }
    auto start = s.least.start;
    for (; edge < n.edges_end; ++edge) {
      const auto& e = graph_.edges[edge];
      if (n.clinician || s.fate != Fate::open || states_[e.pred].fate != Fate::open) continue;
      const auto pred = out[graph_.nodes[e.pred].step.at()].earliest.count();
      start = std::max(start, pred + (e.from_start ? 0 : graph_.nodes[e.pred].least) + e.lag);
    }
    if (s.fate == Fate::open && !n.clinician) {
      start = std::max({start, s.early, s.holds == never.count() ? 0 : s.holds});
    }
    w.earliest = Ms{start};
    w.expected = Ms{std::max(s.usual.start, s.fate == Fate::open ? start : s.usual.start)};
  }
}

void WindowFinder::latest(std::vector<Window>& out) const {
  for (const auto& lag : graph_.max_lags) {
    const State& from = states_[lag.from];
    const auto& to = graph_.nodes[lag.to];
    if (from.fate == Fate::gone || states_[lag.to].fate != Fate::open || to.clinician) continue;
    const auto at = (lag.from_start ? from.usual.start : from.usual.end) + lag.most;
    Window& w = out[to.step.at()];
    w.latest = std::min(w.latest, Ms{at - (lag.to_end ? to.usual : 0)});
  }
  for (std::size_t i = states_.size(); i-- > 0;) {
    const auto& n = graph_.nodes[i];
    const State& s = states_[i];
    if (s.fate != Fate::open) continue;
    const Window& w = out[n.step.at()];
    const auto by = n.clinician ? s.need : w.latest.count();
    if (by >= never.count()) continue;
    for (auto e = i == 0 ? 0 : graph_.nodes[i - 1].edges_end; e < n.edges_end; ++e) {
      const auto& edge = graph_.edges[e];
      const auto& pred = graph_.nodes[edge.pred];
      const auto fate = states_[edge.pred].fate;
      if (pred.clinician || fate == Fate::done || fate == Fate::gone) continue;
      const auto start = Ms{by - edge.lag - (edge.from_start ? 0 : pred.usual)};
      Window& before = out[pred.step.at()];
      if (start >= before.latest) continue;
      before.latest = start;
      before.need = n.clinician ? Ms{s.need} : w.need;
      before.serves = n.clinician ? n.step : w.serves;
    }
  }
}

void WindowFinder::find(const std::vector<StepTime>& progress, Ms now, std::vector<Window>& out) {
  assert(progress.size() == states_.size());
  out.resize(states_.size());
  std::uint32_t edge = 0, decision = 0;
  for (std::size_t i = 0; i < states_.size(); ++i) {
    const auto& n = graph_.nodes[i];
    const StepTime& p = progress[n.step.at()];
    std::int64_t moment = 0;
    const bool open = p.state == StepTime::State::open;
    if (p.state == StepTime::State::skipped ||
        (open && decision < n.decisions_end && !decided(i, decision, now.count(), moment))) {
      states_[i] = {Fate::gone, {moment, moment}, {moment, moment}, {moment, moment}, 0, 0, 0};
    } else {
      forward(i, edge, p, now.count());
    }
    edge = n.edges_end;
    decision = n.decisions_end;
  }
  keep_within_lags();
  earliest(out);
  latest(out);
}

void windows(const Procedure& p, const std::vector<StepTime>& progress, Ms now,
             std::vector<Window>& out) {
  WindowFinder{p}.find(progress, now, out);
}

Ms earliest_finish(const Procedure& p, const std::vector<SignalIx>& happened, PhaseIx phase) {
  const StepGraph graph{p};
  const auto takes_place = [&](StepIx s) {
    return applies(p.step(s), happened) && (!phase || p.step(s).phase == phase);
  };
  struct Times {
    std::int64_t start = 0, end = 0;
  };
  std::vector<Times> times(graph.nodes.size());
  std::int64_t finish = 0;
  std::uint32_t edge = 0, decision = 0;
  for (std::size_t i = 0; i < times.size(); ++i) {
    const auto& n = graph.nodes[i];
    const bool does = takes_place(n.step);
    auto& start = times[i].start;
    for (; decision < n.decisions_end; ++decision) {
      const auto& d = graph.decisions[decision];
      start = std::max(start, (d.from_start ? times[d.pred].start : times[d.pred].end) + d.delay);
    }
    for (; edge < n.edges_end; ++edge) {
      const auto& e = graph.edges[edge];
      if (!does) continue;
      const auto lag = takes_place(graph.nodes[e.pred].step) ? e.lag : 0;
      start = std::max(start, (e.from_start ? times[e.pred].start : times[e.pred].end) + lag);
    }
    times[i].end = start + (does ? n.usual : 0);
    if (does) finish = std::max(finish, times[i].end);
  }
  return Ms{finish};
}

}  // namespace beforehand::timing
