// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/ahead.hpp"

#include <algorithm>

namespace beforehand::stage {
namespace {

using drill::StepState;
using drill::World;
using procedure::Procedure;
using timing::StepTime;

Ms expected_end(const World& world, PersonIx by, StepIx step) {
  if (!by) return never;
  for (const auto& doing : world.person(by).doing)
    if (doing.step == step && !doing.helping) return doing.ends;
  return never;
}

bool lapse_goes_on(const Procedure& procedure, const World& world) {
  for (std::size_t i = 0; i < procedure.steps.size(); ++i)
    if (procedure.steps[i].lapse && world.steps[i].state == StepState::doing) return true;
  return false;
}

}  // namespace

void progress_of(const Procedure& procedure, const World& world, std::vector<StepTime>& progress) {
  progress.assign(procedure.steps.size(), {});
  for (std::size_t i = 0; i < progress.size(); ++i) {
    const auto& step = world.steps[i];
    auto& out = progress[i];
    switch (step.state) {
      case StepState::waiting:
        break;
      case StepState::doing:
      case StepState::paused:
        out = {StepTime::State::doing, step.started, expected_end(world, step.by, StepIx{i})};
        break;
      case StepState::done:
        out = {StepTime::State::done, step.started, step.ended};
        break;
      case StepState::skipped:
        out.state = StepTime::State::skipped;
        break;
    }
  }
}

std::vector<Ahead> LookAhead::find(const World& world) {
  progress_of(procedure_, world, progress_);
  finder_.find(progress_, world.now, windows_);
  std::vector<Ahead> result;
  loose_.clear();
  Ms unused;
  for (std::size_t i = 0; i < procedure_.steps.size(); ++i) {
    const StepIx step{i};
    auto window = windows_[i];
    if (world.steps[i].state != StepState::waiting || !procedure_.may_do(whom_, step)) continue;
    const ActionIx action = procedure_.action_of[i];
    if (!action || drill::counts_for(procedure_, world, action) != step) continue;
    const bool its_turn = drill::conditions_hold(procedure_, world, step, true, unused);
    // Useful it may be already, but what has to come before it still goes on.
    if (!its_turn) window.earliest = std::max(window.earliest, world.now + Ms{1});
    if (window.latest != never)
      result.push_back({step, action, window});
    else if (its_turn && procedure_.step(step).by.front() == whom_)
      loose_.push_back({step, action, window});
  }
  std::stable_sort(result.begin(), result.end(), [](const Ahead& a, const Ahead& b) {
    return a.window.latest < b.window.latest;
  });
  return result;
}

ActionIx held_in_vain(const Procedure& procedure, const World& world, PersonIx whom,
                      const std::vector<Ahead>& ahead) {
  constexpr Ms soon{5000};  // not worth putting it away for
  for (const auto& doing : world.person(whom).doing) {
    if (!doing.cover || !doing.action) continue;
    if (doing.step && !world.finished(doing.step)) continue;
    const bool wanted = std::any_of(ahead.begin(), ahead.end(), [&](const Ahead& prep) {
      return prep.action == doing.action && prep.window.earliest <= world.now + soon;
    });
    const auto& steps = procedure.action(doing.action).steps;
    const bool goes_on = std::any_of(steps.begin(), steps.end(), [&](StepIx step) {
      const auto& covers = procedure.step(step).covers;
      return std::any_of(covers.begin(), covers.end(), [&](StepIx covered) {
        return world.step(covered).state == StepState::doing;
      });
    });
    if (!wanted && !goes_on) return doing.action;
  }
  return {};
}

Ms lapse_until(const Procedure& procedure, const World& world, PersonIx trainee,
               const std::vector<Ahead>& ahead, Ms next_moment, Ms margin) {
  if (!lapse_goes_on(procedure, world) || world.person(trainee).attention() != nullptr)
    return Ms{0};
  Ms until = next_moment;
  for (const auto& prep : ahead) until = std::min(until, prep.window.earliest);
  return until == never ? Ms{0} : until - margin;
}

}  // namespace beforehand::stage
