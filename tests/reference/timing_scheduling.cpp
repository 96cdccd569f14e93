// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// Public scheduling instances solved to their published optima; data/rcpsp.txt names the sources.
#include <gtest/gtest.h>

#include <fstream>
#include <sstream>
#include <string>

#include "timing/optimum.hpp"

namespace beforehand::timing {
namespace {

struct Activity {
  int duration = 0;
  std::vector<int> demands;
  std::vector<std::pair<int, int>> successors;  // activity, lag from start to start
};

struct Instance {
  std::string name, optimum;
  std::vector<int> capacities;
  std::vector<Activity> activities;
};

Activity read_activity(const std::string& line, std::size_t resources) {
  std::istringstream in(line);
  Activity a;
  in >> a.duration;
  a.demands.resize(resources);
  for (auto& d : a.demands) in >> d;
  for (std::string word; in >> word;) {
    const auto colon = word.find(':');
    const int lag = colon == std::string::npos ? a.duration : std::stoi(word.substr(colon + 1));
    a.successors.emplace_back(std::stoi(word.substr(0, colon)), lag);
  }
  return a;
}

std::vector<Instance> instances() {
  std::ifstream file(std::string(PROJECT_DIR) + "/tests/reference/data/rcpsp.txt");
  std::vector<Instance> all;
  for (std::string line; std::getline(file, line);) {
    if (line.starts_with("#")) continue;
    if (!line.starts_with("instance ")) {
      all.back().activities.push_back(read_activity(line, all.back().capacities.size()));
      continue;
    }
    std::istringstream in(line.substr(9));
    Instance& next = all.emplace_back();
    in >> next.name >> next.optimum;
    for (int c = 0; in >> c;) next.capacities.push_back(c);
  }
  return all;
}

ScheduleProblem problem_of(const Instance& instance) {
  ScheduleProblem p;
  p.points = static_cast<int>(instance.activities.size());
  p.finish = p.points - 1;
  p.resources.resize(instance.capacities.size());
  for (std::size_t r = 0; r < p.resources.size(); ++r)
    p.resources[r].capacity = instance.capacities[r];
  for (int i = 0; i < p.points; ++i) {
    const auto& a = instance.activities[static_cast<std::size_t>(i)];
    for (const auto& [successor, lag] : a.successors) p.differences.push_back({i, successor, lag});
    if (i != p.finish) p.differences.push_back({i, p.finish, a.duration});
    for (std::size_t r = 0; r < p.resources.size(); ++r) {
      if (a.demands[r] == 0 || a.duration == 0) continue;
      p.resources[r].intervals.push_back({i, 0, i, a.duration, a.demands[r], {}});
    }
  }
  return p;
}

// Counts every resource in every unit of time, straight from the instance.
void expect_feasible(const Instance& instance, const std::vector<int>& start) {
  for (std::size_t i = 0; i < start.size(); ++i) {
    for (const auto& [successor, lag] : instance.activities[i].successors) {
      EXPECT_GE(start[static_cast<std::size_t>(successor)] - start[i], lag) << instance.name;
    }
  }
  for (int t = 0; t < start.back(); ++t) {
    for (std::size_t r = 0; r < instance.capacities.size(); ++r) {
      int used = 0;
      for (std::size_t i = 0; i < start.size(); ++i) {
        const auto& a = instance.activities[i];
        if (start[i] <= t && t < start[i] + a.duration) used += a.demands[r];
      }
      EXPECT_LE(used, instance.capacities[r]) << instance.name << " at " << t;
    }
  }
}

class PublishedOptimum : public ::testing::TestWithParam<Instance> {};

TEST_P(PublishedOptimum, IsFoundAndProven) {
  const auto& instance = GetParam();
  const auto problem = problem_of(instance);
  const auto found = Minimizer(problem).shortest({});
  if (instance.optimum == "unsat") {
    EXPECT_EQ(found.kind, Optimum::Kind::impossible);
    return;
  }
  ASSERT_EQ(found.kind, Optimum::Kind::proven);
  EXPECT_EQ(found.finish, std::stoi(instance.optimum));
  expect_feasible(instance, found.best.time);
}

INSTANTIATE_TEST_SUITE_P(Scheduling, PublishedOptimum, ::testing::ValuesIn(instances()),
                         [](const auto& tested) {
                           auto name = tested.param.name;
                           for (auto& c : name) c = c == '-' ? '_' : c;
                           return name;
                         });

TEST(SchedulingInstances, AreAllThere) { EXPECT_EQ(instances().size(), 30u); }

}  // namespace
}  // namespace beforehand::timing
