// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <algorithm>

#include "scoring/trace.hpp"

namespace beforehand::scoring {

template <class T>
void drop(std::vector<T>& list, const T& item) {
  list.erase(std::remove(list.begin(), list.end(), item), list.end());
}

/// Keeps everybody's time while a Trace is read: cut into stretches wherever what a person is at
/// changes. Moments are told in order.
class Timekeeper {
 public:
  using PersonNow = Trace::PersonNow;
  using Doing = Trace::Doing;

  Timekeeper(Trace& trace, const Frame& frame) : t_(trace), f_(frame) {}

  void reset();

  /// Changes what a person is at; `how` is given the PersonNow. Nobody: nothing.
  template <class Change>
  void change(PersonIx who, Ms at, Change&& how) {
    if (!who) return;
    PersonNow& now = t_.people_[who.at()];
    count_own_work(now, at);
    how(now);
    settle(now, at);
  }

  const PersonNow& person(PersonIx who) const { return t_.people_[who.at()]; }

  /// What somebody held ready is taken.
  void take_offer(SupplyIx, Ms at);

  /// Counts the time from the trace's end so far to `at`, when nobody was at anything in it.
  void count_idle_together(Ms at);

  /// Closes everybody's last stretch.
  void close(Ms end);

 private:
  void reset(PersonIx);
  static void count_own_work(PersonNow&, Ms at);
  void settle(PersonNow&, Ms at);
  static Stretch is_at(const PersonNow&);
  void close(PersonNow&, Ms at);

  Trace& t_;
  const Frame& f_;
};

}  // namespace beforehand::scoring
