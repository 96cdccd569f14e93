// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// The debrief: what went well first, then the dearest habits with their first moment.
#include <gtest/gtest.h>

#include "../drill/play.hpp"
#include "hand_made.hpp"
#include "procedure/texts.hpp"
#include "scoring/debrief.hpp"
#include "scoring/scorer.hpp"

namespace beforehand::scoring {
namespace {

TEST(Verdicts, GoByTotalErrorsAndSafety) {
  Error critical;
  critical.kind = ErrorKind::omitted;
  critical.severity = Severity::critical;
  Error unsafe;
  unsafe.kind = ErrorKind::unsafe;
  Error late;
  late.kind = ErrorKind::late;
  late.severity = Severity::critical;
  EXPECT_EQ(verdict_of(85, {}), Verdict::ready);
  EXPECT_EQ(verdict_of(84.9, {}), Verdict::nearly);
  EXPECT_EQ(verdict_of(69.9, {}), Verdict::practise);
  Error minor = critical;
  minor.severity = Severity::minor;
  EXPECT_EQ(verdict_of(99, {critical}), Verdict::nearly);
  EXPECT_EQ(verdict_of(99, {minor}), Verdict::ready);
  EXPECT_EQ(verdict_of(99, {late}), Verdict::ready);
  EXPECT_EQ(verdict_of(99, {critical, unsafe}), Verdict::repeat);
}

TEST(Totals, AreTheWeightedMeanOfTheParts) {
  EXPECT_DOUBLE_EQ(total_of({45, 20, 35}, 0.8, 0.9, 0.6), 36 + 18 + 21);
  EXPECT_DOUBLE_EQ(total_of({1, 1, 2}, 1, 0, 0.5), 50);
}

TEST(Debriefs, OfARunInTimeHaveNothingToChange) {
  const auto p = made_of(lining);
  const Debrief d = debrief(p, in_time(p).score(44));
  EXPECT_TRUE(d.change.empty());
  ASSERT_GE(d.well.size(), 2u);
  EXPECT_EQ(d.well[0], "Everything the clinician needed from you was ready in time.");
}

TEST(Debriefs, NameTheDearestHabitsFirstAndHowOftenTheyShowed) {
  const auto p = made_of(lining);
  HandMade h(p);
  h.works("prepare", 0, 20).acts("mix-liner", 2, 12).acts("pass-liner", 24, 26).misses("apply", 20);
  h.works("apply", 26, 41, {26}).misses("dab", 41).acts("pass-gauze", 45, 47);
  h.works("dab", 47, 52, {47}).acts("tidy", 52, 56).acts_in_vain("mix-liner", 27, 29);
  const Score s = h.score(56);
  const Debrief d = debrief(p, s);
  ASSERT_EQ(d.change.size(), 2u);
  EXPECT_EQ(d.change[0].kind, ErrorKind::late);
  EXPECT_EQ(d.change[0].times, 2);
  EXPECT_EQ(d.change[0].first, sec(20));
  EXPECT_EQ(p.step(d.change[0].step).id, "pass-liner");
  EXPECT_FALSE(d.change[0].why.empty());
  EXPECT_GT(d.change[0].points, d.change[1].points);
  EXPECT_EQ(d.change[1].kind, ErrorKind::repeated);
  EXPECT_NEAR(d.change[0].points + d.change[1].points, 100 - s.total, 1e-9)
      << "every lost point is somebody's";
  EXPECT_FALSE(d.well.empty());
}

TEST(Debriefs, SayNeverOnlyOfWhatNeverWas) {
  const auto p = made_of(lining);
  const auto says = [&](const Score& s, const std::string& what) {
    const auto well = debrief(p, s).well;
    return std::find(well.begin(), well.end(), what) != well.end();
  };
  EXPECT_TRUE(says(in_time(p).score(44), "You were never idle when something was wanted."));
  EXPECT_TRUE(says(passed_late(p, 1.5), "You were seldom idle when something was wanted."));
}

// Whoever did all of it, and something besides, is not told of a place for each.
TEST(Debriefs, OfAllStepsAndMoreSayThatNoneWasLeftOut) {
  const auto p = made_of(lining);
  const auto well = debrief(p, in_time(p).acts_in_vain("mix-liner", 36, 38).score(44)).well;
  EXPECT_EQ(std::count(well.begin(), well.end(), "None of your steps was left out."), 1);
  EXPECT_EQ(std::count(well.begin(), well.end(), "In their place: 4 of 4 steps."), 0);
}

// Standing by twice before the last step, once for long: that is the one to show.
TEST(Debriefs, ShowTheLongestOfTheQuietMoments) {
  const auto p = made_of(lining);
  HandMade h(p);
  h.works("prepare", 0, 20).acts("mix-liner", 5, 15).acts("pass-liner", 16, 18);
  h.works("apply", 20, 35, {18}).acts("pass-gauze", 30, 32).works("dab", 35, 40, {32});
  h.acts_in_vain("mix-liner", 43, 45).acts("tidy", 55, 59);
  const auto change = debrief(p, h.score(59)).change;
  const auto quiet = std::find_if(change.begin(), change.end(), [](const Advice& a) {
    return a.change == "Use quiet moments for what has to be done anyway.";
  });
  ASSERT_NE(quiet, change.end());
  EXPECT_EQ(quiet->example,
            "You stood by for 10 s while \"Puts the gauze away\" could have been done.");
  EXPECT_EQ(quiet->first, sec(45));
}

TEST(Debriefs, PutAnUnsafeActBeforeEverything) {
  const auto p = made_of(lining);
  HandMade h(p);
  h.works("prepare", 0, 20).acts("mix-liner", 2, 12).acts("pass-liner", 28, 30).misses("apply", 20);
  h.works("apply", 30, 45, {30}).acts("pass-gauze", 40, 42).works("dab", 45, 50, {42});
  h.before("tidy", "dab", 50, true).acts("tidy", 50, 54);
  const Debrief d = debrief(p, h.score(54));
  ASSERT_GE(d.change.size(), 2u);
  EXPECT_EQ(d.change[0].kind, ErrorKind::unsafe);
}

TEST(Debriefs, AlwaysFindSomethingGood) {
  const auto p = made_of(lining);
  HandMade h(p);
  h.works("prepare", 0, 20).misses("apply", 20);
  EXPECT_FALSE(debrief(p, h.score(60, 1)).well.empty());
}

/// Everything that is said of a drill.
std::vector<std::string> said_of(const Procedure& p, const Score& s) {
  const Debrief d = debrief(p, s);
  std::vector<std::string> said = d.well;
  said.push_back(d.verdict);
  for (const auto& a : d.change) said.insert(said.end(), {a.change, a.example, a.why, a.instead});
  for (const auto& e : s.errors) said.insert(said.end(), {e.what, e.why, e.instead});
  return said;
}

TEST(Debriefs, SpeakTheLanguageOfTheScenario) {
  for (const std::string id : {"class-ii-composite", "rubber-dam", "core-build-up"}) {
    const auto file = "scenarios/" + id + "/scenario.yaml";
    const Procedure p = test::scenario(file);
    const auto spanish =
        procedure::in_language(p, {std::string(PROJECT_DIR) + "/" + file}, "es").procedure;
    ASSERT_EQ(spanish.language, "es");
    const auto me = p.who(procedure::Role::assistant);
    for (const auto* habit :
         {"expert", "late:6", "forgetful:50", "shuffled:60", "eager", "absent"}) {
      const auto session = test::play(p, habit, 3);
      const Score ours = score(p, session, me), theirs = score(spanish, session, me);
      EXPECT_EQ(theirs.total, ours.total) << "only the words differ";
      const auto english = said_of(p, ours), said = said_of(spanish, theirs);
      ASSERT_EQ(said.size(), english.size());
      for (std::size_t i = 0; i < said.size(); ++i) {
        EXPECT_NE(said[i], english[i]) << habit;
        EXPECT_EQ(said[i].find_first_of("{}"), std::string::npos) << said[i];
        for (const auto* word : {" the ", " was ", " it ", " you "})
          EXPECT_EQ(said[i].find(word), std::string::npos) << said[i];
      }
    }
  }
}

// Definition 7 of Hyndman and Fan 1996, what most statistics packages give by default: of 1, 2, 3,
// 4 the median is 2.5 and the tenth percentile 1.3.
TEST(Quantiles, InterpolateBetweenOrderStatistics) {
  const Quantiles q = quantiles({sec(4), sec(1), sec(3), sec(2)});
  EXPECT_EQ(q.p10, sec(1.3));
  EXPECT_EQ(q.median, sec(2.5));
  EXPECT_EQ(q.p90, sec(3.7));
  EXPECT_EQ(quantiles({}).median, Ms{0});
  EXPECT_EQ(quantiles({sec(5)}).p90, sec(5));
}

}  // namespace
}  // namespace beforehand::scoring
