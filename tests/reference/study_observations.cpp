// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// Timed cases against worked examples of work study, and what observed durations are said to be
// against published formulas.
#include <gtest/gtest.h>

#include "study/observed_durations.hpp"
#include "timing/pert.hpp"

namespace beforehand::study {
namespace {

CaseFigures seen(const std::string& rows) {
  const auto csv = "person,step,start,end\n" + rows;
  auto reading = read_case(csv, "example");
  EXPECT_TRUE(reading.problems.empty()) << print(reading.problems, "example", csv);
  return figures(reading.timed, nullptr);
}

// Finishing castings on a milling machine, min for s (the example of the International Labour
// Office's introduction to work study, as lecture slides give it): the present method takes 2.0 a
// piece, of which the man works 1.2 and the machine 0.8.
TEST(StudyObservations, ManAndMachineAtPresent) {
  const auto f = seen(
      "Man,Removes and gauges,0,0.7\nMan,Cleans and sets up the next,0.7,1.2\n"
      "Machine,Mills,1.2,2.0\n");
  EXPECT_EQ(f.chair_time, Ms{2000});
  EXPECT_NEAR(f.time[0].utilisation(), 0.60, 1e-9);
  EXPECT_NEAR(f.time[1].utilisation(), 0.40, 1e-9);
  EXPECT_EQ(f.both_idle, Ms{0});
}

// The improved method (from memory): 1.36 a piece, man 1.12, machine 0.8; 82 % and 59 %.
TEST(StudyObservations, ManAndMachineImproved) {
  const auto f = seen(
      "Man,Unloads and loads,0,0.56\nMachine,Mills,0.56,1.36\n"
      "Man,Gauges and cleans the last,0.56,1.12\n");
  EXPECT_EQ(f.chair_time, Ms{1360});
  EXPECT_NEAR(100 * f.time[0].utilisation(), 82.4, 0.05);
  EXPECT_NEAR(100 * f.time[1].utilisation(), 58.8, 0.05);
}

// Increments of a filling (our own arithmetic): loaded after the cure is checked 60 s each, loaded
// while the last one is placed 50 s.
TEST(StudyObservations, LoadingBehindOrBesideTheClinician) {
  const auto behind = seen(
      "Clinician,Places,0,25\nAssistant,Cures,25,45\nClinician,Checks,45,50\n"
      "Assistant,Loads,50,60\n");
  EXPECT_NEAR(behind.time[0].utilisation(), 30.0 / 60, 1e-9);
  EXPECT_NEAR(behind.time[1].utilisation(), 30.0 / 60, 1e-9);
  EXPECT_EQ(behind.time[0].waiting, Ms{20'000});  // for the cure; after the check nothing follows
  const auto beside = seen(
      "Clinician,Places,0,25\nAssistant,Loads,0,10\nAssistant,Cures,25,45\n"
      "Clinician,Checks,45,50\n");
  EXPECT_NEAR(beside.time[0].utilisation(), 30.0 / 50, 1e-9);
  EXPECT_NEAR(beside.time[1].utilisation(), 30.0 / 50, 1e-9);
  EXPECT_EQ(beside.chair_time, Ms{50'000});
}

// One slice of toast, one side after the other (a textbook's question, times in s): place 3, toast
// 30, turn 1, toast 30, remove 3 make 67, of which the cook works 7 and waits for the toaster 60.
TEST(StudyObservations, OneSliceOfToast) {
  const auto f = seen(
      "Cook,Places,0,3\nToaster,Toasts,3,33\nCook,Turns,33,34\nToaster,Toasts,34,64\n"
      "Cook,Removes,64,67\n");
  EXPECT_EQ(f.chair_time, Ms{67'000});
  EXPECT_EQ(f.time[0].work, Ms{7000});
  EXPECT_EQ(f.time[0].waiting, Ms{60'000});
  EXPECT_EQ(f.time[1].work, Ms{60'000});
}

// The smallest samples whose extremes hold 90, 95 and 99 % of the population, 95 times of 100
// (Wilks 1941, Annals of Mathematical Statistics 12:91; the table as in Conover 1999, from memory).
TEST(StudyObservations, HowManyCasesBoundADuration) {
  EXPECT_GE(share_within(46, 0.95), 0.90);
  EXPECT_LT(share_within(45, 0.95), 0.90);
  EXPECT_GE(share_within(93, 0.95), 0.95);
  EXPECT_LT(share_within(92, 0.95), 0.95);
  EXPECT_GE(share_within(473, 0.95), 0.99);
  EXPECT_LT(share_within(472, 0.95), 0.99);
}

// Ranks of the interval of a median, counted from 1, by the binomial tail (David and Nagaraja 2003,
// Order Statistics, section 7.1): 1 - 2 * 1/2^6 = 0.969 of six, 1 - 2 * 10/2^9 = 0.961 of nine,
// 1 - 2 * 11/2^10 = 0.979 of ten, 0.959 of twenty.
TEST(StudyObservations, IntervalOfTheMedian) {
  const auto expect = [](std::size_t n, std::size_t low, std::size_t high, double confidence) {
    const auto r = median_ranks(n);
    EXPECT_EQ(r.low + 1, low) << n;
    EXPECT_EQ(r.high + 1, high) << n;
    EXPECT_NEAR(r.confidence, confidence, 0.0005) << n;
  };
  expect(2, 1, 2, 0.5);
  expect(5, 1, 5, 0.9375);
  expect(6, 1, 6, 0.969);
  expect(9, 2, 8, 0.961);
  expect(10, 2, 9, 0.979);
  expect(20, 6, 15, 0.959);
}

// Mean (a + 4 m + b) / 6 and deviation (b - a) / 6 (Malcolm and others 1959); the first row of a
// textbook's network: 5, 8, 17 give 9 and 4.
TEST(StudyObservations, ThreePointMoments) {
  const auto s = timing::spread_of({Ms{5000}, Ms{8000}, Ms{17'000}});
  EXPECT_EQ(s.mean, Ms{9000});
  EXPECT_NEAR(s.variance_s2, 4, 1e-9);
}

}  // namespace
}  // namespace beforehand::study
