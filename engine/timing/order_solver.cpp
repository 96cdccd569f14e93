// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "timing/order_solver.hpp"

#include <algorithm>
#include <cadical.hpp>
#include <set>

namespace beforehand::timing {

struct OrderSolver::Core : CaDiCaL::Terminator {
  CaDiCaL::Solver sat;
  const Search* search = nullptr;

  Core() {
    sat.set("quiet", 1);
    sat.connect_terminator(this);
  }
  ~Core() override { sat.disconnect_terminator(); }

  bool terminate() override { return search && search->stopped && search->stopped(); }
};

OrderSolver::OrderSolver(const ScheduleProblem& problem, const std::vector<int>& paths, int horizon)
    : core_(std::make_unique<Core>()), problem_(problem), paths_(paths) {
  true_ = new_variable();
  clause({true_});
  add_points(horizon);
  for (const auto& d : problem_.differences) force_difference(true_, d.from, d.to, d.lag);
  for (const auto count : problem_.options) {
    auto& literals = option_literals_.emplace_back();
    for (int i = 0; i < count; ++i) literals.push_back(new_variable());
    clause(literals);
    core_->sat.phase(literals.front());  // tried first where it is free
    for (int i = 0; i < count; ++i) {
      for (int j = i + 1; j < count; ++j) {
        clause({-literals[static_cast<std::size_t>(i)], -literals[static_cast<std::size_t>(j)]});
      }
    }
  }
  for (const auto& together : problem_.excluded) {
    std::vector<int> literals;
    for (const auto o : together) literals.push_back(-takes(o));
    clause(std::move(literals));
  }
}

OrderSolver::~OrderSolver() = default;

int OrderSolver::new_variable() { return ++variables_; }

void OrderSolver::clause(std::vector<int> literals) {
  if (std::find(literals.begin(), literals.end(), true_) != literals.end() && literals.size() > 1) {
    return;
  }
  for (const auto l : literals) {
    if (l != -true_) core_->sat.add(l);
  }
  core_->sat.add(0);
}

int OrderSolver::path(int from, int to) const {
  return paths_[static_cast<std::size_t>(from * problem_.points + to)];
}

void OrderSolver::add_points(int horizon) {
  for (int p = 0; p < problem_.points; ++p) {
    const Range r{path(0, p), std::min(horizon, -path(p, 0)), variables_ + 1};
    ranges_.push_back(r);
    for (int t = r.first; t < r.last; ++t) {
      const int literal = new_variable();
      if (t > r.first) clause({-(literal - 1), literal});
    }
  }
}

int OrderSolver::not_later(int point, int t) {
  const Range& r = ranges_[static_cast<std::size_t>(point)];
  if (t < r.first) return -true_;
  return t >= r.last ? true_ : r.base + t - r.first;
}

// from >= t implies to >= t + lag, unless the guard is false; beyond the last moment of `to` a
// clause forbids the later moments of `from`, of which one says it for all.
void OrderSolver::force_difference(int guard, int from, int to, int lag) {
  const Range& f = ranges_[static_cast<std::size_t>(from)];
  const Range& g = ranges_[static_cast<std::size_t>(to)];
  for (int t = std::max(f.first, g.first - lag + 1); t <= f.last; ++t) {
    clause({not_later(from, t - 1), -not_later(to, t + lag - 1), -guard});
    if (t + lag > g.last) break;
  }
}

int OrderSolver::at_least(int from, int to, int lag) {
  if (path(from, to) >= lag) return true_;
  if (-path(to, from) < lag) return -true_;
  const auto [entry, is_new] = guards_.try_emplace({from, to, lag}, 0);
  if (is_new) {
    entry->second = new_variable();
    force_difference(entry->second, from, to, lag);
  }
  return entry->second;
}

int OrderSolver::takes(ScheduleProblem::Option o) {
  return o.choice < 0 ? true_
                      : option_literals_[static_cast<std::size_t>(o.choice)]
                                        [static_cast<std::size_t>(o.option)];
}

OrderSolver::Answer OrderSolver::solve(const std::vector<int>& assumptions, const Search& search) {
  core_->search = &search;
  while (!core_->terminate()) {
    for (const auto l : assumptions) core_->sat.assume(l);
    const int status = core_->sat.solve();
    if (status == 20) return Answer::no;
    if (status != 10) break;
    read_schedule();
    if (!forbid_overloads()) return Answer::yes;
  }
  return Answer::unknown;
}

void OrderSolver::read_schedule() {
  schedule_.time.clear();
  for (const auto& r : ranges_) {
    int low = r.first, high = r.last;
    while (low < high) {
      const int middle = low + (high - low) / 2;
      (core_->sat.val(r.base + middle - r.first) > 0 ? high : low) =
          core_->sat.val(r.base + middle - r.first) > 0 ? middle : middle + 1;
    }
    schedule_.time.push_back(low);
  }
  schedule_.option.clear();
  for (const auto& literals : option_literals_) {
    const auto taken = std::find_if(literals.begin(), literals.end(),
                                    [&](int l) { return core_->sat.val(l) > 0; });
    schedule_.option.push_back(static_cast<int>(taken - literals.begin()));
  }
}

int OrderSolver::begin(const Interval& i) const {
  return schedule_.time[static_cast<std::size_t>(i.begin)] + i.begin_offset;
}
int OrderSolver::end(const Interval& i) const {
  return schedule_.time[static_cast<std::size_t>(i.end)] + i.end_offset;
}
bool OrderSolver::counts(const Interval& i) const {
  return i.when.choice < 0 ||
         schedule_.option[static_cast<std::size_t>(i.when.choice)] == i.when.option;
}

int OrderSolver::separate(const Interval& first, const Interval& then) {
  return at_least(first.end, then.begin, first.end_offset - then.begin_offset);
}

// Looks at the moments at which an interval begins, for no overload begins elsewhere.
bool OrderSolver::forbid_overloads() {
  bool any = false;
  for (const auto& r : problem_.resources) {
    std::set<std::vector<const Interval*>> seen;
    for (const auto& at : r.intervals) {
      if (!counts(at)) continue;
      std::vector<const Interval*> together;
      int demand = 0;
      for (const auto& i : r.intervals) {
        if (!counts(i) || begin(i) > begin(at) || end(i) <= begin(at)) continue;
        together.push_back(&i);
        demand += i.demand;
      }
      if (demand <= r.capacity || !seen.insert(together).second) continue;
      any = forbid_overload(r, std::move(together)) || any;
    }
  }
  return any;
}

// A smallest part of `together` that is still too much: those of the highest demands first.
bool OrderSolver::forbid_overload(const ScheduleProblem::Resource& r,
                                  std::vector<const Interval*> together) {
  std::stable_sort(together.begin(), together.end(),
                   [](auto a, auto b) { return a->demand > b->demand; });
  std::vector<const Interval*> few;
  int demand = 0;
  for (const auto* i : together) {
    if (demand > r.capacity) break;
    few.push_back(i);
    demand += i->demand;
  }
  std::vector<int> literals;
  for (const auto* a : few) {
    literals.push_back(-takes(a->when));
    for (const auto* b : few) {
      if (a != b) literals.push_back(separate(*a, *b));
    }
  }
  clause(std::move(literals));
  return true;
}

}  // namespace beforehand::timing
