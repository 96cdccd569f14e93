// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "drill/replay.hpp"

#include <algorithm>
#include <cassert>

namespace beforehand::drill {

Replay::Replay(const Procedure& procedure, const Session& told)
    : procedure_(procedure), told_(told) {
  restart();
}

void Replay::restart() {
  run_ = std::make_unique<Run>(procedure_, told_.setup);
  next_ = 0;
}

Ms Replay::end() const {
  const Ms event = told_.events.empty() ? Ms{0} : told_.events.back().at;
  const Ms command = told_.commands.empty() ? Ms{0} : told_.commands.back().at;
  return std::max(event, command);
}

bool Replay::reach_command() {
  if (next_ == told_.commands.size() || run_->over()) return false;
  const auto& c = told_.commands[next_];
  if (c.at > run_->now() || run_->session().events.size() < told_.events_before[next_])
    run_->advance_to(c.at);
  return true;
}

void Replay::apply_command() {
  assert(next_ < told_.commands.size());
  run_->submit(told_.commands[next_++]);
}

void Replay::finish() {
  // Cut off, it may end with what was only known once its moment had passed.
  const Ms beyond{told_.complete() ? 0 : 1};
  if (!told_.events.empty() && !run_->over()) run_->advance_to(told_.events.back().at + beyond);
  if (told_.complete() && told_.events.back().value == 2) run_->abandon();
}

void Replay::to(Ms t) {
  if (t < run_->now()) restart();
  while (next_ < told_.commands.size() && told_.commands[next_].at <= t && reach_command())
    apply_command();
  if (t >= end()) {
    while (reach_command()) apply_command();
    return finish();
  }
  if (!run_->over()) run_->advance_to(t);
}

}  // namespace beforehand::drill
