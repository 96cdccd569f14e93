// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// A team's own way with the shipped core build-up (invented: the paste in a cabinet behind the
// chair, mixed only when the light is off), and two of the engine's suggestions taken. Common
// practice has the core mixed while the clinician cures the adhesive, and within easy reach.
#include <gtest/gtest.h>

#include <algorithm>

#include "procedure/edit.hpp"
#include "procedure/reader.hpp"
#include "study/improve.hpp"

namespace beforehand::study {
namespace {

std::string own_way() {
  auto yaml =
      procedure::load_text(std::string(PROJECT_DIR) + "/scenarios/core-build-up/scenario.yaml");
  yaml =
      procedure::with_value(yaml, "places/cabinet",
                            "{name: Cabinet, clock: 1.5, zone: static, motion: V, kind: counter}");
  yaml = procedure::with_value(yaml, "supplies/core-paste/at", "cabinet");
  return procedure::with_value(yaml, "steps/mix-core/after", "[cure-adhesive]");
}

TEST(StudyCoreTrial, TwoSuggestionsTakenMakeItFaster) {
  const auto now = planned(own_way(), {});
  auto changes = possible_changes(now.procedure);
  std::erase_if(changes, [](const Change& c) {
    const auto& path = c.edits.front().path;
    return path != "steps/mix-core/after/0" && path != "supplies/core-paste/at";
  });
  ASSERT_EQ(changes.size(), 2u);
  const auto then = planned(applied(now.yaml, changes), {});  // verified by the separate check
  EXPECT_TRUE(now.plan.proven() && then.plan.proven());
  EXPECT_GE(now.plan.chair_time - then.plan.chair_time, Ms{15'000});
  CompareRequest request;
  request.runs.count = 100;
  request.runs.threads = 2;
  const auto c = compare(now.procedure, then.procedure, {}, request);
  EXPECT_LT(c[Measure::chair_time].b_less_a.mean_sure.high, -15);
  EXPECT_EQ(c[Measure::chair_time].b_better, 1);
}

}  // namespace
}  // namespace beforehand::study
