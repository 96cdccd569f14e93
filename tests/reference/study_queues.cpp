// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// The Monte Carlo machinery (keyed random numbers, runs shared out over threads, intervals) on two
// queues whose answers are known in closed form. Each run starts in the steady state, so that its
// expectation is exactly the formula's.
#include <gtest/gtest.h>

#include <cmath>

#include "base/random.hpp"
#include "study/crew.hpp"
#include "study/statistics.hpp"

namespace beforehand::study {
namespace {

/// Exponential times of one run.
class Draws {
 public:
  explicit Draws(std::uint64_t seed) : seed_(seed) {}
  double uniform() { return keyed_uniform({seed_, fnv1a("queue"), count_++}); }
  double exponential(double rate) { return -std::log1p(-uniform()) / rate; }

 private:
  std::uint64_t seed_, count_ = 0;
};

template <class Run>
std::vector<double> runs(std::size_t n, std::uint64_t seed, Run run) {
  std::vector<double> all(n);
  share_out(n, 2, [&]() -> Work { return [&](std::size_t i) { all[i] = run(Draws(seed + i)); }; });
  return all;
}

// M/M/1: the wait in the queue is rho / (mu - lambda) on average; in the steady state it is 0 with
// probability 1 - rho, else exponential with rate mu - lambda (Erlang 1909; Kleinrock 1975,
// Queueing Systems I, section 3.2). From one arrival to the next by Lindley's recursion (1952).
constexpr double lambda = 0.5, mu = 1;

double mean_wait(Draws draw) {
  double wait = draw.uniform() < lambda / mu ? draw.exponential(mu - lambda) : 0, sum = 0;
  constexpr int customers = 400;
  for (int i = 0; i < customers; ++i) {
    sum += wait;
    wait = std::max(0.0, wait + draw.exponential(mu) - draw.exponential(lambda));
  }
  return sum / customers;
}

TEST(StudyQueues, OneServer) {
  const double expected = lambda / mu / (mu - lambda);
  const auto s = summarize(runs(2000, 1, mean_wait));
  EXPECT_LT(s.mean_sure.half_width(), 0.05);
  EXPECT_LT(s.mean_sure.low, expected);
  EXPECT_GT(s.mean_sure.high, expected);
}

// Of 400 intervals that are right 95 times of 100, 366 to 391 hold the truth (four deviations about
// 380 is 17); the waits are skewed and the samples small, so a few may be missing at the low end.
TEST(StudyQueues, NinetyFiveIntervalsOfAHundredHoldTheTruth) {
  int held = 0;
  for (std::uint64_t i = 0; i < 400; ++i) {
    const auto s = summarize(runs(40, 1'000'000 * (i + 1), mean_wait)).mean_sure;
    held += s.low < 1 && 1 < s.high;
  }
  EXPECT_GE(held, 360);
  EXPECT_LE(held, 397);
}

// Machine interference: one operator, `machines` machines that each run for an exponential time of
// mean 1 and take `service` to tend. With k of them standing the chance is proportional to
// machines! / (machines - k)! service^k (Palm 1947; Cox and Smith 1961, Queues, section 4.2).
constexpr int machines = 4;
constexpr double service = 0.25;

std::vector<double> standing() {
  std::vector<double> p{1};
  double sum = 1;
  for (int k = 1; k <= machines; ++k) {
    p.push_back(p.back() * (machines - k + 1) * service);
    sum += p.back();
  }
  for (double& v : p) v /= sum;
  return p;
}

double mean_running(Draws draw) {
  int down = 0;
  for (double u = draw.uniform(); const double p : standing()) {
    if (u < p) break;
    u -= p;
    ++down;
  }
  down = std::min(down, machines);
  constexpr double until = 100;
  double ran = 0;
  for (double now = 0; now < until;) {
    const double stops = machines - down, tends = down > 0 ? 1 / service : 0;
    const double next = std::min(until, now + draw.exponential(stops + tends));
    ran += (machines - down) * (next - now);
    now = next;
    down += draw.uniform() * (stops + tends) < stops ? 1 : -1;
  }
  return ran / until;
}

TEST(StudyQueues, OneOperatorAndFourMachines) {
  const auto p = standing();
  EXPECT_NEAR(p[0], 1 / 3.21875, 1e-12);  // 1 + 1 + 0.75 + 0.375 + 0.09375 = 3.21875
  double expected = 0;
  for (int k = 0; k <= machines; ++k) expected += p[static_cast<std::size_t>(k)] * (machines - k);
  EXPECT_NEAR(expected, (1 - p[0]) / service, 1e-12);  // what breaks down is mended
  const auto s = summarize(runs(1000, 7, mean_running));
  EXPECT_LT(s.mean_sure.half_width(), 0.02);
  EXPECT_LT(s.mean_sure.low, expected);
  EXPECT_GT(s.mean_sure.high, expected);
}

}  // namespace
}  // namespace beforehand::study
