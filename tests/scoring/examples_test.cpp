// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// The worked examples of docs/scoring.md, worked again: each says the sentence it stands in.
#include <gtest/gtest.h>

#include <fstream>
#include <sstream>

#include "hand_made.hpp"
#include "scoring/anticipation.hpp"
#include "scoring/debrief.hpp"
#include "scoring/scorer.hpp"
#include "scoring/sequence.hpp"
#include "scoring/time_use.hpp"

namespace beforehand::scoring {
namespace {

void expect_said(const std::string& sentence) {
  static const std::string page = [] {
    std::ostringstream text;
    text << std::ifstream(PROJECT_DIR "/docs/scoring.md").rdbuf();
    return text.str();
  }();
  EXPECT_NE(page.find(sentence), std::string::npos) << sentence;
}

TEST(ExamplesOfTheDocument, Total) {
  expect_said("anticipation 0.8, idle 0.9, sequence 0.6 give 36 + 18 + 21 = 75");
  EXPECT_NEAR(total_of(procedure::Weights{}, 0.8, 0.9, 0.6), 36 + 18 + 21, 1e-9);
}

TEST(ExamplesOfTheDocument, Verdict) {
  expect_said("| ready | 85 or more");
  expect_said("| nearly | 70 or more |");
  EXPECT_EQ(verdict_of(85, {}), Verdict::ready);
  EXPECT_EQ(verdict_of(84.99, {}), Verdict::nearly);
  EXPECT_EQ(verdict_of(70, {}), Verdict::nearly);
  EXPECT_EQ(verdict_of(69.99, {}), Verdict::practise);
}

TEST(ExamplesOfTheDocument, Credit) {
  expect_said(
      "L = 2.5 s gives 0.75, 4 s gives 0.5, 8 s gives 0.25, 12 s gives 0; asked for and 6 s "
      "late gives 0.375");
  const Ms patience = sec(4);
  EXPECT_NEAR(credit(sec(1), patience, false), 1, 1e-12);
  EXPECT_NEAR(credit(sec(2.5), patience, false), 0.75, 1e-12);
  EXPECT_NEAR(credit(sec(4), patience, false), 0.5, 1e-12);
  EXPECT_NEAR(credit(sec(8), patience, false), 0.25, 1e-12);
  EXPECT_NEAR(credit(sec(12), patience, false), 0, 1e-12);
  EXPECT_NEAR(credit(sec(6), patience, true), 0.375, 1e-12);
}

TEST(ExamplesOfTheDocument, Anticipation) {
  expect_said(
      "a major need 5 s late and asked for (0.4375) and a minor one in time give (2 · 0.4375 "
      "+ 1) / 3 = 0.625");
  NeedScore late, in_time;
  late.severity = Severity::major;
  late.credit = credit(sec(5), sec(4), true);
  in_time.credit = 1;
  EXPECT_NEAR(late.credit, 0.4375, 1e-12);
  EXPECT_NEAR(mean_credit({late, in_time}), 0.625, 1e-12);
}

TEST(ExamplesOfTheDocument, Quantiles) {
  expect_said("of 1, 2, 3, 4 s the median is 2.5 s and the tenth percentile 1.3 s");
  const Quantiles q = quantiles({sec(4), sec(1), sec(3), sec(2)});
  EXPECT_EQ(q.median, sec(2.5));
  EXPECT_EQ(q.p10, sec(1.3));
}

// Wanted at 20 s, passed from 23 to 25: 5 s late, less the free second, all of them stood by since
// the mixing ended at 15.
TEST(ExamplesOfTheDocument, AvoidableIdle) {
  expect_said(
      "the paste is passed 5 s late after 8 s of standing by: 4 s are avoidable; with 18 s of "
      "work, idle = 1 − 4 / 22 = 0.818");
  const auto p = made_of(lining);
  const Score s = passed_late(p, 5);
  const TimeSplit& mine = s.time[p.who(procedure::Role::assistant).at()];
  EXPECT_EQ(mine.work + mine.cover, sec(18));
  EXPECT_EQ(mine.avoidable, sec(4));
  EXPECT_NEAR(s.idle, 1 - 4.0 / 22, 1e-12);
  EXPECT_NEAR(s.idle, 0.818, 0.0005);
}

TEST(ExamplesOfTheDocument, Sequence) {
  expect_said(
      "two of three are kept, cost 2, fitness 1 − 2/6; by weight 1 of 7 is lost on both sides, "
      "sequence 1 − 2/14");
  Alignment swapped;  // minor, major, critical: 1 + 2 + 4
  swapped.weighed_actions = swapped.weighed_steps = 7;
  swapped.weighed_kept = 6;
  EXPECT_NEAR(sequence_score(swapped, 0), 1 - 2.0 / 14, 1e-12);
  expect_said("cost 1, fitness 1 − 1/7, sequence 1 − 4/18");
  Alignment again;  // the critical one twice: 1 + 2 + 4 + 4 of actions
  again.weighed_actions = 11;
  again.weighed_steps = again.weighed_kept = 7;
  EXPECT_NEAR(sequence_score(again, 0), 1 - 4.0 / 18, 1e-12);
  expect_said("by weight 10 and 6, of which 6 are kept, sequence 1 − 4/16 = 0.75");
  Alignment set;
  set.weighed_actions = 10;
  set.weighed_steps = set.weighed_kept = 6;
  EXPECT_NEAR(sequence_score(set, 0), 0.75, 1e-12);
}

}  // namespace
}  // namespace beforehand::scoring
