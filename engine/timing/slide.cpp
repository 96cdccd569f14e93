// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "timing/slide.hpp"

#include <algorithm>

namespace beforehand::timing {

namespace {

using Interval = ScheduleProblem::Interval;
using Resource = ScheduleProblem::Resource;

class Slide {
 public:
  Slide(const ScheduleProblem& p, Schedule& s, int point)
      : problem_(p), schedule_(s), point_(point) {
    for (const auto& r : p.resources) {
      for (const auto& i : r.intervals) {
        if ((i.begin != point && i.end != point) || !counts(i)) continue;
        resources_.push_back(&r);
        break;
      }
    }
  }

  void run(Direction direction) {
    const auto [low, high] = range();
    auto moments = candidates(low, high);
    if (direction == Direction::later) std::reverse(moments.begin(), moments.end());
    const int before = time(point_);
    for (const int t : moments) {
      time(point_) = t;
      if (t == before || fits()) return;
    }
    time(point_) = before;
  }

 private:
  int& time(int p) { return schedule_.time[static_cast<std::size_t>(p)]; }
  int begin(const Interval& i) { return time(i.begin) + i.begin_offset; }
  int end(const Interval& i) { return time(i.end) + i.end_offset; }
  bool counts(const Interval& i) const {
    return i.when.choice < 0 ||
           schedule_.option[static_cast<std::size_t>(i.when.choice)] == i.when.option;
  }

  std::pair<int, int> range() {
    int low = 0, high = time(problem_.finish);
    for (const auto& d : problem_.differences) {
      if (d.from == d.to) continue;
      if (d.to == point_) low = std::max(low, time(d.from) + d.lag);
      if (d.from == point_) high = std::min(high, time(d.to) - d.lag);
    }
    return {low, high};
  }

  // The bounds, where it is, and wherever one of its intervals would touch another.
  std::vector<int> candidates(int low, int high) {
    std::vector<int> moments{low, time(point_), high};
    for (const auto* r : resources_) {
      for (const auto& own : r->intervals) {
        if (!counts(own)) continue;
        for (const auto& other : r->intervals) {
          if (&other == &own || !counts(other)) continue;
          if (own.begin == point_) moments.push_back(end(other) - own.begin_offset);
          if (own.end == point_) moments.push_back(begin(other) - own.end_offset);
        }
      }
    }
    std::erase_if(moments, [&](int t) { return t < low || t > high; });
    std::sort(moments.begin(), moments.end());
    moments.erase(std::unique(moments.begin(), moments.end()), moments.end());
    return moments;
  }

  bool fits() {
    return std::all_of(resources_.begin(), resources_.end(), [&](auto* r) { return fits(*r); });
  }
  bool fits(const Resource& r) {
    for (const auto& at : r.intervals) {
      if (!counts(at)) continue;
      int demand = 0;
      for (const auto& i : r.intervals) {
        if (counts(i) && begin(i) <= begin(at) && begin(at) < end(i)) demand += i.demand;
      }
      if (demand > r.capacity) return false;
    }
    return true;
  }

  const ScheduleProblem& problem_;
  Schedule& schedule_;
  const int point_;
  std::vector<const Resource*> resources_;
};

}  // namespace

void slide(const ScheduleProblem& p, Schedule& s, int point, Direction direction) {
  Slide(p, s, point).run(direction);
}

}  // namespace beforehand::timing
