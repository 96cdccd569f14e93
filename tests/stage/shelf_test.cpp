// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// What the window offers: always what was saved last, never what cannot be played; with a card or
// materials laid over it; in the language of the screens. And a drill keeps what it began with.
#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>
#include <memory>

#include "drill/recording.hpp"
#include "playing.hpp"
#include "procedure/reader.hpp"

namespace beforehand::stage {
namespace {

namespace fs = std::filesystem;
using Stand = Program::Stand;

std::string shipped(const std::string& name) {
  return procedure::load_text(PROJECT_DIR "/scenarios/" + name);
}

/// A folder with a scenario that can be changed, and a program on it.
struct Desk {
  TemporaryFolder folder;
  std::string language = "en", own;  // own: a second folder, as the user's own
  bool tasks = false;                // the tray before the drill, and clearing up after it
  std::shared_ptr<std::string> kept = std::make_shared<std::string>();  // the settings saved last

  Desk() {
    fs::create_directories(folder / "tiny");
    save(tiny());
  }
  static std::string tiny() {
    return procedure::load_text(PROJECT_DIR "/tests/scenarios/good/tiny.yaml");
  }
  std::string file() const { return folder / "tiny/scenario.yaml"; }
  void save(const std::string& text, const std::string& name = "tiny/scenario.yaml") const {
    std::ofstream(folder / name, std::ios::binary) << text;
  }
  Program program() const {
    Outside outside;
    outside.scenarios = folder.path().string();
    outside.own_scenarios = own;
    outside.save = [kept = kept](const Settings& settings) {
      *kept = to_text(settings);
      return std::string();
    };
    const auto recordings = folder.path();
    outside.new_recording = [recordings](const std::string& scenario, std::uint64_t) {
      return (recordings / (scenario + ".jsonl")).string();
    };
    outside.new_seed = [] { return std::uint64_t{7}; };
    outside.strings_in = in_language;
    outside.languages = {{"en", "English"}, {"es", "Español"}};
    auto settings = settings_from(*kept, "settings");
    EXPECT_TRUE(settings.problems.empty());
    settings.settings.language = language;
    settings.settings.set_up = tasks;
    return Program(read_shelf(folder.path(), language), in_language(language), std::move(outside),
                   {}, std::move(settings));
  }
};

std::string with(std::string text, const std::string& old, const std::string& now) {
  const auto at = text.find(old);
  EXPECT_NE(at, std::string::npos) << old;
  return text.replace(at, old.size(), now);
}

void wait_a_moment(Program& program) { program.pass(std::chrono::milliseconds(250)); }

TEST(ShelfWatch, SeesWhatIsSavedAddedAndTakenAway) {
  const Desk desk;
  ShelfWatch watch(desk.folder.path());
  EXPECT_FALSE(watch.changed());
  desk.save(desk.tiny() + "\n");
  EXPECT_TRUE(watch.changed());
  EXPECT_FALSE(watch.changed());
  fs::create_directories(desk.folder / "tiny/cards/es");
  desk.save("card: 1\n", "tiny/cards/mine.yaml");
  EXPECT_TRUE(watch.changed());
  desk.save("texts: 1\n", "tiny/cards/es/mine.yaml");
  EXPECT_TRUE(watch.changed());
  fs::remove(desk.folder / "tiny/cards/mine.yaml");
  EXPECT_TRUE(watch.changed());
  EXPECT_FALSE(ShelfWatch("no/such/folder").changed());
}

TEST(LiveReload, TheBriefingShowsWhatWasSavedAndItsErrorsAndComesBack) {
  const Desk desk;
  auto program = desk.program();
  press(program, Key::enter);
  ASSERT_EQ(program.stand(), Stand::briefing);
  const auto title = procedure::read(desk.tiny()).procedure->title;
  EXPECT_TRUE(shows(program, title));
  desk.save(with(desk.tiny(), "title: ", "title: Newer "));
  wait_a_moment(program);
  EXPECT_TRUE(program.moves()) << "it is drawn at once";
  EXPECT_TRUE(shows(program, "Newer " + title));
  desk.save(with(desk.tiny(), "does: mix", "does: mixx"));
  wait_a_moment(program);
  EXPECT_TRUE(shows(program, "This cannot be played yet"));
  EXPECT_TRUE(shows(program, "scenario.yaml:")) << "the place";
  EXPECT_TRUE(shows(program, "did you mean")) << "the remedy";
  press(program, Key::enter);
  type(program, "o");
  EXPECT_EQ(program.stand(), Stand::briefing) << "what cannot be played cannot be begun";
  desk.save(desk.tiny());
  wait_a_moment(program);
  program.settle();
  EXPECT_TRUE(shows(program, title));
  press(program, Key::enter);
  EXPECT_EQ(program.stand(), Stand::drill);
}

TEST(LiveReload, TheShelfOffersOnlyWhatCanBePlayedAndSaysWhatIsWrong) {
  const Desk desk;
  auto program = desk.program();
  desk.save("beforehand: 1\n");
  wait_a_moment(program);
  EXPECT_TRUE(shows(program, "Cannot be played"));
  EXPECT_TRUE(shows(program, "scenario.yaml:1:"));
  press(program, Key::enter);
  EXPECT_EQ(program.stand(), Stand::start);
  desk.save(desk.tiny());
  fs::create_directories(desk.folder / "another");
  desk.save(with(desk.tiny(), "title: ", "title: Another "), "another/scenario.yaml");
  wait_a_moment(program);
  EXPECT_TRUE(shows(program, "Another "));
  press(program, Key::enter);
  EXPECT_EQ(program.stand(), Stand::briefing);
}

// Durations that contradict each other: each key is right, and still nobody can play it.
TEST(LiveReload, WhatItsTimesMakeImpossibleIsNotOffered) {
  const Desk desk;
  desk.save(with(desk.tiny(),
                 "takes: {least: 8 s, usual: 10 s, most: 14 s}\n    devices: [water-line]",
                 "takes: {least: 8 s, usual: 10 s, most: 14 s}\n    devices: [water-line]\n"
                 "    after: [{step: blot, at-most: 1 s}]"));
  auto program = desk.program();
  EXPECT_TRUE(shows(program, "Cannot be played"));
  press(program, Key::enter);
  EXPECT_EQ(program.stand(), Stand::start);
}

TEST(LiveReload, ARunningDrillKeepsItsOwnVersionAndSaysThatThereIsANewerOne) {
  const Desk desk;
  auto program = desk.program();
  press(program, Key::enter);
  press(program, Key::enter);
  ASSERT_EQ(program.stand(), Stand::drill);
  wait_a_moment(program);
  EXPECT_FALSE(shows(program, "Newer version"));
  desk.save(with(desk.tiny(), "title: ", "title: Newer "));
  wait_a_moment(program);
  EXPECT_TRUE(shows(program, "Newer version"));
  const auto played = program.sitting()->procedure().title;
  EXPECT_EQ(played.find("Newer"), std::string::npos);
  ASSERT_TRUE(play_to_debrief(program));
  const auto recording = procedure::load_text(program.sitting()->recording());
  const auto old = procedure::read(desk.tiny());
  EXPECT_TRUE(drill::from_text(recording, *old.procedure, "recording").complete());
  press(program, Key::escape);
  ASSERT_EQ(program.stand(), Stand::start);
  EXPECT_TRUE(shows(program, "Newer " + played));
}

TEST(LiveReload, ADrillIsNotTroubledByAFileThatBroke) {
  const Desk desk;
  auto program = desk.program();
  press(program, Key::enter);
  press(program, Key::enter);
  desk.save("nonsense: [");
  wait_a_moment(program);
  EXPECT_TRUE(play_to_debrief(program));
}

TEST(LiveReload, TheUsersOwnFolderIsWatchedAsWell) {
  Desk desk;
  const TemporaryFolder own;
  desk.own = own.path().string();
  auto program = desk.program();
  EXPECT_FALSE(shows(program, "Mine "));
  fs::create_directories(own / "mine");
  std::ofstream(own / "mine/scenario.yaml") << with(desk.tiny(), "title: ", "title: Mine ");
  wait_a_moment(program);
  EXPECT_TRUE(shows(program, "Mine "));
  std::ofstream(own / "mine/scenario.yaml") << with(desk.tiny(), "title: ", "title: Mine, newer ");
  wait_a_moment(program);
  EXPECT_TRUE(shows(program, "Mine, newer "));
  std::ofstream(own / "mine/scenario.yaml") << with(desk.tiny(), "does: mix", "does: mixx");
  wait_a_moment(program);
  EXPECT_TRUE(shows(program, "Cannot be played"));
}

TEST(LiveReload, MaterialsOfTheUsersOwnFolderAreOffered) {
  Desk desk;
  const TemporaryFolder own;
  desk.own = own.path().string();
  auto program = desk.program();
  press(program, Key::enter);
  EXPECT_FALSE(shows(program, "Times of materials"));
  fs::create_directories(own / "materials");
  std::ofstream(own / "materials/ours.yaml")
      << with(with(shipped("materials/generic.yaml"), "id: generic", "id: ours"),
              "title: Generic materials, of no product", "title: Our cupboard");
  wait_a_moment(program);
  EXPECT_TRUE(shows(program, "Times of materials"));
  type(program, "m");
  EXPECT_TRUE(shows(program, "Our cupboard"));
}

// On its tray lie things that can be laid.
struct WithTray : Desk {
  WithTray() {
    tasks = true;
    fs::copy(PROJECT_DIR "/scenarios/fissure-sealant", folder / "tiny",
             fs::copy_options::overwrite_existing | fs::copy_options::recursive);
  }
  static std::string text() { return shipped("fissure-sealant/scenario.yaml"); }
};

TEST(LiveReload, TheTrayIsLaidOnForWhatWasSavedMeanwhile) {
  const WithTray desk;
  auto program = desk.program();
  press(program, Key::enter);
  press(program, Key::enter);
  ASSERT_EQ(program.stand(), Stand::set_up);
  const auto first = program.set_up()->items()[0].name;
  press(program, Key::enter);  // lays it
  desk.save(desk.text() + "\n");
  wait_a_moment(program);
  ASSERT_EQ(program.stand(), Stand::set_up);
  ASSERT_EQ(program.set_up()->laid().size(), 1u) << "what lay there still lies there";
  EXPECT_EQ(program.set_up()->items()[program.set_up()->laid()[0]].name, first);
  desk.save(with(desk.text(), "name: Cotton rolls", "name: Rolls of cotton"));
  wait_a_moment(program);
  EXPECT_TRUE(shows(program, "Rolls of cotton")) << "shown at once";
  EXPECT_TRUE(shows(program, "saved anew"));
  type(program, "d");
  ASSERT_EQ(program.stand(), Stand::drill);
  const auto& supplies = program.sitting()->procedure().supplies;
  EXPECT_TRUE(std::any_of(supplies.begin(), supplies.end(),
                          [](const auto& s) { return s.name == "Rolls of cotton"; }));
}

TEST(LiveReload, ATrayIsNotTroubledByAnotherScenario) {
  const WithTray desk;
  fs::create_directories(desk.folder / "another");
  desk.save(desk.tiny(), "another/scenario.yaml");
  auto program = desk.program();
  press(program, Key::down);
  press(program, Key::enter);
  press(program, Key::enter);
  ASSERT_EQ(program.stand(), Stand::set_up);
  press(program, Key::enter);
  desk.save(desk.tiny() + "\n", "another/scenario.yaml");
  wait_a_moment(program);
  EXPECT_FALSE(shows(program, "saved anew"));
  EXPECT_EQ(program.set_up()->laid().size(), 1u);
}

TEST(LiveReload, WhatBrokeWhileTheTrayWasLaidIsShownAtTheBriefing) {
  const WithTray desk;
  auto program = desk.program();
  press(program, Key::enter);
  press(program, Key::enter);
  ASSERT_EQ(program.stand(), Stand::set_up);
  desk.save(with(desk.text(), "does: open", "does: opne"));
  wait_a_moment(program);
  EXPECT_EQ(program.stand(), Stand::briefing);
  EXPECT_TRUE(shows(program, "did you mean"));
  desk.save(desk.text());
  wait_a_moment(program);
  press(program, Key::enter);
  EXPECT_EQ(program.stand(), Stand::set_up);
}

void play_the_drill(Program& program) {
  for (int i = 0; i < 20'000 && program.stand() == Stand::drill; ++i) {
    do_what_is_urgent(program);
    program.pass(std::chrono::milliseconds(100));
  }
  program.pass(Program::deaf_after_a_drill);
}

TEST(LiveReload, ClearingUpAndTheDebriefSayThatThereIsANewerOneAndTheNextDrillIsOfIt) {
  const WithTray desk;
  auto program = desk.program();
  press(program, Key::enter);
  press(program, Key::enter);
  type(program, "d");
  ASSERT_EQ(program.stand(), Stand::drill);
  play_the_drill(program);
  ASSERT_EQ(program.stand(), Stand::turnover);
  EXPECT_FALSE(shows(program, "newer version"));
  desk.save(with(desk.text(), "title: ", "title: Newer "));
  wait_a_moment(program);
  ASSERT_EQ(program.stand(), Stand::turnover);
  EXPECT_TRUE(shows(program, "newer version"));
  EXPECT_EQ(program.sitting()->procedure().title.find("Newer"), std::string::npos);
  type(program, "d");
  ASSERT_EQ(program.stand(), Stand::debrief);
  EXPECT_TRUE(shows(program, "newer version"));
  desk.save("nonsense: [");
  wait_a_moment(program);
  program.settle();
  press(program, Key::enter);  // the same again: what broke cannot be played, so the old one
  ASSERT_EQ(program.stand(), Stand::drill);
  EXPECT_EQ(program.sitting()->procedure().title.find("Newer"), std::string::npos);
  play_the_drill(program);
  ASSERT_EQ(program.stand(), Stand::turnover);
  type(program, "d");
  ASSERT_EQ(program.stand(), Stand::debrief);
  desk.save(with(desk.text(), "title: ", "title: Newer "));
  wait_a_moment(program);
  type(program, "n");
  ASSERT_EQ(program.stand(), Stand::drill);
  EXPECT_NE(program.sitting()->procedure().title.find("Newer"), std::string::npos);
}

TEST(LiveReload, RehearsingAndObservingSayThatThereIsANewerOne) {
  for (const auto* way : {"r", "o"}) {
    const WithTray desk;
    auto program = desk.program();
    press(program, Key::enter);
    type(program, way);
    if (program.stand() == Stand::rehearse) press(program, Key::enter);
    const auto before = program.stand();
    ASSERT_NE(before, Stand::briefing) << way;
    EXPECT_FALSE(shows(program, "newer version")) << way;
    desk.save(with(desk.text(), "title: ", "title: Newer "));
    wait_a_moment(program);
    EXPECT_EQ(program.stand(), before);
    EXPECT_TRUE(shows(program, "newer version")) << way;
    press(program, Key::escape);
    EXPECT_TRUE(shows(program, "newer version")) << way << ", looked back at";
  }
}

// ---- what is laid over it ----------------------------------------------------------------------

struct OnClassII : Desk {
  OnClassII() {
    fs::copy(PROJECT_DIR "/scenarios/class-ii-composite", folder / "class-ii-composite",
             fs::copy_options::recursive);
    fs::copy(PROJECT_DIR "/scenarios/materials", folder / "materials");
    fs::remove_all(folder / "tiny");
  }
};

TEST(Laid, ACardIsChosenAtTheBriefingAndNamedFromThereOn) {
  const OnClassII desk;
  auto program = desk.program();
  press(program, Key::enter);
  EXPECT_TRUE(shows(program, "As the scenario has it"));
  type(program, "c");
  EXPECT_TRUE(shows(program, "Left-handed"));
  type(program, "c");
  EXPECT_TRUE(shows(program, "One-bottle"));
  const auto title = procedure::read(shipped("class-ii-composite/scenario.yaml")).procedure->title;
  EXPECT_TRUE(shows(program, "Briefing: " + title.substr(0, 12)));
  program.settle();
  press(program, Key::enter);
  ASSERT_EQ(program.stand(), Stand::drill);
  EXPECT_EQ(program.sitting()->procedure().card, "one-bottle");
  EXPECT_TRUE(shows(program, "One-bottle"));
  program.sitting()->abandon();
  const auto header = procedure::load_text(program.sitting()->recording());
  EXPECT_NE(header.find(R"("card":"one-bottle")"), std::string::npos);
}

TEST(Laid, BackwardsTheLastCardComesFirstAndTheChoiceIsKept) {
  const OnClassII desk;
  auto program = desk.program();
  press(program, Key::enter);
  ASSERT_TRUE(press_on(program, "←"));
  EXPECT_TRUE(shows(program, "One-bottle"));
  press(program, Key::escape);
  press(program, Key::enter);
  EXPECT_TRUE(shows(program, "One-bottle"));
  type(program, "c");
  EXPECT_TRUE(shows(program, "As the scenario has it"));
}

TEST(Laid, IsRememberedForEachScenarioFromOneStartOfTheProgramToTheNext) {
  const OnClassII desk;
  fs::create_directories(desk.folder / "tiny");
  desk.save(desk.tiny());
  {
    auto program = desk.program();
    EXPECT_FALSE(shows(program, "[Left-handed"));
    press(program, Key::down);
    press(program, Key::enter);
    ASSERT_TRUE(shows(program, "As the scenario has it"));
    type(program, "c");
    ASSERT_TRUE(shows(program, "Left-handed"));
    press(program, Key::escape);
    EXPECT_TRUE(shows(program, "[Left-handed")) << "the shelf says so";
  }
  EXPECT_NE(desk.kept->find("card.class-ii-composite = left-handed\n"), std::string::npos)
      << *desk.kept;
  auto program = desk.program();
  EXPECT_TRUE(shows(program, "[Left-handed"));
  press(program, Key::enter);  // the other scenario knows nothing of it
  ASSERT_EQ(program.stand(), Stand::briefing);
  EXPECT_FALSE(shows(program, "Left-handed"));
  press(program, Key::escape);
  press(program, Key::down);
  press(program, Key::enter);
  EXPECT_TRUE(shows(program, "Left-handed"));
  press(program, Key::enter);
  EXPECT_EQ(program.sitting()->procedure().card, "left-handed");
}

TEST(Laid, ACardThatIsGoneIsForgottenQuietly) {
  const OnClassII desk;
  *desk.kept = "card.class-ii-composite = no-more\nmaterials.class-ii-composite = neither\n";
  auto program = desk.program();
  press(program, Key::enter);
  EXPECT_TRUE(shows(program, "As the scenario has it"));
  program.settle();
  press(program, Key::enter);
  EXPECT_EQ(program.stand(), Stand::drill);
}

TEST(Laid, MaterialsGiveTheirTimes) {
  const OnClassII desk;
  auto slow = shipped("materials/generic.yaml");
  desk.save(with(with(slow, "id: generic", "id: ours"), "title: Generic materials, of no product",
                 "title: Our cupboard"),
            "materials/ours.yaml");
  auto program = desk.program();
  press(program, Key::enter);
  type(program, "mm");
  EXPECT_TRUE(shows(program, "Our cupboard"));
  program.settle();
  press(program, Key::enter);
  EXPECT_EQ(program.sitting()->procedure().materials, "ours");
}

TEST(Laid, ImprovingAndComparingSayThatTheyLeaveTheMaterialsOut) {
  for (const auto* way : {"w", "p"}) {
    const OnClassII desk;
    auto program = desk.program();
    press(program, Key::enter);
    type(program, way);
    EXPECT_FALSE(shows(program, "Without the materials")) << way;
    press(program, Key::escape);
    press(program, Key::enter);
    type(program, "m");
    type(program, way);
    EXPECT_TRUE(shows(program, "Without the materials")) << way;
  }
}

TEST(Laid, ACardThatCannotBePlayedSaysSoAndTheScenarioStaysOffered) {
  const OnClassII desk;
  desk.save("card: 1\nid: odd\ntitle: An odd one\nscenario: class-ii-composite\nsteps: 5\n",
            "class-ii-composite/cards/a.yaml");
  auto program = desk.program();
  press(program, Key::enter);
  type(program, "c");
  EXPECT_TRUE(shows(program, "This cannot be played yet"));
  EXPECT_TRUE(shows(program, "a.yaml:5:"));
  press(program, Key::enter);
  EXPECT_EQ(program.stand(), Stand::briefing);
  type(program, "c");
  press(program, Key::enter);
  EXPECT_EQ(program.stand(), Stand::drill);
}

// ---- language ----------------------------------------------------------------------------------

TEST(Language, TheDrillSpeaksThatOfTheScreens) {
  OnClassII desk;
  desk.language = "es";
  auto program = desk.program();
  const auto es = shipped("class-ii-composite/es.yaml");
  press(program, Key::enter);
  press(program, Key::enter);
  const auto& p = program.sitting()->procedure();
  EXPECT_EQ(p.language, "es");
  EXPECT_NE(es.find(p.step(StepIx{0}).title), std::string::npos);
  for (int i = 0; i < 20; ++i) wait_a_moment(program);
  const auto& card = program.sitting()->cards()[0];
  const auto& supply = p.supply(p.action(card.action).supply).name;
  EXPECT_NE(es.find(supply), std::string::npos) << supply;
  EXPECT_NE(card.title.find(supply), std::string::npos) << card.title;
  EXPECT_TRUE(shows(program, card.title.substr(0, 8))) << card.title;
  // The same drill all the same: a recording is no matter of language.
  const auto english = procedure::read(shipped("class-ii-composite/scenario.yaml"));
  EXPECT_EQ(p.fingerprint, english.procedure->fingerprint);
}

TEST(Language, WhatIsWrongWithAScenarioIsSaidInThatOfTheScreens) {
  Desk desk;
  desk.language = "es";
  auto program = desk.program();
  press(program, Key::enter);
  desk.save(with(desk.tiny(), "does: mix", "does: mixx"));
  wait_a_moment(program);
  EXPECT_TRUE(shows(program, "no vale como verbo"));
  EXPECT_TRUE(shows(program, "quiso decir"));
  EXPECT_FALSE(shows(program, "did you mean"));
  press(program, Key::escape);
  EXPECT_TRUE(shows(program, "no vale como verbo")) << "on the shelf as well";
}

TEST(Language, ChangedInTheSettingsItHoldsForTheShelf) {
  const OnClassII desk;
  auto program = desk.program();
  const auto title = read_shelf(desk.folder.path(), "es")[0].procedure->title;
  EXPECT_FALSE(shows(program, title));
  press(program, Key::settings);
  for (int i = 0; i < 12 && program.settings().language == "en"; ++i) {
    press(program, Key::right);
    press(program, Key::down);
  }
  ASSERT_EQ(program.settings().language, "es");
  press(program, Key::escape);
  EXPECT_TRUE(shows(program, title));
}

TEST(Language, TextsWithErrorsAreSaidAndTheScenarioIsPlayedInItsOwn) {
  OnClassII desk;
  desk.language = "es";
  desk.save("texts: 1\nlanguage: es\nscenario: class-ii-composite\n", "class-ii-composite/es.yaml");
  auto program = desk.program();
  press(program, Key::enter);
  EXPECT_TRUE(shows(program, "es.yaml:1:"));
  press(program, Key::enter);
  ASSERT_EQ(program.stand(), Stand::drill);
  EXPECT_EQ(program.sitting()->procedure().language, "en");
}

}  // namespace
}  // namespace beforehand::stage
