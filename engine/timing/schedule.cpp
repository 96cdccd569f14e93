// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "timing/schedule.hpp"

#include <algorithm>

namespace beforehand::timing {

std::optional<std::vector<int>> longest_paths(const ScheduleProblem& p, int horizon) {
  const auto n = static_cast<std::size_t>(p.points);
  std::vector<int> d(n * n, no_path);
  const auto raise = [&](int from, int to, int lag) {
    auto& entry = d[static_cast<std::size_t>(from) * n + static_cast<std::size_t>(to)];
    entry = std::max(entry, lag);
  };
  for (int i = 0; i < p.points; ++i) {
    raise(i, i, 0);
    raise(0, i, 0);
    raise(i, 0, -horizon);
  }
  for (const auto& x : p.differences) raise(x.from, x.to, x.lag);
  for (std::size_t k = 0; k < n; ++k) {
    const int* from_k = &d[k * n];
    for (std::size_t i = 0; i < n; ++i) {
      const int to_k = d[i * n + k];
      if (to_k == no_path) continue;
      int* row = &d[i * n];
      for (std::size_t j = 0; j < n; ++j) row[j] = std::max(row[j], to_k + from_k[j]);
    }
    for (std::size_t i = 0; i < n; ++i) {
      if (d[i * n + i] > 0) return std::nullopt;
    }
  }
  return d;
}

namespace {

// One interval as a job of a machine: not before `head`, and `tail` from its end to the finish.
struct Job {
  int head, work, tail;
};

// For every choice of a least head and a least tail: the jobs that have both must fit between.
int one_machine_bound(const std::vector<Job>& jobs) {
  int bound = 0;
  for (const auto& a : jobs) {
    for (const auto& b : jobs) {
      int work = 0;
      for (const auto& j : jobs) work += j.head >= a.head && j.tail >= b.tail ? j.work : 0;
      if (work > 0) bound = std::max(bound, a.head + work + b.tail);
    }
  }
  return bound;
}

class Bounds {
 public:
  explicit Bounds(const ScheduleProblem& p) : problem_(p), paths_(longest_paths(p, far)) {}

  int best() const {
    if (!paths_) return far;
    int bound = path(0, problem_.finish);
    std::vector<const ScheduleProblem::Resource*> shared;  // one at a time, and one of several
    for (const auto& r : problem_.resources) {
      bound = std::max({bound, one_machine_bound(jobs(r)), work_bound({&r})});
      const bool optional = std::any_of(r.intervals.begin(), r.intervals.end(),
                                        [](const auto& i) { return i.when.choice >= 0; });
      if (optional && r.capacity == 1) shared.push_back(&r);
    }
    return std::max(bound, work_bound(shared));
  }

 private:
  static constexpr int far = 1 << 27;

  int path(int from, int to) const {
    return (*paths_)[static_cast<std::size_t>(from * problem_.points + to)];
  }
  Job job(const ScheduleProblem::Interval& i) const {
    return {path(0, i.begin) + i.begin_offset, path(i.begin, i.end) + i.end_offset - i.begin_offset,
            std::max(0, path(i.end, problem_.finish)) - i.end_offset};
  }

  std::vector<Job> jobs(const ScheduleProblem::Resource& r) const {
    std::vector<Job> jobs;
    for (const auto& i : r.intervals) {
      if (2 * i.demand > r.capacity && i.when.choice < 0) jobs.push_back(job(i));
    }
    return jobs;
  }

  // Of a choice, the option that is least work here counts; it may be none.
  int work_bound(const std::vector<const ScheduleProblem::Resource*>& resources) const {
    int capacity = 0, work = 0, head = far, tail = far;
    std::vector<std::vector<int>> by_choice;
    for (const auto options : problem_.options)
      by_choice.emplace_back(static_cast<std::size_t>(options), 0);
    for (const auto* r : resources) {
      capacity += r->capacity;
      for (const auto& i : r->intervals) {
        const Job j = job(i);
        head = std::min(head, j.head);
        tail = std::min(tail, j.tail);
        auto& sum = i.when.choice < 0 ? work
                                      : by_choice[static_cast<std::size_t>(i.when.choice)]
                                                 [static_cast<std::size_t>(i.when.option)];
        sum += j.work * i.demand;
      }
    }
    for (const auto& options : by_choice) work += *std::min_element(options.begin(), options.end());
    return work == 0 ? 0 : head + (work + capacity - 1) / capacity + tail;
  }

  const ScheduleProblem& problem_;
  const std::optional<std::vector<int>> paths_;
};

}  // namespace

int lower_bound(const ScheduleProblem& p) { return Bounds(p).best(); }

std::vector<ScheduleProblem::Difference> resource_order(const ScheduleProblem& p,
                                                        const Schedule& s) {
  std::vector<ScheduleProblem::Difference> order;
  const auto time = [&](int point) { return s.time[static_cast<std::size_t>(point)]; };
  const auto counts = [&](const ScheduleProblem::Interval& i) {
    return i.when.choice < 0 || s.option[static_cast<std::size_t>(i.when.choice)] == i.when.option;
  };
  for (const auto& r : p.resources) {
    for (const auto& a : r.intervals) {
      for (const auto& b : r.intervals) {
        const bool apart = time(a.end) + a.end_offset <= time(b.begin) + b.begin_offset;
        if (&a == &b || !apart || !counts(a) || !counts(b)) continue;
        order.push_back({a.end, b.begin, a.end_offset - b.begin_offset});
      }
    }
  }
  return order;
}

std::optional<std::vector<int>> earliest_times(
    int points, const std::vector<ScheduleProblem::Difference>& differences) {
  std::vector<int> time(static_cast<std::size_t>(points), 0);
  for (int round = 0; round <= points; ++round) {
    bool moved = false;
    for (const auto& d : differences) {
      const int least = time[static_cast<std::size_t>(d.from)] + d.lag;
      auto& to = time[static_cast<std::size_t>(d.to)];
      if (to >= least) continue;
      to = least;
      moved = true;
    }
    if (!moved) return time;
  }
  return std::nullopt;
}

std::vector<int> latest_times(int points,
                              const std::vector<ScheduleProblem::Difference>& differences,
                              int last) {
  std::vector<int> time(static_cast<std::size_t>(points), last);
  time[0] = 0;
  for (bool moved = true; moved;) {
    moved = false;
    for (const auto& d : differences) {
      const int most = time[static_cast<std::size_t>(d.to)] - d.lag;
      auto& from = time[static_cast<std::size_t>(d.from)];
      if (from <= most) continue;
      from = most;
      moved = true;
    }
  }
  return time;
}

Schedule pull_early(const ScheduleProblem& p, Schedule s) {
  auto differences = resource_order(p, s);
  differences.insert(differences.end(), p.differences.begin(), p.differences.end());
  s.time = earliest_times(p.points, differences).value();
  return s;
}

}  // namespace beforehand::timing
