// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "drill/run.hpp"

#include <random>

#include "drill/recording.hpp"
#include "play.hpp"

namespace beforehand {
namespace {

using drill::Op;
using drill::What;
using test::count;
using test::find;
using test::play;
using test::step;

const char* const bots[] = {"expert",       "late:0",        "late:3",      "late:30",
                            "forgetful:30", "forgetful:100", "shuffled:30", "shuffled:100",
                            "eager",        "asked",         "absent"};

TEST(Run, EveryBotComesToTheEndOnManySeeds) {
  const auto p = test::tiny();
  for (const auto* bot : bots) {
    for (std::uint64_t seed = 1; seed <= 50; ++seed) {
      const auto s = play(p, bot, seed);
      EXPECT_TRUE(s.complete()) << bot << ' ' << seed;
      EXPECT_LT(s.events.back().at, Ms{600'000}) << bot << ' ' << seed;
    }
  }
}

TEST(Run, TheSameInputGivesTheSameRecording) {
  const auto p = test::tiny();
  EXPECT_EQ(to_text(p, play(p, "shuffled:40", 9)), to_text(p, play(p, "shuffled:40", 9)));
  EXPECT_NE(to_text(p, play(p, "shuffled:40", 9)), to_text(p, play(p, "shuffled:40", 10)));
}

// The window advances by frames, the commands by events: where time is cut must not matter.
TEST(Run, WhereTimeIsCutDoesNotMatter) {
  const auto p = test::tiny();
  std::mt19937 random(42);
  for (const auto* bot : bots) {
    for (std::uint64_t seed = 1; seed <= 10; ++seed) {
      const auto whole = to_text(p, play(p, bot, seed));
      drill::Setup setup;
      setup.seed = seed;
      setup.assistant = bot;
      drill::Run run(p, setup);
      test::cast(run, bot);
      while (!run.over()) {
        run.advance_to(run.now() + Ms{std::uniform_int_distribution<int>(0, 700)(random)});
      }
      ASSERT_EQ(to_text(p, run.session()), whole) << bot << ' ' << seed;
    }
  }
}

TEST(Run, WhoAssistsDoesNotChangeHowLongTheClinicianTakes) {
  const auto p = test::tiny();
  const auto with_expert = play(p, "expert", 5);
  const auto with_nobody = play(p, "asked", 5);
  for (const auto* id : {"rinse", "apply", "look"}) {
    EXPECT_EQ(find(with_expert, What::step_started, step(p, id))->value,
              find(with_nobody, What::step_started, step(p, id))->value)
        << id;
  }
}

TEST(Run, TheExpertIsNeverAskedInTheShippedScenarios) {
  for (const auto* id : {"fissure-sealant", "class-ii-composite"}) {
    const auto p = test::scenario(std::string("scenarios/") + id + "/scenario.yaml");
    for (std::uint64_t seed = 1; seed <= 20; ++seed) {
      const auto s = play(p, "expert", seed);
      EXPECT_EQ(s.events.back().value, 0) << id << ' ' << seed;
      EXPECT_EQ(count(s, What::asked), 0) << id << ' ' << seed;
      EXPECT_EQ(count(s, What::helping), 0) << id << ' ' << seed;
      EXPECT_EQ(count(s, What::has_set), 0) << id << ' ' << seed;
    }
  }
}

TEST(Run, LeftAloneTheClinicianAsksThenHelpsHimself) {
  const auto p = test::tiny();
  const auto s = play(p, "absent", 3);
  const auto apply = step(p, "apply");
  const auto* arose = find(s, What::need_arose, apply);
  const auto* asked = find(s, What::asked, apply);
  const auto* helping = find(s, What::helping, apply);
  ASSERT_TRUE(arose && asked && helping);
  EXPECT_EQ(asked->at - arose->at, p.patience);
  EXPECT_EQ(helping->at - arose->at, p.self_help);
}

TEST(Run, AMixThatSetsHasToBeMadeAgain) {
  const auto p = test::tiny_with("working-time: 1 min 30 s", "working-time: 40 s");
  const auto s = play(p, "eager", 2);  // mixes at once
  EXPECT_EQ(count(s, What::has_set), 0);
  const auto long_rinse = test::tiny_with("{least: 8 s, usual: 10 s, most: 14 s}", "140 s");
  const auto spoiled = play(long_rinse, "eager", 2);
  EXPECT_EQ(count(spoiled, What::has_set), 1);
  EXPECT_EQ(count(spoiled, What::prepared), 2);
  EXPECT_TRUE(spoiled.complete());
}

// ---- a person's keys ---------------------------------------------------------------------------

struct Hands {
  explicit Hands(const procedure::Procedure& p) : run(p, drill::Setup{}) {
    test::cast(run, "human");
    me = p.who(procedure::Role::assistant);
  }
  void act(const std::string& step_id, Op op = Op::act) {
    drill::Command c;
    c.person = me;
    c.op = op;
    c.action = run.procedure().action_of[step(run.procedure(), step_id).at()];
    run.submit(c);
  }
  const drill::Event& last() const { return run.session().events.back(); }
  drill::Reason may(const std::string& step_id) const {
    return may_i(run.procedure(), run.world(), me,
                 run.procedure().action_of[step(run.procedure(), step_id).at()]);
  }
  drill::Run run;
  PersonIx me;
};

TEST(Run, ARefusedActionSaysWhyAndChangesNothing) {
  const auto p = test::tiny();
  Hands h(p);
  EXPECT_EQ(h.may("pass-liner"), drill::Reason::not_set_out);
  h.act("pass-liner");
  EXPECT_EQ(h.last().what, What::refused);
  EXPECT_EQ(h.last().value, static_cast<int>(drill::Reason::not_set_out));
  EXPECT_TRUE(h.run.world().person(h.me).doing.empty());
}

TEST(Run, OneActionLinesUpBehindAnother) {
  const auto p = test::tiny();
  Hands h(p);
  h.act("set-out-liner");
  h.act("mix-liner");
  EXPECT_EQ(h.last().what, What::lined_up);
  h.run.advance_to(Ms{60'000});
  EXPECT_TRUE(find(h.run.session(), What::prepared, step(p, "mix-liner")));
}

TEST(Run, WhatIsBrokenOffComesToNothing) {
  const auto p = test::tiny();
  Hands h(p);
  h.act("set-out-liner");
  h.run.advance_to(Ms{1000});
  h.act("set-out-liner", Op::break_off);
  EXPECT_EQ(h.last().what, What::action_broken);
  h.run.advance_to(Ms{20'000});
  EXPECT_EQ(h.run.world().supply(p.step(step(p, "mix-liner")).supply).state,
            procedure::SupplyState::stored);
}

TEST(Run, ACoverLetGoOfPausesTheStepUnderIt) {
  const auto p = test::tiny();
  Hands h(p);
  h.act("suction-rinse");
  h.run.advance_to(Ms{3000});
  h.act("suction-rinse", Op::stop);
  EXPECT_EQ(h.last().what, What::step_paused);
  h.run.advance_to(Ms{5000});
  h.act("suction-rinse");
  EXPECT_EQ(h.last().what, What::step_resumed);
  h.run.advance_to(Ms{60'000});
  const auto rinse = step(p, "rinse");
  const auto* started = find(h.run.session(), What::step_started, rinse);
  const auto* ended = find(h.run.session(), What::step_done, rinse);
  ASSERT_TRUE(started && ended);
  EXPECT_EQ((ended->at - started->at).count(), started->value + 2000);
}

TEST(Run, AnOfferedThingHoldsAHandUntilItIsTakenOrPutBack) {
  const auto p = test::tiny();
  Hands h(p);
  h.act("pass-gauze");
  h.run.advance_to(Ms{2500});
  EXPECT_EQ(free_hands(p, h.run.world(), h.me), 1);
  h.act("pass-gauze", Op::stop);
  EXPECT_EQ(free_hands(p, h.run.world(), h.me), 2);
}

TEST(Run, EveryStepIsPlayedInADrillOfOnePhase) {
  const auto p = test::tiny();
  const auto s = play(p, "expert", 1, "line");
  EXPECT_TRUE(s.complete());
  EXPECT_EQ(s.events.back().value, 0);
  EXPECT_FALSE(find(s, What::step_started, step(p, "rinse")));
  EXPECT_TRUE(find(s, What::step_started, step(p, "apply")));
}

// ---- any keys at any time ----------------------------------------------------------------------

TEST(Run, AnyKeysAtAnyTimeNeverStallOrCrash) {
  const auto p = test::tiny();
  std::mt19937 random(7);
  const auto any = [&](std::size_t n) {
    return std::uniform_int_distribution<std::size_t>(0, n - 1)(random);
  };
  for (int round = 0; round < 300; ++round) {
    drill::Setup setup;
    setup.seed = static_cast<std::uint64_t>(round);
    drill::Run run(p, setup);
    test::cast(run, "human");
    const auto me = p.who(procedure::Role::assistant);
    for (int k = 0; k < 400 && !run.over(); ++k) {
      drill::Command c;
      c.person = me;
      c.op = std::array{Op::act, Op::act, Op::act, Op::stop, Op::break_off}[any(5)];
      c.action = ActionIx{any(p.actions.size())};
      run.submit(c);
      run.advance_to(run.now() + Ms{static_cast<int>(any(3000))});
      EXPECT_GE(free_hands(p, run.world(), me), 0);
    }
    run.play_out();
    ASSERT_TRUE(run.session().complete());
    const auto text = to_text(p, run.session());
    EXPECT_NO_THROW(verify(p, drill::from_text(text, p, "x.jsonl"), "x.jsonl")) << round;
  }
}

// Helping out does several steps at once; what has to wait for so long after the start of one of
// them starts then, and no later.
TEST(Run, ALagFromAStepTheClinicianDidWithoutIsWaitedFor) {
  const auto p = test::tiny_with("after: [apply],\n     says: \"Good.\"}",
                                 "after: [apply, {step: mix-liner, from: start, at-least: 90 s}]}");
  const auto s = play(p, "absent", 3);
  const auto* applied = find(s, What::step_done, step(p, "mix-liner"));
  const auto* looked = find(s, What::step_started, step(p, "look"));
  ASSERT_TRUE(applied);
  ASSERT_TRUE(looked);
  EXPECT_EQ(looked->at, applied->at + std::chrono::seconds{90});
}

// What was to wait for so long after a step of an earlier phase waits that long from the beginning,
// and a signal of an earlier phase still shows.
TEST(Run, ALagFromAnEarlierPhaseCountsFromTheBeginning) {
  const auto p = test::scenario("scenarios/chair-emergency/scenario.yaml");
  int repeated = 0;
  for (std::uint64_t seed = 1; seed <= 10; ++seed) {
    const auto s = play(p, "expert", seed, "five-minutes");
    for (const auto& e : s.events) {
      if (e.what != What::step_started || e.step != step(p, "inject-2")) continue;
      EXPECT_GE(e.at, std::chrono::minutes{5});
      EXPECT_LE(e.at, std::chrono::minutes{6});
      ++repeated;
    }
    EXPECT_TRUE(s.complete()) << seed;
  }
  EXPECT_GE(repeated, 1);
}

TEST(Run, AroundATraineeTheOthersPlayTheirParts) {
  const auto p = test::scenario("scenarios/chair-emergency/scenario.yaml");
  drill::Run run(p, drill::Setup{});
  drill::cast_around(run, p.who(procedure::Role::assistant));
  run.play_out();
  const auto by = [&](const char* id) {
    for (const auto& e : run.session().events) {
      if (e.what == What::action_done && e.step == step(p, id)) return e.person;
    }
    return PersonIx{};
  };
  EXPECT_EQ(by("fetch-kit"), p.who(procedure::Role::second_assistant));
  EXPECT_FALSE(by("draw-1"));  // the trainee did nothing
}

}  // namespace
}  // namespace beforehand
