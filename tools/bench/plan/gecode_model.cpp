// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// The baseline: the scheduling problem as one would write it down for Gecode, a finite-domain
// solver. A variable a point, the differences as linear constraints between two, a cumulative
// constraint a resource, optional where a person may be somebody else; branch and bound, who does
// what first, then the start with most failures for its domain to its earliest time (the earliest
// start first, the textbook's way, did far worse on these procedures).
#include "gecode_model.hpp"

#include <ctime>
#include <gecode/int.hh>
#include <gecode/minimodel.hh>
#include <gecode/search.hh>

namespace beforehand::bench {

namespace {

using timing::ScheduleProblem;
namespace gc = Gecode;

class Model : public gc::IntMinimizeSpace {
 public:
  /// Finish not after `horizon`; `span` as cost instead of the finish.
  Model(const ScheduleProblem& p, int first, int last, int horizon, bool span)
      : time_(*this, p.points, 0, horizon), cost_(*this, 0, horizon) {
    for (const int options : p.options) taken_.push_back(add_choice(options));
    gc::rel(*this, time_[0] == 0);
    for (const auto& d : p.differences) gc::rel(*this, time_[d.to] - time_[d.from] >= d.lag);
    for (const auto& together : p.excluded) exclude(together);
    for (const auto& r : p.resources) add(r, horizon);
    gc::rel(*this, span ? gc::expr(*this, time_[last] - time_[first]) == cost_
                        : gc::expr(*this, time_[p.finish]) == cost_);
    gc::BoolVarArgs choices;
    for (const auto& options : taken_) choices << options;
    if (choices.size() > 0) gc::branch(*this, choices, gc::BOOL_VAR_NONE(), gc::BOOL_VAL_MAX());
    gc::branch(*this, time_, gc::INT_VAR_AFC_SIZE_MAX(0.99), gc::INT_VAL_MIN());
  }
  Model(Model& other) : IntMinimizeSpace(other) {
    time_.update(*this, other.time_);
    cost_.update(*this, other.cost_);
  }

  gc::Space* copy() override { return new Model(*this); }
  gc::IntVar cost() const override { return cost_; }

 private:
  gc::BoolVarArgs add_choice(int options) {
    gc::BoolVarArgs one(*this, options, 0, 1);
    gc::linear(*this, one, gc::IRT_EQ, 1);
    return one;
  }

  gc::BoolVar taken(ScheduleProblem::Option o) {
    return o.choice < 0 ? gc::BoolVar(*this, 1, 1)
                        : taken_[static_cast<std::size_t>(o.choice)][o.option];
  }

  void exclude(const std::vector<ScheduleProblem::Option>& together) {
    gc::BoolVarArgs all;
    for (const auto o : together) all << taken(o);
    gc::linear(*this, all, gc::IRT_LE, all.size() - 1);
  }

  void add(const ScheduleProblem::Resource& r, int horizon) {
    gc::IntVarArgs begins, lengths, ends;
    gc::IntArgs demands;
    gc::BoolVarArgs counts;
    for (const auto& i : r.intervals) {
      begins << gc::expr(*this, time_[i.begin] + i.begin_offset);
      ends << gc::expr(*this, time_[i.end] + i.end_offset);
      lengths << gc::IntVar(*this, 0, horizon);
      gc::rel(*this,
              begins[begins.size() - 1] + lengths[lengths.size() - 1] == ends[ends.size() - 1]);
      demands << i.demand;
      counts << taken(i.when);
    }
    if (begins.size() > 1) {
      gc::cumulative(*this, r.capacity, begins, lengths, ends, demands, counts);
    }
  }

  gc::IntVarArray time_;
  gc::IntVar cost_;
  std::vector<gc::BoolVarArgs> taken_;
};

// Counts the processor's time and not the clock's, as for ours.
class CpuStop : public gc::Search::Stop {
 public:
  explicit CpuStop(double limit_s) : until_(cpu_seconds() + limit_s) {}
  bool stop(const gc::Search::Statistics&, const gc::Search::Options&) override {
    return cpu_seconds() >= until_;
  }

 private:
  const double until_;
};

struct Found {
  std::optional<int> best;
  bool proven = false;
};

Found minimize(Model* model, double limit_s) {
  CpuStop stop(limit_s);
  gc::Search::Options options;
  options.threads = 1;
  options.stop = &stop;
  gc::BAB<Model> search(model, options);
  delete model;
  Found found;
  while (Model* better = search.next()) {
    found.best = better->cost().val();
    delete better;
  }
  found.proven = !search.stopped();
  return found;
}

}  // namespace

double cpu_seconds() {
  return static_cast<double>(std::clock()) / static_cast<double>(CLOCKS_PER_SEC);
}

Baseline solve_with_gecode(const ScheduleProblem& p, int first, int last, int horizon,
                           double limit_s) {
  const double begun = cpu_seconds();
  Baseline out;
  const auto shortest = minimize(new Model(p, first, last, horizon, false), limit_s);
  out.finish = shortest.best;
  out.finish_proven = shortest.best && shortest.proven;
  const double left = limit_s - (cpu_seconds() - begun);
  if (out.finish_proven && left > 0) {
    const auto least = minimize(new Model(p, first, last, *shortest.best, true), left);
    out.span = least.best;
    out.span_proven = least.best && least.proven;
  }
  out.seconds = cpu_seconds() - begun;
  return out;
}

}  // namespace beforehand::bench
