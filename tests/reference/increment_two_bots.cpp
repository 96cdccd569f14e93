// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// The increment example of multiple-activity arithmetic, played by two bots: the clinician places
// 25 s and checks 5 s, the assistant cures 20 s and loads 10 s. Loading only after the check, a
// cycle takes 60 s and both are busy for half of it; loading while the clinician places, 50 s and
// 60 % (arithmetic on planning times). The durations have no spread, so the drill must come to
// these very figures.
#include <gtest/gtest.h>

#include "../drill/play.hpp"
#include "scoring/score.hpp"

namespace beforehand::scoring {
namespace {

constexpr const char* file = "tests/scenarios/good/increments.yaml";

Procedure read_from(std::string text) {
  auto reading = procedure::read(text);
  EXPECT_TRUE(reading.procedure) << print(reading.problems, file, text);
  return reading.procedure ? *reading.procedure : Procedure{};
}

/// The exercise with the loading kept until the check is over.
std::string loading_after_the_check(std::string text) {
  for (const std::string k : {"1", "2", "3", "4"}) {
    const std::string meanwhile = "{step: place-" + k + ", from: start}";
    const auto at = text.find(meanwhile);
    EXPECT_NE(at, std::string::npos);
    text.replace(at, meanwhile.size(), "check-" + k);
  }
  return text;
}

/// Seconds from one increment to the next.
double cycle(const Procedure& p, const Session& s, const std::string& from, const std::string& to) {
  const auto started = [&](const std::string& id) {
    return test::find(s, drill::What::step_started, test::step(p, id))->at;
  };
  return to_seconds(started(to) - started(from));
}

/// The share of a stretch of time in which a person worked.
double busy(const Score& s, PersonIx who, Ms from, Ms to) {
  Ms sum{0};
  for (const auto& stretch : s.stretches)
    if (stretch.person == who && stretch.kind == Stretch::Kind::work)
      sum += std::max(Ms{0}, std::min(to, stretch.to) - std::max(from, stretch.from));
  return to_seconds(sum) / to_seconds(to - from);
}

void expect_cycles(const Procedure& p, double seconds, double share) {
  const Session s = test::play(p, "expert");
  EXPECT_DOUBLE_EQ(cycle(p, s, "place-1", "place-2"), seconds);
  EXPECT_DOUBLE_EQ(cycle(p, s, "place-2", "place-3"), seconds);
  EXPECT_DOUBLE_EQ(cycle(p, s, "place-3", "place-4"), seconds);
  const PersonIx clinician = p.who(procedure::Role::clinician);
  const PersonIx assistant = p.who(procedure::Role::assistant);
  const Score score = scoring::score(p, s, assistant);
  const Ms from = test::find(s, drill::What::step_started, test::step(p, "place-1"))->at;
  const Ms to = from + Ms{static_cast<std::int64_t>(4000 * seconds)};
  EXPECT_NEAR(busy(score, clinician, from, to), share, 1e-9);
  EXPECT_NEAR(busy(score, assistant, from, to), share, 1e-9);
  EXPECT_DOUBLE_EQ(score.total, 100) << "done as the exercise asks, it is done well";
}

TEST(IncrementReference, LoadedWhileTheClinicianPlacesACycleTakesFiftySeconds) {
  const auto text = procedure::load_text(std::string(PROJECT_DIR) + "/" + file);
  expect_cycles(read_from(text), 50, 0.6);
}

TEST(IncrementReference, LoadedAfterTheCheckACycleTakesSixtySeconds) {
  const auto text = procedure::load_text(std::string(PROJECT_DIR) + "/" + file);
  expect_cycles(read_from(loading_after_the_check(text)), 60, 0.5);
}

}  // namespace
}  // namespace beforehand::scoring
