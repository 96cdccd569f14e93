// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "timing/windows.hpp"

#include <algorithm>
#include <cassert>

#include "timing/applies.hpp"

namespace beforehand::timing {

namespace {
constexpr auto unknown = never.count();
}

WindowFinder::WindowFinder(const Procedure& p) : graph_(p), states_(graph_.nodes.size()) {}

// Whether all signals of the node are decided by now; else `moment` is when they will be.
bool WindowFinder::decided(std::size_t node, std::int64_t now, std::int64_t& moment) const {
  bool all = true;
  moment = 0;
  for (auto i = graph_.decisions_begin(node); i < graph_.nodes[node].decisions_end; ++i) {
    const auto& d = graph_.decisions[i];
    const State& pred = states_[d.pred];
    const auto at = (d.from_start ? pred.usual.start : pred.usual.end) + d.delay;
    const bool reached = pred.fate == Fate::done || (pred.fate == Fate::doing && d.from_start);
    all = all && at <= now && (reached || !takes_place(pred));
    moment = std::max(moment, at);
  }
  return all;
}

// From when its predecessors let the node start.
WindowFinder::Starts WindowFinder::starts(std::size_t node) const {
  Starts s;
  for (auto i = graph_.edges_begin(node); i < graph_.nodes[node].edges_end; ++i) {
    const auto& e = graph_.edges[i];
    const State& pred = states_[e.pred];
    const auto lag = takes_place(pred) ? e.lag : 0;
    s.usual = std::max(s.usual, (e.from_start ? pred.usual.start : pred.usual.end) + lag);
    s.ideal = std::max(s.ideal, (e.from_start ? pred.ideal.start : pred.ideal.end) + lag);
    s.least = std::max(s.least, (e.from_start ? pred.least.start : pred.least.end) + lag);
    const auto most_lag = pred.fate == Fate::gone ? 0 : e.lag;
    s.most = std::max(s.most, (e.from_start ? pred.most.start : pred.most.end) + most_lag);
  }
  return s;
}

void WindowFinder::forward(std::size_t node, const StepTime& progress, std::int64_t now) {
  const auto& n = graph_.nodes[node];
  State& s = states_[node];
  const bool open = progress.state == StepTime::State::open;
  // What the clinician has begun goes as it goes, whatever came before it.
  const Starts from = open || !n.clinician ? starts(node) : Starts{};
  s.need = from.ideal;
  s.ideal = {from.ideal, from.ideal + n.usual};
  if (open) {
    s.fate = Fate::open;
    const auto usual = std::max(from.usual, now), least = std::max(from.least, now);
    const auto most = std::max(from.most, now);
    s.usual = {usual, usual + n.usual};
    s.least = {least, least + n.least};
    s.most = {most, most + n.most};
  } else {
    const auto start = progress.start.count();
    const bool done = progress.state == StepTime::State::done;
    s.fate = done ? Fate::done : Fate::doing;
    const auto end = done || progress.end != never ? progress.end.count() : start + n.usual;
    s.usual = {start, done ? end : std::max(now, end)};
    s.least = {start, done ? end : std::min(s.usual.end, std::max(now, start + n.least))};
    s.most = {start, done || progress.end != never ? end : std::max(s.usual.end, start + n.most)};
    s.ideal = {std::min(start, s.ideal.start), std::min(s.usual.end, s.ideal.end)};
  }
  if (n.clinician) s.ideal = s.usual;
  s.holds = s.quick = unknown;
  s.early = 0;
}

// What waits for a signal still open: it does not happen, or from the moment that decides on.
void WindowFinder::undecided(std::size_t node, std::int64_t moment) {
  auto most = std::max(moment, starts(node).most);
  for (auto i = graph_.decisions_begin(node); i < graph_.nodes[node].decisions_end; ++i) {
    const auto& d = graph_.decisions[i];
    const Times& pred = states_[d.pred].most;
    most = std::max(most, (d.from_start ? pred.start : pred.end) + d.delay);
  }
  const Times then{moment, moment};
  states_[node] = {Fate::undecided, then, then,    then, {most, most + graph_.nodes[node].most},
                   unknown,         0,    unknown, 0};
}

void WindowFinder::latest_for_the_quickest() {
  for (std::size_t i = states_.size(); i-- > 0;) {
    const auto& n = graph_.nodes[i];
    const State& s = states_[i];
    const auto by = n.clinician ? s.least.start : s.quick;
    if (s.fate != Fate::open || by == unknown) continue;
    for (auto e = graph_.edges_begin(i); e < n.edges_end; ++e) {
      const auto& edge = graph_.edges[e];
      const auto own = edge.from_start ? 0 : graph_.nodes[edge.pred].usual;
      auto& quick = states_[edge.pred].quick;
      quick = std::min(quick, by - edge.lag - own);
    }
  }
}

// How early is too early: what is held only blocks a hand, what keeps for so long would be past it.
void WindowFinder::keep_within_lags() {
  for (const auto& h : graph_.held) {
    const State& s = states_[h.node];
    if (s.fate != Fate::open) continue;
    auto& holds = states_[h.pred].holds;
    holds = std::min(holds, s.least.start - h.ahead);
  }
  for (const auto& lag : graph_.max_lags) {
    State& from = states_[lag.from];
    const State& to = states_[lag.to];
    if (from.fate != Fate::open || to.fate != Fate::open) continue;
    const auto own = lag.from_start ? 0 : graph_.nodes[lag.from].usual;
    const auto begun_for = [&](const Times& t) {
      return (lag.to_end ? t.end : t.start) - lag.most - own;
    };
    from.early =
        std::max({from.early, begun_for(to.usual), std::min(begun_for(to.most), from.quick)});
  }
}

void WindowFinder::earliest(std::vector<Window>& out) const {
  for (std::size_t i = 0; i < states_.size(); ++i) {
    const auto& n = graph_.nodes[i];
    const State& s = states_[i];
    Window& w = out[n.step.at()];
    w = {};
    if (!takes_place(s)) continue;
    w.earliest = Ms{s.least.start};
    w.expected = Ms{s.usual.start};
    if (s.fate != Fate::open) continue;
    if (!n.clinician) w.earliest = Ms{useful_start(i, out)};
    w.expected = std::max(w.expected, w.earliest);
  }
}

// A prep is of no use before what it builds on is of use, nor so early that it would not keep.
std::int64_t WindowFinder::useful_start(std::size_t node, const std::vector<Window>& out) const {
  const State& s = states_[node];
  auto start = std::max(s.least.start, s.early);
  if (s.holds != unknown) start = std::max(start, s.holds);
  for (auto i = graph_.edges_begin(node); i < graph_.nodes[node].edges_end; ++i) {
    const auto& e = graph_.edges[i];
    if (states_[e.pred].fate != Fate::open) continue;
    const auto& pred = graph_.nodes[e.pred];
    const auto before = out[pred.step.at()].earliest.count();
    start = std::max(start, before + (e.from_start ? 0 : pred.least) + e.lag);
  }
  return start;
}

void WindowFinder::latest(std::vector<Window>& out) const {
  for (const auto& lag : graph_.max_lags) {
    const State& from = states_[lag.from];
    const auto& to = graph_.nodes[lag.to];
    if (!takes_place(from) || states_[lag.to].fate != Fate::open || to.clinician) continue;
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
    if (by >= unknown) continue;
    for (auto e = graph_.edges_begin(i); e < n.edges_end; ++e) {
      const auto& edge = graph_.edges[e];
      const auto& pred = graph_.nodes[edge.pred];
      const State& was = states_[edge.pred];
      if (pred.clinician || was.fate == Fate::done || !takes_place(was)) continue;
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
  for (std::size_t i = 0; i < states_.size(); ++i) {
    const StepTime& p = progress[graph_.nodes[i].step.at()];
    std::int64_t moment = 0;
    const bool open = p.state == StepTime::State::open;
    if (p.state == StepTime::State::skipped) {
      states_[i] = {Fate::gone, {}, {}, {}, {}, unknown, 0, unknown, 0};
    } else if (open && !decided(i, now.count(), moment)) {
      undecided(i, moment);
    } else {
      forward(i, p, now.count());
    }
  }
  if (!graph_.max_lags.empty()) latest_for_the_quickest();
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
    return applies(p.step(s), happened) && in_part(p, s, phase);
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
