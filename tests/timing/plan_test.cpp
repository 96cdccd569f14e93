// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "timing/plan.hpp"

#include <gtest/gtest.h>

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

}  // namespace
}  // namespace beforehand::timing
