// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "study/case_log.hpp"

#include <gtest/gtest.h>

#include <algorithm>

namespace beforehand::study {
namespace {

using Kind = Tap::Kind;

const std::vector<Tap> taps{{Kind::start, Ms{1000}, "Clinician", "Fills", Ms{0}},
                            {Kind::start, Ms{2000}, "Assistant", "Loads", Ms{0}},
                            {Kind::end, Ms{5000}, "Assistant", "Loads", Ms{0}},
                            {Kind::shift, Ms{5200}, "", "", Ms{-500}},
                            {Kind::note, Ms{5300}, "", "tab\tin it", Ms{0}},
                            {Kind::start, Ms{6000}, "Assistant", "Passes, \"now\"", Ms{0}}};

CaseLog logged(std::size_t n = taps.size()) {
  CaseLog log;
  for (std::size_t i = 0; i < n; ++i) log.add(taps[i]);
  return log;
}

TEST(CaseLog, IsTheCaseSoFar) {
  const auto timed = logged().timed(Ms{9000}, "x");
  ASSERT_EQ(timed.seen.size(), 3u);
  EXPECT_EQ(timed.seen[0].end, Ms{9000});  // goes on
  EXPECT_EQ(timed.seen[1].end, Ms{4500});  // tapped half a second late
  EXPECT_TRUE(logged().goes_on("Clinician", "Fills"));
  EXPECT_FALSE(logged().goes_on("Assistant", "Loads"));
}

TEST(CaseLog, UndoTakesTheLastTapAway) {
  auto log = logged();
  log.add({Kind::undo, Ms{7000}, "", "", Ms{0}});
  EXPECT_FALSE(log.seen("Passes, \"now\""));
  log.add({Kind::undo, Ms{7000}, "", "", Ms{0}});  // the note
  log.add({Kind::undo, Ms{7000}, "", "", Ms{0}});  // the correction
  EXPECT_EQ(log.timed(Ms{9000}, "x").seen[1].end, Ms{5000});
  for (int i = 0; i < 9; ++i) log.add({Kind::undo, Ms{7000}, "", "", Ms{0}});
  EXPECT_TRUE(log.empty());
}

TEST(CaseLog, IsReadAgainWhereverItWasCutOff) {
  std::string text = log_heading();
  for (const auto& t : taps) text += log_line(t);
  for (std::size_t cut = log_heading().size(); cut <= text.size(); ++cut) {
    std::vector<Problem> problems;
    const auto log = CaseLog::parse(text.substr(0, cut), problems);
    EXPECT_TRUE(problems.empty()) << cut;
    const auto lines = static_cast<std::size_t>(std::count(
                           text.begin(), text.begin() + static_cast<std::ptrdiff_t>(cut), '\n')) -
                       1;
    EXPECT_EQ(to_csv(log.timed(Ms{9000}, "")), to_csv(logged(lines).timed(Ms{9000}, ""))) << cut;
  }
}

TEST(CaseLog, NamesEveryLineThatIsNoTap) {
  std::vector<Problem> problems;
  CaseLog::parse(log_heading() + "start\t1\tA\tb\t0\nstop\t1\tA\tb\t0\nend\tx\tA\tb\t0\nend\t1\n",
                 problems);
  ASSERT_EQ(problems.size(), 3u);
  EXPECT_EQ(problems[0].mark.line, 3);
  EXPECT_EQ(problems[2].mark.line, 5);
}

TEST(CaseLog, BecomesATableThatIsReadBack) {
  const auto timed = logged().timed(Ms{9000}, "x");
  const auto again = read_case(to_csv(timed), "x");
  ASSERT_TRUE(again.problems.empty());
  ASSERT_EQ(again.timed.seen.size(), timed.seen.size());
  for (std::size_t i = 0; i < timed.seen.size(); ++i) {
    EXPECT_EQ(again.timed.seen[i].step, timed.seen[i].step);
    EXPECT_EQ(again.timed.seen[i].start, timed.seen[i].start);
    EXPECT_EQ(again.timed.seen[i].end, timed.seen[i].end);
  }
}

}  // namespace
}  // namespace beforehand::study
