// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "scoring/time_use.hpp"

#include <algorithm>

namespace beforehand::scoring {

double TimeSplit::utilisation() const {
  return total() == Ms{0}
             ? 0.0
             : static_cast<double>((work + cover).count()) / static_cast<double>(total().count());
}

const std::vector<Stretch>& AvoidableIdle::find(const Frame& f, const Trace& t,
                                                const std::vector<HindsightStep>& hindsight) {
  found_.clear();
  if (t.idle.empty()) return found_;
  for (std::size_t s = 0; s < hindsight.size(); ++s)
    if (hindsight[s].trainees && hindsight[s].opened != never)
      count_back(f, t, hindsight[s], StepIx{s});
  merge();
  return found_;
}

namespace {

/// When a step that was never done stopped to matter: the first step of somebody else's that should
/// have followed it had begun without it.
Ms went_on_without(const Frame& f, const Trace& t, StepIx s) {
  Ms first = t.end;
  for (std::size_t i = 0; i < t.steps.size(); ++i)
    if (f.procedure.precedes(s, StepIx{i}) && !f.prefers_trainee(StepIx{i}))
      first = std::min(first, t.steps[i].started);
  return first;
}

}  // namespace

void AvoidableIdle::count_back(const Frame& f, const Trace& t, const HindsightStep& step,
                               StepIx s) {
  const StepTrace& was = t.steps[s.at()];
  const Ms gone = was.ended == never ? went_on_without(f, t, s) : std::min(was.ended, t.end);
  const bool again = was.missed != never;  // a cover: only the gap can have been idle
  const Ms start = again ? was.acted : was.started != never ? was.started : gone;
  const Ms end = was.by_trainee ? was.acted : gone;
  Ms left = end - (again ? was.missed : step.due) - allowance;
  const Ms from = (again ? was.missed : step.opened) + allowance;
  if (left <= Ms{0} || from >= start) return;
  for (auto slot = t.idle.rbegin(); slot != t.idle.rend() && slot->to > from; ++slot) {
    if (slot->from >= start || slot->free_hands < f.procedure.step(s).hands) continue;
    const Ms slot_end = std::min(slot->to, start);
    const Ms slot_start = std::max({slot->from, from, slot_end - left});
    if (slot_start >= slot_end) continue;
    found_.push_back({Stretch::Kind::avoidable, f.whom, slot_start, slot_end, s, {}});
    left -= slot_end - slot_start;
    if (left <= Ms{0}) return;
  }
}

void AvoidableIdle::merge() {
  std::stable_sort(found_.begin(), found_.end(),
                   [](const Stretch& a, const Stretch& b) { return a.from < b.from; });
  std::size_t kept = 0;
  for (std::size_t i = 0; i < found_.size(); ++i) {
    Stretch next = found_[i];
    if (kept > 0) next.from = std::max(next.from, found_[kept - 1].to);
    if (next.from < next.to) found_[kept++] = next;
  }
  found_.resize(kept);
}

namespace {

void add(TimeSplit& sum, const Stretch& s) {
  const Ms length = s.to - s.from;
  switch (s.kind) {
    case Stretch::Kind::work:
      sum.work += length;
      break;
    case Stretch::Kind::cover:
      sum.cover += length;
      break;
    case Stretch::Kind::waiting:
      sum.waiting += length;
      break;
    case Stretch::Kind::standby:
      sum.standby += length;
      break;
    case Stretch::Kind::avoidable:
      sum.avoidable += length;
      break;
  }
}

/// Appends an idle stretch, cut at the avoidable ones in it.
void append_cut(Stretch idle, const std::vector<Stretch>& avoidable, std::vector<Stretch>& out) {
  for (const Stretch& a : avoidable) {
    if (a.to <= idle.from || a.from >= idle.to) continue;
    if (a.from > idle.from) {
      Stretch head = idle;
      head.to = a.from;
      out.push_back(head);
    }
    out.push_back(a);
    idle.from = a.to;
  }
  if (idle.from < idle.to) out.push_back(idle);
}

}  // namespace

void split_time(const Frame& f, const Trace& t, const std::vector<Stretch>& avoidable,
                std::vector<Stretch>& stretches, std::vector<TimeSplit>& sums) {
  stretches.clear();
  sums.assign(t.stretches.size(), {});
  for (const auto& list : t.stretches)
    for (const Stretch& s : list)
      if (s.person == f.whom && s.kind == Stretch::Kind::standby && !avoidable.empty())
        append_cut(s, avoidable, stretches);
      else
        stretches.push_back(s);
  for (const Stretch& s : stretches) add(sums[s.person.at()], s);
}

double idle_score(const TimeSplit& time) {
  const auto busy = static_cast<double>((time.avoidable + time.work + time.cover).count());
  return busy > 0 ? 1 - static_cast<double>(time.avoidable.count()) / busy : 1.0;
}

}  // namespace beforehand::scoring
