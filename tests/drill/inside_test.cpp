// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// What lies inside something, as in the emergency kit, cannot be had before that is there; for
// people, bots, the clinician who helps himself, and the plan alike.
#include "play.hpp"

namespace beforehand {
namespace {

using drill::Reason;
using drill::What;
using test::find;
using test::step;

const auto emergency = [] { return test::scenario("scenarios/chair-emergency/scenario.yaml"); };

TEST(Inside, NothingIsTakenOutBeforeItIsThere) {
  const auto p = emergency();
  drill::Run run(p, drill::Setup{});
  drill::cast_around(run, p.who(procedure::Role::assistant));
  const auto fetch = step(p, "fetch-kit"), take_out = step(p, "take-out-adrenaline");
  const auto adrenaline = p.step(take_out).supply;
  drill::Command c;
  c.person = p.who(procedure::Role::assistant);
  c.action = p.action_of[take_out.at()];
  const auto may = [&] { return may_i(p, run.world(), c.person, c.action); };

  EXPECT_EQ(may(), Reason::shut_away);
  EXPECT_TRUE(is_shut_away(p, run.world(), adrenaline));
  run.submit(c);
  EXPECT_EQ(run.session().events.back().what, What::refused);
  EXPECT_EQ(run.session().events.back().value, static_cast<int>(Reason::shut_away));
  // Noticed and said aloud, the second assistant fetches it.
  run.advance_to(std::chrono::seconds{19});
  drill::Command notice = c;
  notice.action = p.action_of[step(p, "notice").at()];
  run.submit(notice);
  while (!run.over() && run.world().step(fetch).state != drill::StepState::done) {
    EXPECT_EQ(may(), run.world().person(c.person).attention() ? Reason::busy : Reason::shut_away);
    run.advance_to(run.now() + Ms{500});
  }
  ASSERT_FALSE(run.over());
  EXPECT_EQ(may(), Reason::none);
  EXPECT_FALSE(is_shut_away(p, run.world(), adrenaline));
}

// The scenario writes no link for it.
TEST(Inside, TakingOutComesAfterFetchingByItself) {
  const auto p = emergency();
  const auto fetch = step(p, "fetch-kit"), take_out = step(p, "take-out-adrenaline");
  EXPECT_TRUE(p.precedes(fetch, take_out));
  const auto& after = p.step(take_out).after;
  const bool implied = std::any_of(after.begin(), after.end(), [&](const procedure::Link& link) {
    return link.step == fetch && link.implied && link.from == procedure::Anchor::end;
  });
  EXPECT_TRUE(implied);
}

TEST(Inside, NobodyWhoPlaysBeginsToTakeItOutBefore) {
  const auto p = emergency();
  const auto fetch = step(p, "fetch-kit"), take_out = step(p, "take-out-adrenaline");
  for (const auto* bot : {"expert", "eager", "shuffled:50", "shuffled:100", "late:10", "asked"}) {
    for (std::uint64_t seed = 1; seed <= 20; ++seed) {
      const auto s = test::play(p, bot, seed);
      const auto* there = find(s, What::step_done, fetch);
      ASSERT_TRUE(there) << bot << ' ' << seed;
      const auto* began = find(s, What::action_started, take_out);
      EXPECT_TRUE(!began || there->at <= began->at) << bot << ' ' << seed;
    }
  }
}

TEST(Inside, TheClinicianAloneBringsBoth) {
  const auto p = emergency();
  const auto s = test::play(p, "absent", 1);
  const auto* there = find(s, What::step_done, step(p, "fetch-kit"));
  const auto* out = find(s, What::step_done, step(p, "take-out-adrenaline"));
  ASSERT_TRUE(there && out);
  EXPECT_LE(there->at, out->at);
  EXPECT_EQ(there->person, p.who(procedure::Role::clinician));
}

}  // namespace
}  // namespace beforehand
