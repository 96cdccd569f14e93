// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// What a practice owner is promised, from start to finish inside the program, by keys: a team of
// two rehearses its own way with the core build-up at one machine, sees where one waited, takes two
// of the program's suggestions and sees in numbers that the new protocol is faster. The team's own
// way is invented: the paste in a cabinet behind the chair, mixed only when the light is off.
// Common practice has the core mixed while the clinician cures the adhesive, and within easy reach.
#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>

#include "drill/bots.hpp"
#include "drill/clinician.hpp"
#include "playing.hpp"
#include "procedure/edit.hpp"
#include "procedure/reader.hpp"
#include "stage/big_buttons.hpp"

namespace beforehand::stage {
namespace {

using Stand = Program::Stand;

std::string own_way() {
  auto yaml = procedure::load_text(PROJECT_DIR "/scenarios/core-build-up/scenario.yaml");
  yaml =
      procedure::with_value(yaml, "places/cabinet",
                            "{name: Cabinet, clock: 1.5, zone: static, motion: V, kind: counter}");
  yaml = procedure::with_value(yaml, "supplies/core-paste/at", "cabinet");
  return procedure::with_value(yaml, "steps/mix-core/after", "[cure-adhesive]");
}

/// One of the two at the keyboard: knows what a controller knows, and presses the key for it.
class Player {
 public:
  Player(std::size_t column, std::unique_ptr<drill::Controller> knows)
      : column_(column), knows_(std::move(knows)) {}

  void act(Program& program) {
    const auto& r = *program.rehearse()->rehearsal();
    drill::Command wanted;
    for (int i = 0; i < 3 && !r.over(); ++i) {
      if (!knows_->decide(r.procedure(), r.run().world(), wanted)) return;
      press_key_of(program, wanted);
    }
  }

 private:
  void press_key_of(Program& program, const drill::Command& wanted) {
    for (int page = 0; page < 20; ++page) {
      const auto skip = static_cast<std::size_t>(3 * page);
      const auto all =
          program.rehearse()->rehearsal()->options(PersonIx{column_}, buttons_a_column, skip);
      for (std::size_t k = 0; k < all.size(); ++k) {
        const auto& c = all[k].command;
        if (c.op != wanted.op || c.action != wanted.action || c.step != wanted.step) continue;
        for (int i = 0; i < page; ++i) press(program, Key::page_down);
        type(program, std::string(1, static_cast<char>(column_keys[column_][k])));
        for (int i = 0; i < page; ++i) press(program, Key::page_up);
        return;
      }
    }
  }

  std::size_t column_;
  std::unique_ptr<drill::Controller> knows_;
};

class TeamWalk : public testing::Test {
 protected:
  TeamWalk() {
    std::filesystem::create_directories(folder_ / "core-build-up");
    std::ofstream(folder_ / "core-build-up/scenario.yaml") << own_way();
  }

  Program program() {
    Outside outside;
    outside.scenarios = folder_.path().string();
    outside.new_recording = [this](const std::string& id, std::uint64_t) {
      return folder_ / (id + ".jsonl");
    };
    outside.new_seed = [] { return std::uint64_t{7}; };
    return Program(read_shelf(folder_.path()), english(), std::move(outside));
  }

  static void rehearse(Program& program) {
    press(program, Key::enter);
    type(program, "r");
    press(program, Key::enter);
    ASSERT_EQ(program.stand(), Stand::rehearse);
    const auto& p = program.rehearse()->rehearsal()->procedure();
    const auto finder = std::make_shared<timing::WindowFinder>(p);
    const PersonIx clinician = p.who(procedure::Role::clinician),
                   assistant = p.who(procedure::Role::assistant);
    Player one(clinician.at(), std::make_unique<drill::ScriptedClinician>(clinician));
    Player two(assistant.at(),
               std::make_unique<drill::Bot>(assistant, *drill::habit_from("late:3"), 7, finder));
    for (int i = 0; i < 12'000 && !program.rehearse()->debriefed(); ++i) {
      one.act(program);
      two.act(program);
      program.pass(std::chrono::milliseconds(100));
    }
    ASSERT_TRUE(program.rehearse()->debriefed());
  }

  TemporaryFolder folder_;
};

std::size_t number_of(const study::Improvements& all, const std::string& path) {
  for (std::size_t i = 0; i < all.found.size(); ++i)
    if (all.found[i].change.edits.front().path == path) return i + 1;
  return 0;
}

TEST_F(TeamWalk, FromTheRehearsalToAFasterProtocol) {
  auto program = this->program();
  rehearse(program);
  const auto& r = *program.rehearse()->rehearsal();
  EXPECT_EQ(r.run().session().events.back().value, 0);  // everything was done
  EXPECT_TRUE(look_at(program, 1280, 2400, 1).shows("waited"));
  EXPECT_TRUE(look_at(program, 1280, 720, 1).faults(16).empty());

  type(program, "w");
  ASSERT_EQ(program.stand(), Stand::improve);
  program.settle();
  ASSERT_NE(program.improve()->found(), nullptr);
  const auto& found = *program.improve()->found();
  const auto sooner = number_of(found, "steps/mix-core/after/0"),
             nearer = number_of(found, "supplies/core-paste/at");
  ASSERT_TRUE(sooner >= 1 && sooner <= 9 && nearer >= 1 && nearer <= 9) << sooner << " " << nearer;
  type(program, std::to_string(sooner));
  type(program, std::to_string(nearer));
  press(program, Key::enter);
  EXPECT_EQ(procedure::load_text(folder_ / "core-build-up/scenario.yaml"), own_way());
  EXPECT_TRUE(std::filesystem::exists(folder_ / "core-build-up-2/scenario.yaml"));
  press(program, Key::enter);
  ASSERT_EQ(program.stand(), Stand::compare);
  program.settle();
  ASSERT_NE(program.compare()->found(), nullptr);
  const auto& c = *program.compare()->found();
  EXPECT_LT(c[study::Measure::chair_time].b_less_a.mean_sure.high, -15);
  EXPECT_GT(c[study::Measure::chair_time].b_better, 0.99);
  EXPECT_TRUE(look_at(program, 1280, 720, 1).shows("B takes"));
  EXPECT_TRUE(look_at(program, 1280, 720, 1).faults(16).empty());
  for (const auto& [key, shown] : program.strings().missing())
    ADD_FAILURE() << "no text for " << key;
}

}  // namespace
}  // namespace beforehand::stage
