// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// What somebody keeps that the clinician works with, and what the clinician gets alone while
// another would begin it anew. The scenario is invented.
#include "drill/recording.hpp"
#include "play.hpp"

namespace beforehand {
namespace {

using drill::Op;
using drill::What;
using procedure::Procedure;

constexpr const char* bench = R"(beforehand: 1
id: bench
title: At the bench
summary: Made for tests.
plan: "As it comes."
cautions: ["Made up for tests: never a model for treating anybody."]
pacing: {patience: 4 s, self-help: 12 s}
people:
  clinician: {role: clinician, name: Clinician}
  assistant: {role: assistant, name: Assistant}
places:
  tray: {name: Tray, clock: 3, zone: assistant, motion: II, kind: tray}
devices:
  water: {name: Water line}
supplies:
  tip: {name: Suction tip, icon: suction-tip, at: tray, after-use: ready}
  probe: {name: Probe, icon: probe, at: tray, after-use: ready}
  lamp: {name: Lamp, icon: curing-light, at: tray, after-use: ready}
  paste: {name: Paste, icon: paste, at: tray, after-use: reload, working-time: 10 min}
phases:
  all: {title: All of it}
steps:
  - {id: rinse, title: Rinses, phase: all, by: clinician, takes: 10 s}
  - {id: hold-water, title: Holds the line and the tip, phase: all, by: assistant, does: suction,
     supply: tip, covers: [rinse], devices: [water]}
  - {id: spray, title: Sprays, phase: all, by: clinician, takes: 10 s, after: [rinse], devices: [water],
     severity: major}
  - {id: warm, title: Warms it, phase: all, by: assistant, does: light, supply: lamp, takes: 3 min,
     attention: false}
  - {id: mix, title: Mixes the paste, phase: all, by: assistant, does: mix, supply: paste, takes: 2 min}
  - {id: pass-paste, title: Passes the paste, phase: all, by: assistant, does: pass, supply: paste,
     for: fill, takes: 2 s}
  - {id: fill, title: Fills, phase: all, by: clinician, takes: 10 s, after: [spray], needs: [paste]}
  - {id: probe, title: Probes, phase: all, by: clinician, does: check, supply: probe, takes: 5 s,
     after: [fill]}
  - {id: pass-probe, title: Passes the probe, phase: all, by: assistant, does: pass, supply: probe,
     for: probe-again, takes: 2 s, after: [probe]}
  - {id: probe-again, title: Probes again, phase: all, by: clinician, takes: 5 s, needs: [probe],
     after: [probe]}
)";

class Bench : public testing::Test {
 protected:
  Bench() : p(read()), run(p, {}) { drill::cast(run, std::nullopt); }

  static Procedure read() {
    auto reading = procedure::read(bench);
    EXPECT_TRUE(reading.procedure) << print(reading.problems, "bench.yaml", bench);
    return reading.procedure ? std::move(*reading.procedure) : Procedure{};
  }

  StepIx step(const std::string& id) const { return test::step(p, id); }
  PersonIx assistant() const { return p.who(procedure::Role::assistant); }

  void give(Op op, const std::string& id) {
    drill::Command c;
    c.person = assistant();
    c.op = op;
    c.action = p.action_of[step(id).at()];
    run.submit(c);
  }

  Ms at(What what, const std::string& id) const {
    const auto* e = test::find(run.session(), what, step(id));
    return e ? e->at : never;
  }

  // A recording of it says the same, and follows from its commands.
  void expect_recorded() const {
    const auto text = drill::to_text(p, run.session());
    const auto told = drill::from_text(text, p, "bench");
    EXPECT_EQ(told.events, run.session().events);
    EXPECT_NO_THROW(drill::verify(p, told, "bench"));
  }

  // Nothing is in two hands, or in a hand that does not know of it.
  void expect_one_hand_each() const {
    for (std::size_t s = 0; s < p.supplies.size(); ++s) {
      int hands = 0;
      for (const auto& who : run.world().people) {
        hands += static_cast<int>(std::count(who.holds.begin(), who.holds.end(), SupplyIx{s}));
        for (const auto& d : who.doing) hands += d.supply == SupplyIx{s};
      }
      EXPECT_LE(hands, 1) << p.supplies[s].id << " at " << clock_text(run.now());
    }
  }

  const Procedure p;
  drill::Run run;
};

TEST_F(Bench, ADeviceUnderACoverForEverIsAskedForAndThenTaken) {
  give(Op::act, "hold-water");
  run.play_out();
  EXPECT_LT(run.now(), Ms{20 * 60'000});
  const Ms blocked = at(What::step_done, "rinse");
  EXPECT_EQ(at(What::need_arose, "spray"), blocked);
  EXPECT_EQ(at(What::asked, "spray"), blocked + p.patience);
  EXPECT_EQ(at(What::helping, "spray"), blocked + p.self_help);
  const Ms taken = at(What::helped, "spray");
  EXPECT_GT(taken, at(What::helping, "spray"));
  EXPECT_EQ(at(What::step_started, "spray"), taken);
  const auto* asked = test::find(run.session(), What::asked, step("spray"));
  ASSERT_TRUE(asked);
  EXPECT_EQ(asked->value, 0) << "one past the last of its needs";
  EXPECT_EQ(asked->action, p.action_of[step("hold-water").at()]);
  EXPECT_FALSE(drill::covering(p, run.world(), step("hold-water")));
  expect_recorded();
}

TEST_F(Bench, WhoLetsGoWhenAskedIsNotTakenFrom) {
  give(Op::act, "hold-water");
  run.advance_to(Ms{15'500});
  EXPECT_NE(at(What::asked, "spray"), never);
  give(Op::stop, "hold-water");
  run.play_out();
  EXPECT_EQ(at(What::step_started, "spray"), Ms{15'500});
  EXPECT_EQ(at(What::helping, "spray"), never);
  expect_recorded();
}

TEST_F(Bench, NobodyIsAskedForWhatOnlyTakesItsTime) {
  run.play_out();
  for (const auto& e : run.session().events)
    EXPECT_FALSE(e.what == What::asked && e.action) << clock_text(e.at);
}

TEST_F(Bench, WhatIsHeldOutForEverIsTakenToo) {
  give(Op::act, "pass-probe");  // too soon, and so held out in vain
  run.play_out();
  EXPECT_LT(run.now(), Ms{20 * 60'000});
  EXPECT_NE(at(What::asked, "probe"), never);
  EXPECT_EQ(at(What::step_started, "probe"), at(What::helped, "probe"));
  expect_recorded();
}

// Nobody came; while the clinician gets the paste, it is mixed after all. Whoever has it first has
// it.
TEST_F(Bench, WhatIsBegunAnewWhileTheClinicianGetsItIsDroppedWhenItIsThere) {
  while (at(What::helping, "fill") == never) run.advance_to(run.now() + Ms{500});
  const auto* gets = run.world().person(p.who(procedure::Role::clinician)).attention();
  ASSERT_TRUE(gets);
  run.advance_to(gets->ends - Ms{1000});
  give(Op::act, "mix");
  while (!run.over()) {
    run.advance_to(run.now() + Ms{500});
    expect_one_hand_each();
  }
  EXPECT_EQ(at(What::action_broken, "mix"), at(What::helped, "fill"));
  EXPECT_EQ(at(What::step_started, "fill"), at(What::helped, "fill"));
  EXPECT_EQ(at(What::action_done, "mix"), never);
  expect_recorded();
}

// Whoever was at it drops it, and nothing else that goes on.
TEST_F(Bench, WhatTheClinicianGetsAloneIsDroppedAndNothingBeside) {
  run.advance_to(Ms{120'000});
  give(Op::act, "warm");
  give(Op::act, "mix");
  while (at(What::helping, "fill") == never && !run.over()) run.advance_to(run.now() + Ms{500});
  ASSERT_FALSE(run.over());
  EXPECT_EQ(at(What::action_broken, "mix"), at(What::helping, "fill"));
  EXPECT_EQ(at(What::action_broken, "warm"), never);
  EXPECT_EQ(run.world().step(step("warm")).state, drill::StepState::doing);
  run.play_out();
  expect_recorded();
}

}  // namespace
}  // namespace beforehand
