// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// What the guided level tells, followed to the letter by somebody who does nothing else.
#include "stage/guide.hpp"

#include <gtest/gtest.h>

#include "base/time.hpp"
#include "playing.hpp"
#include "scoring/score.hpp"

namespace beforehand::stage {
namespace {

using Kind = GuideLine::Kind;
using std::chrono::milliseconds;

/// A second after it is told.
void follow_guide(Sitting& sitting, const Strings& t) {
  std::string told;
  int since = 0;
  for (int i = 0; i < 72'000 && !sitting.over(); ++i) {
    const auto lines = guide_of(sitting, t);
    ActionIx wanted;
    for (const auto& line : lines)
      if (line.kind == Kind::let_go) wanted = line.action;
    const auto kind = lines.front().kind;
    if (!wanted && (kind == Kind::now || kind == Kind::late || kind == Kind::loose))
      wanted = lines.front().action;
    since = wanted ? since + 1 : 0;
    if (since >= 10) {
      const auto now = card_now(sitting.procedure(), sitting.world(), sitting.trainee(), wanted);
      const bool idle = sitting.world().person(sitting.trainee()).attention() == nullptr;
      if (now.held || (now.reason == drill::Reason::none && idle)) sitting.choose(wanted);
      since = 0;
    }
    sitting.pass(milliseconds(100));
  }
}

class Guided : public testing::TestWithParam<const char*> {};
INSTANTIATE_TEST_SUITE_P(Scenarios, Guided,
                         testing::Values("fissure-sealant", "class-ii-composite", "rubber-dam",
                                         "core-build-up", "simple-extraction", "crown-preparation",
                                         "room-turnover", "chair-emergency"),
                         [](const auto& of) {
                           std::string name = of.param;
                           std::erase(name, '-');
                           return name;
                         });

TEST_P(Guided, WhoeverDoesWhatIsToldIsLateAtMost) {
  for (const auto& item : shipped_shelf()) {
    if (item.procedure->id != GetParam()) continue;
    const auto& p = *item.procedure;
    const auto t = english();
    Choice choice;
    choice.level = drill::Level::guided;
    Sitting sitting(p, choice, 7, "", t);
    follow_guide(sitting, t);
    const auto score = scoring::score(p, sitting.run().session(), sitting.trainee());
    std::string errors;
    for (const auto& e : score.errors) errors += "\n  " + duration_text(e.at) + " " + e.what;
    for (const auto& e : score.errors) EXPECT_EQ(e.kind, scoring::ErrorKind::late) << e.what;
    EXPECT_GE(score.total, 95) << errors;
    EXPECT_TRUE(t.missing().empty());
  }
}

}  // namespace
}  // namespace beforehand::stage
