// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// The shipped scenarios as they are played: what harms at the chair must harm in the drill. The
// rules are those of scenarios_trade_test.cpp, where their sources stand.
#include <memory>

#include "drill/cast.hpp"
#include "scoring/score.hpp"
#include "shipped_scenarios.hpp"

namespace beforehand::drill {
namespace {

using namespace std::chrono_literals;
using procedure::Field;
using procedure::Role;
using procedure::scenario;
using procedure::Verb;

struct Drill {
  Procedure p;
  Run run;
  PersonIx me = p.who(Role::assistant);

  Drill(const std::string& id, const std::string& assistant, std::uint64_t seed, PhaseIx phase = {})
      : p(scenario(id)), run(p, setup(seed, phase)) {
    cast(run, habit_from(assistant));  // "human" is no habit
  }

  static Setup setup(std::uint64_t seed, PhaseIx phase) {
    Setup s;
    s.seed = seed;
    s.phase = phase;
    return s;
  }

  void act(Verb verb, const std::string& supply) {
    for (std::size_t a = 0; a < p.actions.size(); ++a) {
      const auto& kind = p.actions[a];
      if (kind.verb != verb || !kind.supply || p.supply(kind.supply).id != supply) continue;
      Command c;
      c.at = run.now();
      c.person = me;
      c.action = ActionIx{a};
      return run.submit(c);
    }
    FAIL() << "no such action on " << supply;
  }

  const Event* first(What what, const std::string& step) const {
    for (const auto& e : run.session().events) {
      if (e.what == what && e.step == procedure::find(p, step)) return &e;
    }
    return nullptr;
  }

  scoring::Score score() {
    run.play_out();
    return scoring::score(p, run.session(), me);
  }

  bool sees(Field f) const { return run.world().field.test(static_cast<std::size_t>(f)); }
};

class Drills : public testing::TestWithParam<std::string> {};

INSTANTIATE_TEST_SUITE_P(Shipped, Drills, testing::Values("fissure-sealant", "class-ii-composite"),
                         procedure::test_name);

TEST_P(Drills, ExpertIsInTimeAndAbsentIsNotInTheWholeAndInEveryPhase) {
  const auto phases = scenario(GetParam()).phases.size();
  for (std::size_t phase = 0; phase <= phases; ++phase) {
    const auto which = phase < phases ? PhaseIx{phase} : PhaseIx{};
    for (std::uint64_t seed = 1; seed <= 5; ++seed) {
      EXPECT_GE(Drill(GetParam(), "expert", seed, which).score().total, 97) << phase;
      EXPECT_LT(Drill(GetParam(), "absent", seed, which).score().total, 40) << phase;
    }
  }
}

TEST(ClassIIDrill, ClampPassedWithoutFlossIsUnsafe) {
  Drill d("class-ii-composite", "human", 1);
  d.act(Verb::pass, "dam-clamp");
  const auto* event = d.first(What::unready_start, "pass-clamp");
  ASSERT_TRUE(event);
  EXPECT_EQ(event->value, 1);
  EXPECT_EQ(d.score().verdict, scoring::Verdict::repeat);
}

TEST(FissureSealantDrill, LightBeforeTheShieldIsUnsafe) {
  Drill d("fissure-sealant", "human", 1);
  d.act(Verb::light, "curing-light");
  const auto* event = d.first(What::unready_start, "cure");
  ASSERT_TRUE(event);
  EXPECT_EQ(event->value, 1);
  EXPECT_EQ(d.score().verdict, scoring::Verdict::repeat);
}

TEST(FissureSealantDrill, SealantOpenedAtTheBeginningHasSetWhenItIsWanted) {
  Drill d("fissure-sealant", "human", 1);
  d.act(Verb::open, "sealant");
  d.run.advance_to(46s);
  const auto* opened = d.first(What::prepared, "open-sealant");
  ASSERT_TRUE(opened);
  EXPECT_EQ(d.run.world().supply(opened->supply).state, procedure::SupplyState::set);
}

TEST(ClassIIDrill, WithNobodyAtTheSuctionTheDentineIsOverEtched) {
  Drill d("class-ii-composite", "absent", 1);
  d.run.play_out();
  const auto* event = d.first(What::lag_overrun, "rinse-etch");
  ASSERT_TRUE(event);
  EXPECT_EQ(event->cause, procedure::find(d.p, "etch-dentine"));
}

TEST(ClassIIDrill, BloodShowsFromTheSignalUntilItIsStopped) {
  int bled = 0;
  for (std::uint64_t seed = 1; seed <= 20; ++seed) {
    Drill d("class-ii-composite", "expert", seed);
    d.run.play_out();
    const auto* stopped = d.first(What::step_done, "stop-bleeding");
    if (!stopped) continue;
    ++bled;
    Drill again("class-ii-composite", "expert", seed);
    again.run.advance_to(stopped->at - 1ms);
    EXPECT_TRUE(again.sees(Field::bleeding));
    again.run.advance_to(stopped->at);
    EXPECT_FALSE(again.sees(Field::bleeding));
  }
  EXPECT_GE(bled, 1);
}

}  // namespace
}  // namespace beforehand::drill
