// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "timing/explain.hpp"

#include <gtest/gtest.h>

#include "generated.hpp"
#include "sketch.hpp"

namespace beforehand::timing {
namespace {

// Mixing takes the assistant 30 s, curing 20 s, and the filling, 10 s, needs both.
struct Filling : Sketch {
  StepIx mix = step("Mixes", {assistant}, s(30));
  StepIx cure = step("Cures", {assistant, clinician}, s(20));
  StepIx fill = step("Fills", {clinician}, s(10), {mix, cure});
};

std::vector<std::string> ids(const Procedure& p, const Explanation& e) {
  std::vector<std::string> ids;
  for (const auto& link : e.chain) ids.push_back(p.step(link.step).id);
  return ids;
}

TEST(Explain, TheChainLeadsFromTheStartToTheEnd) {
  const Filling f;
  const auto plan = timing::plan(f.p);
  const auto e = explain(f.p, {}, plan);
  EXPECT_EQ(ids(f.p, e), (std::vector<std::string>{"Mixes", "Fills"}));
  EXPECT_EQ(chain_in_words(f.p, plan, e), (std::vector<std::string>{
                                              "0:00 \"Mixes\" (Assistant, 30 s): starts at once",
                                              "0:30 \"Fills\" (Clinician, 10 s): follows \"Mixes\"",
                                          }));
}

TEST(Explain, TheChainNamesWhoeverIsBusy) {
  Filling f;
  f.at(f.cure).by = {assistant};
  f.link(f.mix, f.cure);
  const auto later = f.step("Rinses", {assistant}, s(5));
  f.link(f.fill, later);
  f.link(later, f.mix, s(0), never, Anchor::start);
  const auto plan = timing::plan(f.p);
  const auto words = chain_in_words(f.p, plan, explain(f.p, {}, plan));
  ASSERT_EQ(words.size(), 4u);
  EXPECT_EQ(words[2],
            "0:50 \"Rinses\" (Assistant, 5 s): Assistant is busy until then with \"Mixes\"");
}

// Each is then held by the other, and what holds both is the work before.
TEST(Explain, TheChainDoesNotGoRoundBetweenLagsThatLeaveNoRoom) {
  Sketch k;
  k.step("Opens", {clinician}, s(30));
  const auto etch = k.step("Etches", {clinician}, s(15));
  const auto rinse = k.step("Rinses", {clinician}, s(10));
  k.link(rinse, etch, s(5), s(5));
  k.link(rinse, StepIx{0});
  const auto plan = timing::plan(k.p);
  const auto e = explain(k.p, {}, plan);
  EXPECT_EQ(plan.chair_time, s(60));
  EXPECT_EQ(ids(k.p, e), (std::vector<std::string>{"Opens", "Etches", "Rinses"}));
}

TEST(Explain, ARoleChoiceIsWeighedInSeconds) {
  const Filling f;
  const auto e = explain(f.p, {}, timing::plan(f.p));
  ASSERT_EQ(e.roles.size(), 1u);
  EXPECT_EQ(e.roles[0].by, clinician);
  EXPECT_EQ(e.roles[0].instead, assistant);
  EXPECT_EQ(e.roles[0].longer, s(20)) << "50 s of work for one person before the filling";
  EXPECT_EQ(advice_in_words(f.p, e).front(),
            "if Assistant does \"Cures\" instead of Clinician, chair time grows by 20 s");
}

TEST(Explain, GapsSayWhoWaitsForWhat) {
  const Filling f;
  const auto e = explain(f.p, {}, timing::plan(f.p));
  const auto words = gaps_in_words(f.p, e);
  EXPECT_EQ(words, (std::vector<std::string>{
                       "Clinician: 10 s free in 1 stretch, 10 s of it waiting for somebody else",
                       "   0:20          10 s  before \"Fills\", waiting for \"Mixes\"",
                       "Assistant: 10 s free in 1 stretch", "   0:30          10 s  to the end"}));
}

TEST(Explain, ShorteningIsWorthWhatTheNextLongestChainLeaves) {
  Filling f;
  f.at(f.mix).takes = {s(12), s(30), s(30)};
  const auto e = explain(f.p, {}, timing::plan(f.p));
  ASSERT_EQ(e.shortenings.size(), 1u);
  EXPECT_EQ(e.shortenings[0].step, f.mix);
  EXPECT_EQ(e.shortenings[0].shorter, s(18));
  EXPECT_EQ(e.shortenings[0].gain, s(10)) << "then the curing, 20 s, holds it up";
  EXPECT_EQ(advice_in_words(f.p, e).back(),
            "\"Mixes\" in 12 s instead of 30 s: chair time falls by 10 s or more");
}

// On generated procedures, what the explanation says is what planning anew says.
TEST(Explain, FiguresAreThoseOfANewPlan) {
  const auto p = generated(4, 40);
  const auto plan = timing::plan(p);
  const auto e = explain(p, {}, plan);
  ASSERT_FALSE(e.roles.empty());
  for (const auto& r : e.roles) {
    auto forced = p;
    forced.steps[r.step.at()].by = {r.instead};
    EXPECT_EQ(timing::plan(forced).chair_time, plan.chair_time + r.longer);
  }
  ASSERT_FALSE(e.chain.empty());
  EXPECT_EQ(plan.steps[e.chain.front().step.at()].start, s(0));
  EXPECT_EQ(plan.steps[e.chain.back().step.at()].end, plan.chair_time);
}

}  // namespace
}  // namespace beforehand::timing
