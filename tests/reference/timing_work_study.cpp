// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// Multiple-activity examples of work study, as schedules found by the solver.
#include <gtest/gtest.h>

#include <algorithm>

#include "timing/optimum.hpp"

namespace beforehand::timing {
namespace {

// Jobs put together by hand; a job is a point and a duration.
struct Shop : ScheduleProblem {
  struct Job {
    int start = 0, takes = 0;
  };

  Shop() { finish = points++; }

  Job job(int takes, std::initializer_list<std::size_t> machines) {
    const Job j{points++, takes};
    differences.push_back({j.start, finish, takes});
    for (const auto m : machines)
      resources[m].intervals.push_back({j.start, 0, j.start, takes, 1, {}});
    return j;
  }
  void then(Job first, Job second, int lag = 0) {
    differences.push_back({first.start, second.start, first.takes + lag});
  }
  int shortest() {
    const auto found = Minimizer(*this).shortest({});
    EXPECT_EQ(found.kind, Optimum::Kind::proven);
    return found.finish;
  }
};

// Castings (introductory example of the multiple-activity chart in work study, after the
// International Labour Office and Barnes): the man handles for 1.20 min, the machine cuts for
// 0.80 min, one after the other; hundredths of a minute. Source: a course's slides.
TEST(MultipleActivity, CastingsOneAfterTheOther) {
  Shop shop;
  shop.resources.resize(2);
  shop.then(shop.job(120, {0}), shop.job(80, {1}));
  const int cycle = shop.shortest();
  EXPECT_EQ(cycle, 200);
  EXPECT_EQ(100 * 120 / cycle, 60) << "percent of the man's time";
  EXPECT_EQ(100 * 80 / cycle, 40) << "percent of the machine's";
}

// The improved method of the same example (from memory): part of the man's work goes inside the
// machine's time; cycle 1.36, man 1.12 (82.4 %), machine 0.80 (58.8 %). That the inside and the
// outside part are 0.56 each follows from these figures.
TEST(MultipleActivity, CastingsWithWorkInsideMachineTime) {
  Shop shop;
  shop.resources.resize(2);
  const auto load = shop.job(56, {0, 1});
  shop.then(load, shop.job(80, {1}));
  shop.job(56, {0});
  const int cycle = shop.shortest();
  EXPECT_EQ(cycle, 136);
  EXPECT_NEAR(112.0 / cycle, 0.824, 0.0005);
  EXPECT_NEAR(80.0 / cycle, 0.588, 0.0005);
}

// Machine coupling (a textbook's example): loading 1.0 min, running 2.0, walking 0.1; tenths of a
// minute. The time that one more round on all machines takes is the cycle.
int coupling_cycle(int machines) {
  const auto time_for = [&](int rounds) {
    Shop shop;
    shop.resources.resize(static_cast<std::size_t>(machines) + 1);
    for (int m = 1; m <= machines; ++m) {
      Shop::Job last{};
      for (int r = 0; r < rounds; ++r) {
        const auto load = shop.job(10, {static_cast<std::size_t>(m)});
        shop.resources[0].intervals.push_back({load.start, 0, load.start, 11, 1, {}});
        if (r > 0) shop.then(last, load, 20);
        last = load;
      }
    }
    return shop.shortest();
  };
  return time_for(5) - time_for(4);
}

TEST(MultipleActivity, TwoMachinesAreBoundByTheMachine) {
  const int cycle = coupling_cycle(2);
  EXPECT_EQ(cycle, 30);
  EXPECT_NEAR(22.0 / cycle, 0.733, 0.0005) << "the operator's share";
  EXPECT_NEAR((10 + 2 * 20) / 60.0 * cycle / 10 / 2, 1.250, 0.0005) << "dollars a unit";
}

TEST(MultipleActivity, ThreeMachinesAreBoundByTheOperator) {
  const int cycle = coupling_cycle(3);
  EXPECT_EQ(cycle, 33);
  EXPECT_NEAR(30.0 / cycle, 0.909, 0.0005) << "a machine's share";
  EXPECT_NEAR((10 + 3 * 20) / 60.0 * cycle / 10 / 3, 1.283, 0.0005) << "dollars a unit";
}

// The toaster (a textbook's exercise): two slots, one side at a time; place 3 s, toast 30 s, turn
// 1 s, remove 3 s. A slice is turned in its slot, or makes way for another and comes back. Derived:
// one slice 67 s, two 70 s, three 106 s at best against 137 s in two batches.
int toasting(int turned, int making_way) {
  Shop shop;
  shop.resources.resize(2);
  shop.resources[1].capacity = 2;
  const auto in_slot = [&](Shop::Job from, Shop::Job to) {
    shop.resources[1].intervals.push_back({from.start, 0, to.start, to.takes, 1, {}});
  };
  for (int i = 0; i < turned + making_way; ++i) {
    const auto place = shop.job(3, {0});
    const auto half = shop.job(i < turned ? 1 : 3, {0});
    const auto remove = shop.job(3, {0});
    shop.then(place, half, 30);
    if (i < turned) {
      shop.then(half, remove, 30);
      in_slot(place, remove);
      continue;
    }
    const auto again = shop.job(3, {0});
    shop.then(half, again);
    shop.then(again, remove, 30);
    in_slot(place, half);
    in_slot(again, remove);
  }
  return shop.shortest();
}

int best_toasting(int slices) {
  int best = toasting(slices, 0);
  for (int away = 1; away <= slices; ++away) best = std::min(best, toasting(slices - away, away));
  return best;
}

TEST(MultipleActivity, ToasterOptimum) {
  EXPECT_EQ(best_toasting(1), 67);
  EXPECT_EQ(best_toasting(2), 70);
  EXPECT_EQ(best_toasting(3), 106);
  EXPECT_EQ(best_toasting(2) + best_toasting(1), 137) << "in batches";
}

// Increments at the chair (our own figures): placing 25 s, curing 20 s, checking 5 s, loading the
// next 10 s. Loaded after the check a cycle is 60 s; loaded while the clinician places, 50 s.
TEST(MultipleActivity, LoadingWhileThePlacingGoesOnSavesASixth) {
  const auto four_increments = [](bool loads_after_check) {
    Shop shop;
    shop.resources.resize(2);  // clinician, assistant
    Shop::Job check{};
    for (int i = 0; i < 4; ++i) {
      const auto load = shop.job(10, {1});
      const auto place = shop.job(25, {0}), cure = shop.job(20, {1});
      if (i > 0 && loads_after_check) shop.then(check, load);
      if (i > 0) shop.then(check, place);
      shop.then(load, place);
      check = shop.job(5, {0});
      shop.then(place, cure);
      shop.then(cure, check);
    }
    return shop.shortest();
  };
  EXPECT_EQ(four_increments(true), 240);
  EXPECT_EQ(four_increments(false), 210) << "four cycles of 50 s after the first loading";
}

}  // namespace
}  // namespace beforehand::timing
