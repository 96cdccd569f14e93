// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "timing/plan.hpp"

#include <gtest/gtest.h>

#include <filesystem>

#include "generated.hpp"
#include "procedure/reader.hpp"
#include "sketch.hpp"
#include "timing/feasible.hpp"
#include "timing/windows.hpp"

namespace beforehand::timing {
namespace {

Plan checked(const Procedure& p, const PlanRequest& request = {}) {
  const auto result = plan(p, request);
  EXPECT_EQ(violations(p, request.happened, result), std::vector<std::string>{});
  return result;
}

TEST(Plan, OfGeneratedProceduresIsProvenAndCanBeCarriedOut) {
  for (unsigned seed = 1; seed <= 5; ++seed) {
    const auto p = generated(seed, 50);
    const auto plan = checked(p);
    EXPECT_TRUE(plan.proven());
    EXPECT_GE(plan.chair_time, earliest_finish(p, {}));
  }
}

// Every scenario that ships, without signals, with each of them, and with all.
TEST(Plan, OfShippedScenariosIsProvenAndCanBeCarriedOut) {
  int scenarios = 0;
  for (const auto& entry :
       std::filesystem::directory_iterator(std::string(PROJECT_DIR) + "/scenarios")) {
    const auto file = entry.path() / "scenario.yaml";
    if (!std::filesystem::exists(file)) continue;
    ++scenarios;
    const auto p = procedure::read(procedure::load_text(file.string())).procedure.value();
    std::vector<std::vector<SignalIx>> cases{{}, {}};
    for (std::size_t i = 0; i < p.signals.size(); ++i) {
      cases.push_back({SignalIx{i}});
      cases[1].push_back(SignalIx{i});
    }
    for (const auto& happened : cases) {
      PlanRequest request;
      request.happened = happened;
      const auto found = checked(p, request);
      EXPECT_TRUE(found.proven()) << p.id;
      EXPECT_EQ(found.lower_bound, found.chair_time) << p.id;
    }
  }
  EXPECT_GE(scenarios, 2);
}

}  // namespace
}  // namespace beforehand::timing
