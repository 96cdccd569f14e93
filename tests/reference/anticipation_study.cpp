// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// The measures of anticipation used in research, on a recording put together by hand with known
// answers (invented data). Definitions after Sexton and others 2018, BMJ Quality and Safety 27:148,
// as its table of definitions gives them: anticipation is acting before or without a request; the
// anticipation ratio is the anticipated over all; the request duration runs from the request to the
// completed response. The inconvenience index is taken as the hindered over all; its wording is
// from memory. The hand-over time is from Korkiakangas and others 2014: under a second when the
// nurse is close and aligned.
#include <gtest/gtest.h>

#include "../scoring/hand_made.hpp"
#include "scoring/anticipation.hpp"
#include "scoring/debrief.hpp"

namespace beforehand::scoring {
namespace {

// Five gauzes for five dabs: in time, within the hand-over, late but unasked, asked for, not
// brought.
std::string five_dabs() {
  std::string text = "phases:\n  all: {title: All of it}\nsteps:\n";
  for (const std::string i : {"1", "2", "3", "4", "5"}) {
    text += "  - {id: pass-" + i + ", title: Passes gauze " + i +
            ", phase: all, by: assistant, does: pass, supply: gauze-" + i + ", for: dab-" + i +
            ", takes: 1 s}\n";
    text += "  - {id: dab-" + i + ", title: Dabs " + i +
            ", phase: all, by: clinician, takes: 10 s, needs: [gauze-" + i + "]" +
            (i == "1" ? "" : ", after: [dab-" + std::to_string(std::stoi(i) - 1) + "]") + "}\n";
  }
  return text;
}

std::string room_with_gauzes() {
  std::string text(room);
  for (const std::string i : {"1", "2", "3", "4", "5"})
    text += "  gauze-" + i + ": {name: Gauze " + i + ", icon: gauze, at: tray, ends: used}\n";
  return text;
}

Score recorded() {
  static const Procedure p = made_of(five_dabs(), room_with_gauzes());
  HandMade h(p);
  h.acts("pass-1", 0, 1).misses("dab-1", 0).works("dab-1", 1, 11, {1});  // 1 s: nobody is faster
  h.misses("dab-2", 11).acts("pass-2", 10.8, 11.8).works("dab-2", 11.8, 21.8, {11.8});
  h.misses("dab-3", 21.8).acts("pass-3", 23.8, 24.8).works("dab-3", 24.8, 34.8, {24.8});
  h.misses("dab-4", 34.8).asks("dab-4", 38.8).acts("pass-4", 39.8, 40.8);
  h.works("dab-4", 40.8, 50.8, {40.8}).misses("dab-5", 50.8).asks("dab-5", 54.8);
  h.event(62.8, drill::What::helping, h.clinician(), h.step("dab-5"));
  h.event(66.8, drill::What::step_done, h.clinician(), h.step("pass-5"));
  h.event(66.8, drill::What::helped, h.clinician(), h.step("dab-5"));
  h.works("dab-5", 66.8, 76.8);
  return h.score(76.8);
}

TEST(AnticipationReference, RatioIsTheAnticipatedOverAll) {
  const Score s = recorded();
  ASSERT_EQ(s.needs.size(), 5u);
  EXPECT_DOUBLE_EQ(s.anticipation_ratio, 3.0 / 5) << "three without a request of five";
  EXPECT_EQ(s.requests, 2);
}

TEST(AnticipationReference, RequestDurationRunsFromTheRequestToTheResponse) {
  EXPECT_EQ(request_time(recorded()), sec(2 + 12));
}

TEST(AnticipationReference, InconvenienceIsTheHinderedOverAll) {
  EXPECT_DOUBLE_EQ(recorded().inconvenience, 3.0 / 5) << "held up for more than a hand-over";
}

TEST(AnticipationReference, AHandOverWithinASecondIsInTime) {
  const Score s = recorded();
  EXPECT_EQ(allowance, sec(1));
  EXPECT_EQ(s.needs[1].wait, sec(0.8));
  EXPECT_DOUBLE_EQ(s.needs[1].credit, 1);
  EXPECT_LT(s.needs[2].credit, 1);
}

// Hick 1952: reaction time a + b log2(n), with a 0.2 s and b 0.15 s from secondary pages: the
// choice among eight things to do takes 0.65 s, so that the allowance covers seeing, choosing and
// beginning.
TEST(AnticipationReference, TheAllowanceCoversAChoiceAmongEight) {
  EXPECT_LT(0.2 + 0.15 * std::log2(8), to_seconds(allowance));
}

}  // namespace
}  // namespace beforehand::scoring
