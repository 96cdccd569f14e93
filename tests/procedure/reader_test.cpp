// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#include "procedure/reader.hpp"

#include <gtest/gtest.h>

#include <algorithm>

namespace beforehand::procedure {
namespace {

const std::string folder = PROJECT_DIR "/tests/scenarios/";

Procedure tiny() {
  const auto text = load_text(folder + "good/tiny.yaml");
  auto reading = read(text);
  EXPECT_EQ(print(reading.problems, "tiny.yaml", text), "");
  return reading.procedure.value_or(Procedure{});
}

StepIx step_named(const Procedure& p, std::string_view id) {
  for (std::size_t i = 0; i < p.steps.size(); ++i) {
    if (p.steps[i].id == id) return StepIx{i};
  }
  return {};
}

TEST(Reader, ReadsWhatIsWritten) {
  const auto p = tiny();
  ASSERT_EQ(p.steps.size(), 10u);
  const Step& rinse = p.step(step_named(p, "rinse"));
  EXPECT_EQ(rinse.title, "Rinses the cavity");
  EXPECT_EQ(rinse.takes.least, Ms{8000});
  EXPECT_EQ(rinse.takes.usual, Ms{10000});
  EXPECT_EQ(rinse.takes.most, Ms{14000});
  EXPECT_TRUE(rinse.leaves.test(static_cast<std::size_t>(Field::wet)));
  EXPECT_EQ(rinse.verb, Verb::work);
  EXPECT_EQ(p.supplies[2].working_time, Ms{90'000});
  EXPECT_EQ(p.supplies[2].starts, SupplyState::stored);
  EXPECT_EQ(p.supplies[1].starts, SupplyState::set_out);
  EXPECT_EQ(p.signals[0].likely_percent, 50);
  EXPECT_EQ(p.people[0].hands, 2);
}

}  // namespace
}  // namespace beforehand::procedure
