// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// A drill always ends, whoever assists and however badly: the clinician asks, fetches, goes on. The
// guard of the run loop against a drill that never would (six hours) is never what ends one.
#include <filesystem>
#include <random>

#include "play.hpp"

namespace beforehand {
namespace {

namespace fs = std::filesystem;
using procedure::Procedure;
using procedure::Role;

std::vector<std::string> shipped() {
  std::vector<std::string> ids;
  std::error_code none;  // an empty list fails below, where it can be said
  for (const auto& folder : fs::directory_iterator(fs::path(PROJECT_DIR) / "scenarios", none))
    if (fs::exists(folder.path() / "scenario.yaml"))
      ids.push_back(folder.path().filename().string());
  std::sort(ids.begin(), ids.end());
  return ids;
}

class Ends : public testing::TestWithParam<std::string> {
 protected:
  const Procedure p = test::scenario("scenarios/" + GetParam() + "/scenario.yaml");
  const std::shared_ptr<timing::WindowFinder> finder = std::make_shared<timing::WindowFinder>(p);

  Ms play(drill::Setup setup) {
    drill::Run run(p, setup);
    drill::cast(run, drill::habit_from(setup.assistant), finder);
    run.play_out();
    expect_done(run);
    return run.now();
  }

  // The clinician has come through all of it. Only what is the assistant's may be left, and the
  // drill be closed over it.
  void expect_done(const drill::Run& run) const {
    for (std::size_t i = 0; i < p.steps.size(); ++i) {
      if (p.person(p.steps[i].by.front()).role != Role::clinician) continue;
      EXPECT_TRUE(run.world().finished(StepIx{i})) << p.steps[i].id;
    }
    EXPECT_LT(run.now(), std::chrono::hours{6});
  }
};

INSTANTIATE_TEST_SUITE_P(Shipped, Ends, testing::ValuesIn(shipped()), [](const auto& parameter) {
  auto name = parameter.param;
  std::replace(name.begin(), name.end(), '-', '_');
  return name;
});

TEST_P(Ends, EveryDrillWhoeverAssists) {
  for (std::size_t phase = 0; phase <= p.phases.size(); ++phase) {
    for (const auto level : {drill::Level::guided, drill::Level::unaided, drill::Level::assessed}) {
      for (const auto* assistant : {"absent", "forgetful:50", "asked", "late:20"}) {
        for (std::uint64_t seed = 1; seed <= 3; ++seed) {
          drill::Setup setup;
          setup.seed = seed;
          setup.level = level;
          setup.assistant = assistant;
          if (phase < p.phases.size()) setup.phase = PhaseIx{phase};
          SCOPED_TRACE(testing::Message() << assistant << ", seed " << seed << ", phase " << phase);
          play(setup);
        }
      }
    }
  }
}

// Alone the clinician takes longer, and not without measure: at most 2.4 times as long as beside an
// expert, as measured.
TEST_P(Ends, AloneInThreeTimesTheTimeAtMost) {
  for (std::uint64_t seed = 1; seed <= 10; ++seed) {
    drill::Setup setup;
    setup.seed = seed;
    setup.assistant = "expert";
    const Ms together = play(setup);
    setup.assistant = "absent";
    EXPECT_LT(play(setup), 3 * together) << "seed " << seed;
  }
}

// Three things are missing at once. Each is asked for once, when his patience is out; then he gets
// one after the other, and stands still between them no longer.
TEST(Helping, GetsOneThingAfterTheOther) {
  const auto p = test::scenario("scenarios/simple-extraction/scenario.yaml");
  const auto session = test::play(p, "absent", 1);
  const auto loosens = test::step(p, "luxate");
  std::vector<Ms> asked, began, got;
  for (const auto& e : session.events) {
    if (e.step != loosens) continue;
    if (e.what == drill::What::asked) asked.push_back(e.at);
    if (e.what == drill::What::helping) began.push_back(e.at);
    if (e.what == drill::What::helped) got.push_back(e.at);
  }
  ASSERT_EQ(asked.size(), 3u);
  EXPECT_EQ(asked.front(), asked.back());
  ASSERT_EQ(began.size(), 3u);
  ASSERT_EQ(got.size(), 3u);
  EXPECT_EQ(began[0] - asked[0], p.self_help - p.patience);
  EXPECT_LE(began[1] - got[0], Ms{1});
  EXPECT_LE(began[2] - got[1], Ms{1});
  const auto* starts = test::find(session, drill::What::step_started, loosens);
  ASSERT_TRUE(starts);
  EXPECT_EQ(starts->at, got[2]);
}

// Any keys, for as long as it takes to lose heart, and then nothing more: what is held, kept up or
// begun by then stands in nobody's way for ever.
TEST_P(Ends, EveryDrillThatIsGivenUpAfterAnyKeys) {
  std::mt19937 random(11);
  const auto any = [&](std::size_t n) {
    return std::uniform_int_distribution<std::size_t>(0, n - 1)(random);
  };
  for (std::uint64_t seed = 1; seed <= 60; ++seed) {
    SCOPED_TRACE(testing::Message() << "seed " << seed);
    drill::Setup setup;
    setup.seed = seed;
    drill::Run run(p, setup);
    drill::cast(run, std::nullopt, finder);
    const auto keys = any(400);
    for (std::size_t k = 0; k < keys && !run.over(); ++k) {
      drill::Command c;
      c.person = PersonIx{any(p.people.size())};
      c.op = std::array{drill::Op::act, drill::Op::act, drill::Op::act, drill::Op::stop,
                        drill::Op::break_off}[any(5)];
      c.action = ActionIx{any(p.actions.size())};
      if (p.person(c.person).role != Role::clinician) run.submit(c);
      run.advance_to(run.now() + Ms{static_cast<int>(any(4000))});
    }
    run.play_out();
    expect_done(run);
  }
}

}  // namespace
}  // namespace beforehand
