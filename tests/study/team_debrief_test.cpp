// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "study/team_debrief.hpp"

#include <algorithm>

#include "../drill/play.hpp"

namespace beforehand::study {
namespace {

using test::play;

TEST(TeamDebrief, WhoeverWaitedIsNamedWithTheReason) {
  const auto p = test::tiny();
  const auto d = team_debrief(p, play(p, "late:6", 7));
  ASSERT_FALSE(d.waits.empty());
  Ms waited{0};
  for (const auto& w : d.waits) {
    EXPECT_NE(w.who, w.for_whom);
    EXPECT_GT(w.wait, Ms{0});
    if (p.person(w.who).role == procedure::Role::clinician) waited += w.wait;
  }
  EXPECT_GE(waited, d.score.clinician_wait);  // two waits may overlap
  for (std::size_t i = 1; i < d.waits.size(); ++i) EXPECT_GE(d.waits[i - 1].wait, d.waits[i].wait);
  EXPECT_TRUE(
      std::any_of(d.waits.begin(), d.waits.end(), [](const auto& w) { return !w.why.empty(); }));
}

TEST(TeamDebrief, TheAssistantWaitsForTheClinicianToo) {
  const auto p = test::tiny();
  const auto d = team_debrief(p, play(p, "expert", 7));
  const auto assistant = p.who(procedure::Role::assistant);
  EXPECT_TRUE(std::any_of(d.waits.begin(), d.waits.end(),
                          [&](const TeamWait& w) { return w.who == assistant; }));
  EXPECT_EQ(d.unasked, d.hand_overs.size());
}

TEST(TeamDebrief, NobodyBusyAddsUpToNoMoreThanBothIdle) {
  const auto p = test::tiny();
  const auto d = team_debrief(p, play(p, "asked", 7));
  Ms sum{0};
  for (const auto& n : d.nobody_busy) sum += n.to - n.from;
  EXPECT_GT(sum, Ms{0});
  EXPECT_LE(sum, d.both_idle);
  EXPECT_LT(d.unasked, d.hand_overs.size());
}

TEST(TeamDebrief, NoMoreThanTwoThingsEach) {
  const auto p = test::tiny();
  for (const auto* bot : {"absent", "late:6", "expert"})
    for (const auto& change : team_debrief(p, play(p, bot, 7)).change) EXPECT_LE(change.size(), 2u);
}

}  // namespace
}  // namespace beforehand::study
