// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "study/player.hpp"

namespace beforehand::study {

std::string_view key(Measure m) {
  constexpr std::array<std::string_view, measure_count> keys{
      "chair_time_s", "clinician_wait_s", "idle_s", "avoidable_idle_s",
      "both_idle_s",  "requests",         "total"};
  return keys[static_cast<std::size_t>(m)];
}

std::string_view word(Measure m) {
  constexpr std::array<std::string_view, measure_count> words{
      "chair time", "clinician waits", "assistant idle", "avoidable idle",
      "both idle",  "requests",        "total score"};
  return words[static_cast<std::size_t>(m)];
}

Player::Player(const Procedure& procedure, drill::Habit habit)
    : procedure_(procedure),
      habit_(habit),
      finder_(std::make_shared<timing::WindowFinder>(procedure)),
      scorer_(procedure, procedure.who(procedure::Role::assistant)) {}

void Player::play(std::uint64_t seed) {
  drill::Setup setup;
  setup.seed = seed;
  run_.emplace(procedure_, std::move(setup));
  drill::cast(*run_, habit_, finder_);
  run_->play_out();
  score_ = &scorer_.score(run_->session());
}

Outcome Player::outcome() const {
  Outcome o;
  o[Measure::chair_time] = to_seconds(score_->chair_time);
  o[Measure::clinician_wait] = to_seconds(score_->clinician_wait);
  Ms idle{0};
  for (std::size_t i = 0; i < procedure_.people.size(); ++i)
    if (procedure_.people[i].role != procedure::Role::clinician)
      idle += score_->time[i].standby + score_->time[i].waiting + score_->time[i].avoidable;
  o[Measure::idle] = to_seconds(idle);
  const auto assistant = procedure_.who(procedure::Role::assistant);
  o[Measure::avoidable_idle] = to_seconds(score_->time[assistant.at()].avoidable);
  o[Measure::both_idle] = to_seconds(score_->both_idle);
  o[Measure::requests] = score_->requests;
  o[Measure::total] = score_->total;
  return o;
}

}  // namespace beforehand::study
