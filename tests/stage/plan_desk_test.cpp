// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "stage/plan_desk.hpp"

#include <gtest/gtest.h>

#include "playing.hpp"

namespace beforehand::stage {
namespace {

using Stand = Program::Stand;

const procedure::Procedure& tiny() {
  static const auto shelf = tiny_shelf();
  return *shelf.front().procedure;
}

TEST(PlanDesk, FindsThePlanThatPlanningOnTheSpotFinds) {
  PlanDesk desk;
  EXPECT_FALSE(desk.take());
  desk.ask(tiny(), {});
  desk.wait();
  const auto answer = desk.take();
  ASSERT_TRUE(answer);
  EXPECT_TRUE(answer->plan.proven());
  EXPECT_EQ(answer->plan.chair_time, timing::plan(tiny()).chair_time);
  EXPECT_FALSE(answer->explanation.chain.empty());
  EXPECT_FALSE(desk.take()) << "once each time it is asked";
  desk.ask(tiny(), {});
  EXPECT_FALSE(desk.searching()) << "known already";
  EXPECT_TRUE(desk.take());
}

TEST(PlanDesk, ANewQuestionGivesUpTheOldOne) {
  const auto shelf = shipped_shelf();
  PlanDesk desk;
  for (const auto& item : shelf) desk.ask(*item.procedure, {});
  desk.ask(tiny(), {});
  desk.wait();
  const auto answer = desk.take();
  ASSERT_TRUE(answer);
  EXPECT_EQ(answer->plan.steps.size(), tiny().steps.size());
  desk.ask(*shelf.front().procedure, {});
  desk.stop();
  EXPECT_FALSE(desk.searching());
  EXPECT_FALSE(desk.take());
}

TEST(PlanDesk, TheBriefingShowsThePlanAndTheDebriefMeasuresAgainstIt) {
  auto program = program_on(tiny_shelf());
  press(program, Key::enter);
  ASSERT_EQ(program.stand(), Stand::briefing);
  program.settle();
  look_at(program, 1280, 720, 1);  // now it knows how long it is
  press(program, Key::end);
  const auto best = timing::plan(tiny());
  const auto briefing = look_at(program, 1280, 720, 1);
  EXPECT_TRUE(briefing.shows("Chair time " + duration_text(best.chair_time)));
  EXPECT_TRUE(briefing.shows("critical chain"));
  press(program, Key::enter);
  EXPECT_FALSE(program.moves() && program.stand() == Stand::briefing);
  ASSERT_TRUE(play_to_debrief(program));
  program.settle();
  const auto& score = program.debrief()->score();
  EXPECT_TRUE(score.reference_proven);
  timing::PlanRequest request;
  request.happened = scoring::signals_shown(program.sitting()->run().session());
  EXPECT_EQ(score.reference_chair_time, timing::plan(tiny(), request).chair_time);
  EXPECT_TRUE(look_at(program, 1280, 720, 1).shows("proven"));
}

TEST(PlanDesk, APartIsMeasuredAgainstThePlanOfThatPart) {
  auto program = program_on(shipped_shelf());
  for (int i = 0; i < 3; ++i) press(program, Key::tab);
  press(program, Key::right);
  ASSERT_EQ(program.start().choice().part, 1u);
  press(program, Key::enter);
  press(program, Key::enter);
  ASSERT_TRUE(play_to_debrief(program));
  program.settle();
  const auto& sitting = *program.sitting();
  const auto& score = program.debrief()->score();
  EXPECT_TRUE(score.reference_proven);
  EXPECT_LT(score.reference_chair_time, timing::plan(sitting.procedure()).chair_time / 2);
  EXPECT_GT(score.chair_time, score.reference_chair_time / 2);
}

}  // namespace
}  // namespace beforehand::stage
