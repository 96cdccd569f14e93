// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <array>
#include <cstdint>
#include <memory>
#include <optional>
#include <string_view>

#include "drill/cast.hpp"
#include "scoring/scorer.hpp"

namespace beforehand::study {

using procedure::Procedure;

/// What a run is measured by.
enum class Measure : std::uint8_t {
  chair_time,      ///< s
  clinician_wait,  ///< s: how long the clinician stood still
  idle,            ///< s: assistants neither at work nor covering
  avoidable_idle,  ///< s: of it the assistant's while something could have been begun
  both_idle,       ///< s: nobody at work nor covering
  requests,        ///< how often the clinician had to ask
  total,           ///< points of 100
};
inline constexpr std::size_t measure_count = 7;
inline constexpr std::array<Measure, measure_count> measures{
    Measure::chair_time, Measure::clinician_wait, Measure::idle, Measure::avoidable_idle,
    Measure::both_idle,  Measure::requests,       Measure::total};
/// "chair_time_s", "requests": the key in what is put out for programs.
std::string_view key(Measure);
/// "chair time", "requests": for people.
std::string_view word(Measure);
/// Whether less of it is better.
constexpr bool less_is_better(Measure m) { return m != Measure::total; }

/// One run's figures, by measure.
struct Outcome {
  std::array<double, measure_count> figures{};
  double operator[](Measure m) const { return figures[static_cast<std::size_t>(m)]; }
  double& operator[](Measure m) { return figures[static_cast<std::size_t>(m)]; }
  friend bool operator==(const Outcome&, const Outcome&) = default;
};

/// Plays and scores one session after the other of a procedure, with a scripted clinician and one
/// bot for everybody else; keeps what does not change, and its memory. One a thread.
class Player {
 public:
  /// `procedure` must outlive the player.
  Player(const Procedure& procedure, drill::Habit habit);

  /// The session and score are the player's, and good until its next call.
  void play(std::uint64_t seed);
  const drill::Session& session() const { return run_->session(); }
  const scoring::Score& score() const { return *score_; }
  Outcome outcome() const;

 private:
  const Procedure& procedure_;
  drill::Habit habit_;
  std::shared_ptr<timing::WindowFinder> finder_;
  scoring::Scorer scorer_;
  std::optional<drill::Run> run_;
  const scoring::Score* score_ = nullptr;
};

}  // namespace beforehand::study
