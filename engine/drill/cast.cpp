// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "drill/cast.hpp"

#include "drill/clinician.hpp"

namespace beforehand::drill {

void cast(Run& run, const std::optional<Habit>& habit,
          const std::shared_ptr<timing::WindowFinder>& finder) {
  const auto& people = run.procedure().people;
  for (std::size_t i = 0; i < people.size(); ++i) {
    const PersonIx who{i};
    if (people[i].role == procedure::Role::clinician)
      run.control(who, std::make_unique<ScriptedClinician>(who));
    else if (habit)
      run.control(who, std::make_unique<Bot>(who, *habit, run.session().setup.seed, finder));
  }
}

void cast(Run& run, const std::optional<Habit>& habit) {
  cast(run, habit, std::make_shared<timing::WindowFinder>(run.procedure()));
}

void cast_around(Run& run, const std::vector<bool>& human) {
  std::shared_ptr<timing::WindowFinder> finder;
  const auto& people = run.procedure().people;
  for (std::size_t i = 0; i < people.size(); ++i) {
    const PersonIx who{i};
    if (human[i]) continue;
    if (people[i].role == procedure::Role::clinician) {
      run.control(who, std::make_unique<ScriptedClinician>(who));
      continue;
    }
    if (!finder) finder = std::make_shared<timing::WindowFinder>(run.procedure());
    run.control(who, std::make_unique<Bot>(who, Habit{}, run.session().setup.seed, finder));
  }
}

void cast_around(Run& run, PersonIx trainee) {
  std::vector<bool> human(run.procedure().people.size());
  human[trainee.at()] = true;
  cast_around(run, human);
}

}  // namespace beforehand::drill
