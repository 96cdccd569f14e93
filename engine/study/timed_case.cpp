// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "study/timed_case.hpp"

#include <algorithm>

#include "scoring/alignment.hpp"
#include "scoring/hindsight.hpp"

namespace beforehand::study {
namespace {

using procedure::Procedure;

// Letters of the English alphabet alone: "Assistant" and "assistant" are one.
std::string lower(std::string text) {
  for (char& c : text)
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c + 32);
  return text;
}

bool is_person(const procedure::Person& p, const std::string& written) {
  return written == lower(p.id) || written == lower(p.name) || written == word(p.role);
}

class Layout {
 public:
  Layout(const TimedCase& timed, const Procedure* protocol, std::span<const Procedure> others)
      : timed_(timed), p_(protocol), others_(others) {}

  CaseFigures figures() && {
    if (p_ != nullptr)
      for (const auto& person : p_->people) f_.lanes.push_back(person.name);
    f_.people_known = f_.lanes.size();
    place();
    f_.time.resize(f_.lanes.size());
    for (std::size_t lane = 0; lane < f_.lanes.size(); ++lane) split(lane);
    count_idle_together();
    if (p_ != nullptr) check_order();
    if (p_ != nullptr) check_lags();
    return std::move(f_);
  }

 private:
  void place() {
    const Ms zero = timed_.seen.empty() ? Ms{0} : timed_.seen.front().start;
    for (const auto& s : timed_.seen) {
      Placed placed{lane_of(s.person), step_of(s.step), false,
                    s.start - zero,    s.end - zero,    s.step};
      if (placed.step) {
        const auto& step = p_->step(placed.step);
        placed.beside = step.is_cover() || !step.attention;
        placed.label = step.title;
      }
      f_.chair_time = std::max(f_.chair_time, placed.end);
      f_.work.push_back(std::move(placed));
    }
  }

  std::size_t lane_of(const std::string& written) {
    const auto name = lower(written);
    for (std::size_t i = 0; i < f_.people_known; ++i)
      if (is_person(p_->people[i], name) ||
          std::any_of(others_.begin(), others_.end(),
                      [&](const Procedure& p) { return is_person(p.people[i], name); }))
        return i;
    for (std::size_t i = f_.people_known; i < f_.lanes.size(); ++i)
      if (lower(f_.lanes[i]) == name) return i;
    f_.lanes.push_back(written);
    return f_.lanes.size() - 1;
  }

  StepIx step_of(const std::string& written) const {
    if (p_ == nullptr) return {};
    const auto name = lower(written);
    for (std::size_t i = 0; i < p_->steps.size(); ++i)
      if (name == p_->steps[i].id || name == lower(p_->steps[i].title) ||
          std::any_of(others_.begin(), others_.end(),
                      [&](const Procedure& p) { return name == lower(p.steps[i].title); }))
        return StepIx{i};
    return {};
  }

  // Work that has the attention first, then what goes on beside it; the rest is apart.
  void split(std::size_t lane) {
    scoring::TimeSplit& sum = f_.time[lane];
    Ms busy_until{0};
    for (std::size_t i = 0; i < f_.work.size(); ++i) {
      const Placed& w = f_.work[i];
      if (w.lane != lane || w.beside) continue;
      if (w.start > busy_until) add_apart(lane, busy_until, w.start, &w);
      sum.work += std::max(Ms{0}, w.end - std::max(w.start, busy_until));
      busy_until = std::max(busy_until, w.end);
    }
    if (busy_until < f_.chair_time) add_apart(lane, busy_until, f_.chair_time, nullptr);
  }

  // What of a gap is cover counts as cover; the rest of it is told as one.
  void add_apart(std::size_t lane, Ms from, Ms to, const Placed* next) {
    Apart apart{lane, from, to, false, ""};
    for (const auto& other : f_.work) {
      const bool ends_it = other.lane != lane && other.end > from && other.end <= to &&
                           to - other.end <= scoring::allowance;
      if (next == nullptr || !ends_it) continue;
      apart.waiting = true;
      apart.for_what = other.label;
    }
    const Ms covered = covered_between(lane, from, to);
    auto& sum = f_.time[lane];
    sum.cover += covered;
    (apart.waiting ? sum.waiting : sum.standby) += to - from - covered;
    if (covered < to - from) f_.apart.push_back(std::move(apart));
  }

  Ms covered_between(std::size_t lane, Ms from, Ms to) const {
    Ms sum{0}, counted = from;
    for (const auto& w : f_.work) {
      if (w.lane != lane || !w.beside) continue;
      const Ms start = std::max(w.start, counted), end = std::min(w.end, to);
      if (end <= start) continue;
      sum += end - start;
      counted = end;
    }
    return sum;
  }

  void count_idle_together() {
    Ms until{0};
    for (const auto& w : f_.work) {  // by start
      if (w.start > until) f_.both_idle += w.start - until;
      until = std::max(until, w.end);
    }
  }

  // As design of the score: the most actions that stand in an order the protocol allows.
  void check_order() {
    f_.checked = true;
    const auto n = f_.work.size();
    std::vector<std::size_t> known;
    std::vector<bool> seen(p_->steps.size());
    for (std::size_t i = 0; i < n; ++i) {
      if (!f_.work[i].step) {
        f_.extra.push_back(i);
        continue;
      }
      known.push_back(i);
      seen[f_.work[i].step.at()] = true;
    }
    const auto kept = keep(known);
    std::vector<bool> placed(p_->steps.size());
    for (std::size_t k = 0; k < known.size(); ++k)
      if (kept[k]) placed[f_.work[known[k]].step.at()] = true;
    for (std::size_t k = 0; k < known.size(); ++k)
      if (!kept[k])
        (placed[f_.work[known[k]].step.at()] ? f_.repeated : f_.out_of_order).push_back(known[k]);
    int steps = 0;
    for (std::size_t s = 0; s < p_->steps.size(); ++s) {
      const bool expected = p_->steps[s].when.empty() && p_->steps[s].unless.empty();
      steps += expected || seen[s];
      if (expected && !seen[s]) f_.omitted.push_back(StepIx{s});
    }
    auto& o = f_.order;
    o.actions = static_cast<int>(n);
    o.steps = steps;
    o.kept = static_cast<int>(std::count(kept.begin(), kept.end(), true));
    o.cost = (o.actions - o.kept) + (o.steps - o.kept);
    const int all = o.actions + o.steps;
    o.fitness = all == 0 ? 1 : 1 - static_cast<double>(o.cost) / all;
  }

  std::vector<bool> keep(const std::vector<std::size_t>& known) const {
    scoring::Poset poset(known.size());
    for (std::size_t i = 0; i < known.size(); ++i)
      for (std::size_t j = i + 1; j < known.size(); ++j) {
        const auto &first = f_.work[known[i]], &second = f_.work[known[j]];
        const bool apart = first.start != second.start || first.step == second.step;
        if (apart && (first.step == second.step || p_->precedes(second.step, first.step)))
          poset.set_below(i, j);
      }
    std::vector<bool> kept;
    scoring::AntichainFinder().largest(poset, kept);
    return kept;
  }

  const Placed* first_of(StepIx s) const {
    const auto at =
        std::find_if(f_.work.begin(), f_.work.end(), [&](const Placed& w) { return w.step == s; });
    return at == f_.work.end() ? nullptr : &*at;
  }

  void check_lags() {
    for (std::size_t i = 0; i < p_->steps.size(); ++i) {
      const Placed* w = first_of(StepIx{i});
      if (w == nullptr) continue;
      for (const auto& link : p_->steps[i].after) {
        const Placed* before = first_of(link.step);
        if (before == nullptr || link.implied) continue;
        const Ms since =
            w->start - (link.from == procedure::Anchor::start ? before->start : before->end);
        if (link.at_least > Ms{0} && since < link.at_least)
          f_.lags.push_back({StepIx{i}, link.step, since - link.at_least});
        if (link.at_most != never && since > link.at_most)
          f_.lags.push_back({StepIx{i}, link.step, since - link.at_most});
      }
    }
  }

  const TimedCase& timed_;
  const Procedure* p_;
  std::span<const Procedure> others_;
  CaseFigures f_;
};

}  // namespace

CaseFigures figures(const TimedCase& timed, const Procedure* protocol,
                    std::span<const Procedure> in_other_words) {
  return Layout(timed, protocol, in_other_words).figures();
}

}  // namespace beforehand::study
