// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "drill/replay.hpp"

#include "play.hpp"

namespace beforehand {
namespace {

using drill::checksum;
using drill::Replay;

// The room at a moment does not depend on how one came there.
TEST(Replay, AMomentIsTheSameFromAnywhere) {
  const auto p = test::scenario("scenarios/fissure-sealant/scenario.yaml");
  for (const char* habit : {"expert", "late:4", "shuffled:50", "absent"}) {
    const auto session = test::play(p, habit, 3);
    Replay onward(p, session), about(p, session);
    const Ms end = onward.end();
    ASSERT_GT(end, Ms{60'000}) << habit;
    for (Ms t{0}; t <= end; t += Ms{1733}) {
      onward.to(t);
      about.to(end - t);  // from behind, or ahead
      about.to(t);
      EXPECT_EQ(onward.now(), t);
      EXPECT_EQ(checksum(onward.world()), checksum(about.world())) << habit << " at " << t.count();
    }
  }
}

TEST(Replay, ItsEndIsTheSessionItself) {
  const auto p = test::tiny();
  for (const char* habit : {"expert", "forgetful:40", "absent"}) {
    const auto session = test::play(p, habit, 5);
    Replay replay(p, session);
    replay.to(replay.end());
    EXPECT_EQ(replay.played().events, session.events) << habit;
    replay.to(replay.end() + Ms{5000});
    EXPECT_EQ(replay.played().events, session.events) << habit;
    replay.to(Ms{1000});
    replay.to(replay.end());
    EXPECT_EQ(replay.played().events, session.events) << habit;
  }
}

// Standing still is known only once its moment has passed; everything else at its moment.
TEST(Replay, HoldsWhatWasRecordedUpToTheMoment) {
  const auto p = test::tiny();
  const auto session = test::play(p, "late:3", 9);
  Replay replay(p, session);
  for (const auto& event : session.events) {
    replay.to(event.at);
    const auto& played = replay.played().events;
    ASSERT_LE(played.size(), session.events.size());
    EXPECT_TRUE(std::equal(played.begin(), played.end(), session.events.begin()));
    if (!played.empty()) {
      EXPECT_LE(played.back().at, event.at);
    }
    if (played.size() < session.events.size()) {
      const auto& next = session.events[played.size()];
      const bool stands_still = next.what == drill::What::need_arose && next.at == event.at;
      EXPECT_TRUE(next.at > event.at || stands_still) << word(next.what) << ' ' << next.at.count();
    }
  }
}

TEST(Replay, OneBrokenOffEndsWhereItWasBrokenOff) {
  const auto p = test::tiny();
  drill::Run run(p, {});
  test::cast(run, "expert");
  run.advance_to(Ms{12'345});
  run.abandon();
  Replay replay(p, run.session());
  EXPECT_EQ(replay.end(), Ms{12'345});
  replay.to(replay.end());
  EXPECT_EQ(replay.played().events, run.session().events);
  EXPECT_TRUE(replay.world().over);
}

}  // namespace
}  // namespace beforehand
