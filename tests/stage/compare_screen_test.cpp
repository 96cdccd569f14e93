// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// Two protocols side by side, by keyboard alone.
#include <gtest/gtest.h>

#include <fstream>

#include "playing.hpp"
#include "procedure/edit.hpp"
#include "procedure/reader.hpp"
#include "stage/app.hpp"

namespace beforehand::stage {
namespace {

using Stand = Program::Stand;

/// The smallest scenario, and a copy in which the clinician's preparing takes 20 s longer.
class TwoTinies {
 public:
  TwoTinies() {
    auto text = procedure::load_text(PROJECT_DIR "/tests/scenarios/good/tiny.yaml");
    write("tiny", text);
    text = procedure::with_value(text, "id", "tiny-2");
    text = procedure::with_value(text, "title", "The longer way");
    const auto read = procedure::read(text).procedure;
    for (const auto& s : read->steps)
      if (read->person(s.by.front()).role == procedure::Role::clinician && !s.lapse) {
        const auto takes = s.takes.usual + Ms{20'000};
        text = procedure::with_value(text, "steps/" + s.id + "/takes",
                                     std::to_string(takes.count() / 1000) + " s");
        break;
      }
    write("tiny-2", text);
  }

  Program program() const {
    Outside outside;
    outside.scenarios = folder_.path().string();
    outside.new_recording = [](const std::string&, std::uint64_t) { return std::string(); };
    outside.new_seed = [] { return std::uint64_t{7}; };
    return Program(read_shelf(folder_.path()), english(), std::move(outside));
  }

 private:
  void write(const std::string& id, const std::string& text) const {
    std::filesystem::create_directories(folder_ / id);
    std::ofstream(folder_ / (id + "/scenario.yaml")) << text;
  }
  TemporaryFolder folder_;
};

void look(Program& program, const std::string& where) {
  for (const auto& [width, height, scale] :
       {std::tuple{1280, 720, 1.0}, std::tuple{1920, 1080, 2.0}}) {
    const double fits = fitting_scale(scale, width, height);
    for (const auto& fault : look_at(program, width, height, fits).faults(16 * fits))
      ADD_FAILURE() << where << ", " << width << ": " << fault;
  }
}

TEST(CompareScreen, TheLongerWayIsFoundLonger) {
  const TwoTinies tinies;
  auto program = tinies.program();
  press(program, Key::enter);
  type(program, "p");
  ASSERT_EQ(program.stand(), Stand::compare);
  EXPECT_EQ(program.compare()->chosen(0).id, "tiny");
  EXPECT_EQ(program.compare()->chosen(1).id, "tiny-2");
  look(program, "choice");
  EXPECT_FALSE(program.moves());
  press(program, Key::enter);
  EXPECT_TRUE(program.moves());
  look(program, "working");
  program.settle();
  ASSERT_NE(program.compare()->found(), nullptr);
  const auto& chair = (*program.compare()->found())[study::Measure::chair_time];
  EXPECT_GT(chair.b_less_a.mean_sure.low, 10);
  EXPECT_LE(chair.b_less_a.mean_sure.half_width(), 1);
  const auto page = look_at(program, 1280, 4000, 1);
  EXPECT_TRUE(page.shows("B – The chart in words"));
  for (const auto& step : program.start().chosen()->steps)
    if (step.when.empty() && !step.lapse) EXPECT_TRUE(page.shows(step.title)) << step.title;
  EXPECT_TRUE(look_at(program, 1280, 720, 1).shows("A takes"));
  look(program, "found");
  press(program, Key::end);
  look(program, "end");
  EXPECT_TRUE(look_at(program, 1280, 720, 1).shows("Which steps make the difference"));
  press(program, Key::escape);
  EXPECT_EQ(program.stand(), Stand::compare);
  press(program, Key::escape);
  EXPECT_EQ(program.stand(), Stand::start);
  for (const auto& [key, shown] : program.strings().missing())
    ADD_FAILURE() << "no text for " << key;
}

// The list that the keyboard is not on shows what is chosen in it, too.
TEST(CompareScreen, BothListsShowWhatIsChosen) {
  auto program = program_on(shipped_shelf());
  press(program, Key::enter);
  type(program, "p");
  press(program, Key::left);
  for (int i = 0; i < 40; ++i) press(program, Key::down);
  press(program, Key::right);
  for (int i = 0; i < 40; ++i) press(program, Key::up);
  const auto& compare = *program.compare();
  ASSERT_NE(compare.chosen(0).title, compare.chosen(1).title);
  const auto seen = look_at(program, 1280, 720, 1);
  for (const int side : {0, 1})
    EXPECT_TRUE(seen.shows(compare.chosen(side).title)) << compare.chosen(side).title;
}

TEST(CompareScreen, KeysChooseBothSidesAndTheAssistant) {
  auto program = program_on(shipped_shelf());
  press(program, Key::enter);
  type(program, "p");
  auto& screen = *program.compare();
  const auto a = screen.chosen(0).title, b = screen.chosen(1).title;
  press(program, Key::down);  // the other way comes first
  EXPECT_EQ(screen.chosen(0).title, a);
  EXPECT_NE(screen.chosen(1).title, b);
  press(program, Key::left);
  press(program, Key::down);
  EXPECT_NE(screen.chosen(0).title, a);
  press(program, Key::back_tab);
  press(program, Key::right);
  EXPECT_TRUE(look_at(program, 1280, 720, 1).shows("3 s late"));
  look(program, "choice");
  EXPECT_TRUE(look_at(program, 1280, 2400, 1).shows("One-bottle"));  // cards are there too
}

TEST(CompareScreen, StoppedShowsWhatIsDoneOrGoesBack) {
  auto program = program_on(shipped_shelf());
  press(program, Key::enter);
  type(program, "p");
  press(program, Key::enter);
  press(program, Key::escape);
  program.settle();
  EXPECT_FALSE(program.moves());
  EXPECT_EQ(program.stand(), Stand::compare);
  if (const auto* found = program.compare()->found()) {
    EXPECT_GT(found->runs, 0u);
  } else {
    EXPECT_TRUE(look_at(program, 1280, 720, 1).shows("as it is"));
  }
}

}  // namespace
}  // namespace beforehand::stage
