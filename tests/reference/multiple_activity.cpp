// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// The arithmetic of multiple-activity charts: utilisations and idle times against worked examples
// of the handbooks, from recordings put together by hand.
#include <gtest/gtest.h>

#include "../scoring/hand_made.hpp"

namespace beforehand::scoring {
namespace {

std::string cycles(int n, const std::string& clinicians, const std::string& assistants) {
  std::string text = "phases:\n  all: {title: All of it}\nsteps:\n";
  for (int i = 1; i <= n; ++i) {
    const std::string k = std::to_string(i);
    text +=
        "  - {id: c" + k + ", title: C, phase: all, by: clinician, takes: " + clinicians + "}\n";
    text += "  - {id: a" + k + ", title: A, phase: all, by: assistant, does: use, supply: lamp, " +
            "takes: " + assistants + "}\n";
  }
  return text;
}

double busy(const Score& s, std::size_t person) { return s.time[person].utilisation(); }

// Castings (Barnes; ILO, Introduction to work study): a cycle of 2.0 min in which the man works 1.2
// and the machine 0.8: 60 % and 40 %. Improved, a cycle of 1.36 with 1.12 and 0.8: 82.4 % and
// 58.8 % (the improved figures from memory). One minute of the chart is 60 s of the recording.
TEST(MultipleActivityReference, Castings) {
  const auto p = made_of(cycles(1, "1 min", "1 min"));
  HandMade before(p);
  before.works("c1", 0, 72).acts("a1", 72, 120);
  const Score s = before.score(120);
  EXPECT_NEAR(busy(s, 0), 0.60, 1e-9);
  EXPECT_NEAR(busy(s, 1), 0.40, 1e-9);
  EXPECT_EQ(s.both_idle, Ms{0});

  HandMade after(p);
  after.works("c1", 0, 67.2).acts("a1", 33.6, 81.6);
  const Score better = after.score(81.6);
  EXPECT_NEAR(busy(better, 0), 0.824, 0.0005);
  EXPECT_NEAR(busy(better, 1), 0.588, 0.0005);
}

// Increments of composite (arithmetic on planning times): the clinician places 25 s and checks 5 s,
// the assistant cures 20 s and loads 10 s. Loading after the check: cycles of 60 s, both 50 % busy.
// Loading while the clinician places: cycles of 50 s, both 60 %; four cycles 240 s and 200 s.
TEST(MultipleActivityReference, IncrementsLoadedAfterwardsOrMeanwhile) {
  std::string text = "phases:\n  all: {title: All of it}\nsteps:\n";
  for (int i = 1; i <= 4; ++i) {
    const std::string k = std::to_string(i);
    const auto step = [&](const std::string& id, const std::string& by, const std::string& rest) {
      text +=
          "  - {id: " + id + k + ", title: " + id + ", phase: all, by: " + by + ", " + rest + "}\n";
    };
    step("load", "assistant", "does: use, supply: liner, takes: 10 s");
    step("place", "clinician", "takes: 25 s");
    step("cure", "assistant", "does: light, supply: lamp, takes: 20 s");
    step("check", "clinician", "takes: 5 s");
  }
  const auto p = made_of(text);
  const auto played = [&](double cycle, double load_at) {
    HandMade h(p);
    for (int i = 0; i < 4; ++i) {
      const std::string k = std::to_string(i + 1);
      const double t = i * cycle;
      h.works("place" + k, t, t + 25).acts("cure" + k, t + 25, t + 45);
      h.works("check" + k, t + 45, t + 50).acts("load" + k, t + load_at, t + load_at + 10);
    }
    return h.score(4 * cycle);
  };
  const Score reactive = played(60, 50), meanwhile = played(50, 5);
  EXPECT_EQ(reactive.chair_time, sec(240));
  EXPECT_NEAR(busy(reactive, 0), 0.5, 1e-9);
  EXPECT_NEAR(busy(reactive, 1), 0.5, 1e-9);
  EXPECT_EQ(meanwhile.chair_time, sec(200));
  EXPECT_NEAR(busy(meanwhile, 0), 0.6, 1e-9);
  EXPECT_NEAR(busy(meanwhile, 1), 0.6, 1e-9);
  EXPECT_EQ(meanwhile.both_idle, Ms{0});
}

}  // namespace
}  // namespace beforehand::scoring
