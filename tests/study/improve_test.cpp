// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "study/improve.hpp"

#include <algorithm>

#include "../drill/play.hpp"
#include "procedure/edit.hpp"

namespace beforehand::study {
namespace {

// Invented: two preps in the way of one step, everything out of easy reach, a remark to be kept.
constexpr const char* slow_pair = R"(beforehand: 1
id: slow-pair
title: A slow pair
summary: Invented.
plan: "Paste, then look."
cautions: ["Invented."]
people:
  clinician: {role: clinician, name: Clinician}
  assistant: {role: assistant, name: Assistant}
places:
  tray: {name: Tray, clock: 3, zone: assistant, motion: II, kind: tray}
  shelf: {name: Shelf, clock: 3.5, zone: assistant, motion: V, kind: counter}  # behind the chair
supplies:
  tip: {name: Tip, icon: syringe, at: tray, stored: shelf}
  paste: {name: Paste, icon: paste, at: shelf, working-time: 2 min}
phases:
  all: {title: All of it}
steps:
  - id: set-out-tip  # first of all
    title: Sets out the tip
    phase: all
    by: assistant
    does: set-out
    supply: tip
    takes: 6 s
  - {id: rinse, title: Rinses, phase: all, by: clinician, takes: {least: 8 s, usual: 10 s, most: 12 s}}
  - {id: mix, title: Mixes the paste, phase: all, by: assistant, does: mix, supply: paste, takes: 10 s,
     after: rinse}
  - {id: pass, title: Passes the paste, phase: all, by: assistant, does: pass, supply: paste, for: fill,
     takes: 2 s}
  - {id: fill, title: Fills, phase: all, by: clinician, takes: 10 s, needs: paste, after: rinse}
  - {id: hold, title: Holds the tip there, phase: all, by: assistant, does: use, supply: tip, takes: 5 s,
     after: fill}
  - {id: look, title: Looks, phase: all, by: clinician, takes: 5 s, after: [fill, hold]}
)";

Planned slow() { return planned(slow_pair, {}); }

Improvements found() {
  ImproveRequest r;
  r.runs.count = 100;
  r.runs.threads = 2;
  r.plan_request = [] { return timing::PlanRequest{}; };
  return improve(slow(), r);
}

const Improvement* find(const Improvements& all, Change::Kind kind) {
  const auto at = std::find_if(all.found.begin(), all.found.end(),
                               [&](const Improvement& i) { return i.change.kind == kind; });
  return at == all.found.end() ? nullptr : &*at;
}

TEST(Improve, FindsTheEarlierCueAndWhatItSaves) {
  const auto all = found();
  const auto* cue = find(all, Change::Kind::earlier_cue);
  ASSERT_NE(cue, nullptr);
  EXPECT_EQ(cue->change.words,
            "Begin \"Mixes the paste\" as \"Rinses\" begins, not when it is done.");
  // Mixing (10 s and 3 s of reach) then takes place while rinsing (10 s), which it followed.
  EXPECT_GT(cue->plan_gain, Ms{0});
  EXPECT_TRUE(cue->plan_proven);
  EXPECT_GT(cue->gain_s(), 1);
}

TEST(Improve, FindsTheNearerPlaces) {
  const auto all = found();
  const auto* supply = find(all, Change::Kind::nearer_supply);
  ASSERT_NE(supply, nullptr);
  // The paste is mixed and passed, 3 s of reach each.
  EXPECT_EQ(supply->plan_gain, Ms{6000});
  EXPECT_NEAR(supply->gain_s(), 6, 0.01);
  EXPECT_NE(find(all, Change::Kind::nearer_place), nullptr);
}

TEST(Improve, TheMostSavedComesFirstAndOnlyWhatSavesIsTold) {
  const auto all = found();
  EXPECT_EQ(all.looked_at, all.possible);
  for (std::size_t i = 1; i < all.found.size(); ++i)
    EXPECT_GE(all.found[i - 1].gain_s(), all.found[i].gain_s());
  for (const auto& i : all.found)
    EXPECT_TRUE(i.plan_gain > Ms{0} || i.gain_s() > 0) << i.change.words;
}

TEST(Improve, NeverGivesTheClinicianOwnWorkAwayNorPreparesWhatSets) {
  for (const auto& c : possible_changes(slow().procedure))
    for (const auto& e : c.edits) {
      EXPECT_EQ(e.path.find("steps/rinse/by"), std::string::npos);
      EXPECT_EQ(e.path.find("supplies/paste/starts"), std::string::npos);
    }
}

TEST(Improve, BeforeThePatientSitsTheStepGoesAndItsSupplyStartsThere) {
  const auto changes = possible_changes(slow().procedure);
  const auto at = std::find_if(changes.begin(), changes.end(),
                               [](const Change& c) { return c.kind == Change::Kind::beforehand; });
  ASSERT_NE(at, changes.end());
  const auto text = applied(std::string(slow_pair), *at);
  const auto then = planned(text, {});
  EXPECT_EQ(then.procedure.steps.size(), 6u);
  EXPECT_EQ(then.procedure.supplies[0].starts, procedure::SupplyState::set_out);
  EXPECT_NE(text.find("# behind the chair"), std::string::npos);
}

TEST(Improve, PreparingBeforehandIsFoundWhereItPays) {
  std::string slow_setting_out = slow_pair;
  slow_setting_out.replace(slow_setting_out.find("takes: 6 s"), 10, "takes: 40 s");
  ImproveRequest r;
  r.runs.count = 20;
  r.plan_request = [] { return timing::PlanRequest{}; };
  const auto all = improve(planned(slow_setting_out, {}), r);
  const auto* beforehand = find(all, Change::Kind::beforehand);
  ASSERT_NE(beforehand, nullptr);
  EXPECT_GT(beforehand->plan_gain, Ms{0});
  EXPECT_GT(beforehand->gain_s(), 5);
}

TEST(Improve, TheOtherRoleIsFoundWhereTheAssistantIsSlow) {
  const auto yaml = procedure::load_text(PROJECT_DIR "/scenarios/class-ii-composite/scenario.yaml");
  ImproveRequest r;
  r.habit = *drill::habit_from("late:4");
  r.runs.count = 20;
  r.plan_request = [] { return timing::PlanRequest{}; };
  const auto all = improve(planned(yaml, {}), r);
  const auto* other = find(all, Change::Kind::other_role);
  ASSERT_NE(other, nullptr);
  EXPECT_NEAR(other->gain_s(), 4, 0.5);  // the four seconds it would have come late
}

TEST(Improve, EverybodyCleansTheirOwnHands) {
  for (const auto& c : possible_changes(test::scenario("scenarios/core-build-up/scenario.yaml")))
    for (const auto& e : c.edits) EXPECT_NE(e.path, "steps/rub-hands/by");
}

TEST(Improve, ChangesThatAreTakenChangeTheirLinesOnly) {
  const auto all = found();
  const auto *cue = find(all, Change::Kind::earlier_cue),
             *near = find(all, Change::Kind::nearer_supply);
  ASSERT_TRUE(cue != nullptr && near != nullptr);
  std::string expected = slow_pair;
  const auto change = [&](const std::string& from, const std::string& to) {
    expected.replace(expected.find(from), from.size(), to);
  };
  change("after: rinse}\n  - {id: pass", "after: {step: rinse, from: start}}\n  - {id: pass");
  change("icon: paste, at: shelf", "icon: paste, at: tray");
  EXPECT_EQ(applied(slow_pair, std::vector<Change>{cue->change, near->change}), expected);
}

}  // namespace
}  // namespace beforehand::study
