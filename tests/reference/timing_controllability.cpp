// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// Public networks with uncertainty and the verdicts published with them; data/stnu.txt names the
// source.
#include <gtest/gtest.h>

#include <fstream>
#include <sstream>
#include <string>

#include "timing/controllability.hpp"

namespace beforehand::timing {
namespace {

struct Published {
  std::string name, verdict;
  UncertainNetwork network;
};

// Point 0 is ours: no point of the network lies before it.
std::vector<Published> published() {
  std::ifstream file(std::string(PROJECT_DIR) + "/tests/reference/data/stnu.txt");
  std::vector<Published> all;
  for (std::string line; std::getline(file, line);) {
    std::istringstream in(line);
    if (line.starts_with("#")) continue;
    if (line.starts_with("network ")) {
      std::string word;
      Published& next = all.emplace_back();
      in >> word >> next.name >> next.verdict >> next.network.points;
      ++next.network.points;
      for (std::size_t p = 1; p < next.network.points; ++p) {
        const auto point = static_cast<TemporalNetwork::Point>(p);
        next.network.constraints.push_back({0, point, Ms{0}, never});
      }
      continue;
    }
    TemporalNetwork::Point from = 0, to = 0;
    std::string least, most, uncertain;
    in >> from >> to >> least >> most >> uncertain;
    const Ms at_least = least == "-" ? -never : Ms{std::stoll(least)};
    const Ms at_most = most == "-" ? never : Ms{std::stoll(most)};
    if (uncertain == "u") {
      all.back().network.contingent.push_back({from, to, at_least, at_most});
    } else {
      all.back().network.constraints.push_back({from, to, at_least, at_most});
    }
  }
  return all;
}

TEST(PublishedVerdicts, OnDynamicControllability) {
  const auto all = published();
  EXPECT_EQ(all.size(), 48u);
  for (const auto& p : all) {
    const auto found = dynamic_controllability(p.network);
    EXPECT_EQ(found.controllable, p.verdict == "controllable") << p.name;
    EXPECT_EQ(found.controllable, found.constraints.empty() && found.contingent.empty()) << p.name;
  }
}

}  // namespace
}  // namespace beforehand::timing
