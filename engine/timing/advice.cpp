// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "timing/advice.hpp"

#include <algorithm>

#include "timing/applies.hpp"
#include "timing/windows.hpp"

namespace beforehand::timing {
namespace {

using procedure::Procedure;
using procedure::Role;

constexpr Ms shortest_window{2000};

// Of a person's own steps, and of the covers, which last as long as what they cover.
Ms busy_time(const Procedure& p, PersonIx who) {
  Ms busy{0};
  for (const auto& step : p.steps) {
    if (step.by.front() != who || !applies(step, {})) continue;
    busy += step.reach + step.takes.usual;
    for (const StepIx covered : step.covers)
      if (applies(p.step(covered), {})) busy += p.step(covered).takes.usual;
  }
  return busy;
}

void warn_of_short_windows(const Procedure& p, std::vector<Problem>& problems) {
  std::vector<Window> found;
  windows(p, std::vector<StepTime>(p.steps.size()), Ms{0}, found);
  for (std::size_t i = 0; i < p.steps.size(); ++i) {
    const auto& step = p.steps[i];
    const auto& window = found[i];
    const bool clinicians = p.person(step.by.front()).role == Role::clinician;
    // What comes first of all nobody has to be quick for: it begins when the drill does.
    const bool first = window.earliest == Ms{0};
    if (clinicians || first || window.latest == never || window.earliest == never) continue;
    const auto length = window.latest - window.earliest;
    if (length >= shortest_window || length < Ms{0}) continue;
    problems.push_back(
        {Problem::Kind::warning, step.mark,
         say("{} must begin within {} of the first moment at which it is any use; people "
             "need about a second for that alone; let it come after an earlier step if it may",
             step.id, duration_text(length))});
  }
}

void warn_of_idle(const Procedure& p, std::vector<Problem>& problems) {
  Ms lapse{0};
  for (const auto& step : p.steps)
    if (step.lapse && applies(step, {})) lapse += step.takes.usual;
  const Ms time = std::max(Ms{0}, earliest_finish(p, {}) - lapse);
  for (std::size_t i = 0; i < p.people.size(); ++i) {
    const auto idle = time - busy_time(p, PersonIx{i});
    if (p.people[i].role == Role::clinician || 3 * idle <= time) continue;
    problems.push_back(
        {Problem::Kind::warning, p.people[i].mark,
         say("{} has nothing to do for {} of {} at the least; give more to do, or mark the "
             "stretches in which nothing can be needed with \"lapse: true\"",
             p.people[i].id, duration_text(idle), duration_text(time))});
  }
}

}  // namespace

std::vector<Problem> advice(const Procedure& p) {
  std::vector<Problem> problems;
  warn_of_short_windows(p, problems);
  warn_of_idle(p, problems);
  sort_by_place(problems);
  return problems;
}

}  // namespace beforehand::timing
