// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// Preference cards: laid over tests/scenarios/good/tiny.yaml; each bad one of tests/scenarios/
// bad_cards beside what is said of it; those that are shipped.
#include <fstream>

#include "procedure/load.hpp"
#include "procedure/texts.hpp"
#include "scenario_files.hpp"

namespace beforehand::procedure {
namespace {

namespace fs = std::filesystem;

const std::string head = "card: 1\nid: mine\ntitle: My way\nscenario: tiny\n";

Reading laid_over(const std::string& card) {
  static const auto scenario = tiny_text();
  return read(Layers{scenario, card, nullptr});
}

Procedure with_card(const std::string& rest) {
  const auto card = head + rest;
  auto reading = laid_over(card);
  EXPECT_EQ(print(reading.problems, {{"tiny.yaml", tiny_text()}, {"card.yaml", card}}), "");
  return reading.procedure.value_or(Procedure{});
}

const Step& step(const Procedure& p, std::string_view id) { return p.step(step_named(p, id)); }

TEST(Card, ThatSaysNothingChangesNothingButTheName) {
  const auto plain = read_well(tiny_text()), carded = with_card("");
  EXPECT_EQ(carded.card, "mine");
  EXPECT_EQ(carded.card_title, "My way");
  EXPECT_NE(carded.fingerprint, plain.fingerprint) << "a recording belongs to one of them";
  EXPECT_EQ(carded.id, plain.id);
  EXPECT_EQ(carded.steps.size(), plain.steps.size());
  EXPECT_FALSE(carded.left_handed);
}

TEST(Card, ChangesKeysOfThingsAndSteps) {
  const auto p = with_card(
      "hand: left\npacing: {patience: 6 s}\n"
      "supplies: {liner: {name: Other paste, working-time: 40 s}}\n"
      "steps: [{change: apply, takes: 20 s, says: \"Mine.\"}, {change: mix-liner, why: }]\n");
  EXPECT_TRUE(p.left_handed);
  EXPECT_EQ(p.patience, Ms{6000});
  EXPECT_EQ(p.self_help, Ms{12000});
  EXPECT_EQ(p.supplies[2].name, "Other paste");
  EXPECT_EQ(p.supplies[2].working_time, Ms{40'000});
  EXPECT_EQ(p.supplies[2].sets_as, "set") << "what the card does not name stays";
  EXPECT_EQ(step(p, "apply").takes.usual, Ms{20'000});
  EXPECT_EQ(step(p, "apply").says, "Mine.");
  EXPECT_EQ(step(p, "mix-liner").why, "");
}

TEST(Card, AddsAnInstrumentAndItsStep) {
  const auto p = with_card(
      "supplies: {mirror: {name: Mirror, icon: mirror, at: tray, after-use: ready}}\n"
      "steps:\n"
      "  - {add: warm-mirror, behind: rinse, title: Warms the mirror, phase: clean, by: "
      "assistant,\n"
      "     does: use, supply: mirror, takes: 3 s}\n");
  EXPECT_EQ(p.supplies.size(), 4u);
  EXPECT_EQ(step_named(p, "warm-mirror").at(), step_named(p, "rinse").at() + 1);
}

TEST(Card, MovesAStep) {
  const auto p = with_card("steps: [{move: look, ahead-of: take-back-liner}]\n");
  EXPECT_EQ(step_named(p, "look").at() + 1, step_named(p, "take-back-liner").at());
}

// What came after it now comes after what it came after.
TEST(Card, LeavesAStepOut) {
  const auto p = with_card(
      "steps: [{leave-out: blot}, {leave-out: pass-gauze}]\n"
      "supplies: {gauze: }\nsignals: {bleeding: }\n");
  EXPECT_EQ(p.steps.size(), 8u);
  std::vector<std::string> before;
  for (const auto& link : step(p, "apply").after) {
    if (!link.implied) before.push_back(p.step(link.step).id);
  }
  EXPECT_EQ(before, std::vector<std::string>{"rinse"});
}

TEST(Card, WarnsOfMoreAndNeverOfLess) {
  EXPECT_EQ(with_card("cautions: [\"And mind the cat.\"]\n").cautions.size(), 2u);
}

// A folder with the scenario, its Spanish and a card that says one thing in other words.
class CardFolder {
 public:
  CardFolder() {
    fs::create_directories(path_ / "cards" / "es");
    save("scenario.yaml", tiny_text());
    save("es.yaml", load_text(scenario_path("good/tiny_texts/es.yaml")));
    save("cards/mine.yaml", head + "steps: [{change: apply, says: \"Mine.\"}]\n");
  }
  ~CardFolder() { fs::remove_all(path_); }
  void save(const std::string& name, const std::string& text) const {
    std::ofstream(path_ / name) << text;
  }
  InLanguage spanish() const {
    const Files files{(path_ / "scenario.yaml").string(), (path_ / "cards/mine.yaml").string(), ""};
    return in_language(load(files).reading.procedure.value(), files, "es");
  }

 private:
  // One a test: tests run side by side.
  fs::path path_ = fs::path(testing::TempDir()) /
                   ("beforehand_card_" +
                    std::string(testing::UnitTest::GetInstance()->current_test_info()->name()));
};

TEST(Card, KeepsItsOwnWordsInAnotherLanguage) {
  const CardFolder folder;
  const auto es = folder.spanish();
  EXPECT_EQ(step(es.procedure, "apply").says, "Mine.");
  EXPECT_EQ(step(es.procedure, "apply").title, "Pone la base");
}

TEST(Card, HasTextsOfItsOwn) {
  const CardFolder folder;
  const std::string texts = "texts: 2\nlanguage: es\nscenario: tiny\ncard: mine\n";
  folder.save("cards/es/mine.yaml",
              texts + "card-title: A mi manera\nsteps: {apply: {says: \"Lo mío.\"}}\n");
  auto es = folder.spanish();
  EXPECT_EQ(print(es.problems, es.sources), "");
  EXPECT_EQ(step(es.procedure, "apply").says, "Lo mío.");
  EXPECT_EQ(es.procedure.card_title, "A mi manera");
  EXPECT_EQ(step(es.procedure, "apply").title, "Pone la base");
  // Only what the card says otherwise, all of it, and for no other card.
  folder.save("cards/es/mine.yaml", texts + "card-title: X\n");
  EXPECT_EQ(folder.spanish().problems.size(), 1u) << "what it says is missing";
  folder.save("cards/es/mine.yaml",
              texts + "card-title: X\nsteps: {apply: {says: x, title: Otra}}\n");
  EXPECT_EQ(folder.spanish().problems.size(), 1u) << "its title is the scenario's";
  folder.save("cards/es/mine.yaml",
              "texts: 2\nlanguage: es\nscenario: tiny\ncard: other\ncard-title: X\n"
              "steps: {apply: {says: x}}\n");
  es = folder.spanish();
  EXPECT_EQ(es.problems.size(), 1u) << "those of another card";
  EXPECT_EQ(step(es.procedure, "apply").says, "Mine.");
}

class BadCard : public testing::TestWithParam<std::string> {};

TEST_P(BadCard, SaysWhatIsWrongAndWhere) {
  const auto card = load_text(scenario_path("bad_cards/" + GetParam() + ".yaml"));
  const auto reading = laid_over(card);
  EXPECT_FALSE(reading.procedure);
  EXPECT_EQ(print(reading.problems, {{"tiny.yaml", tiny_text()}, {GetParam() + ".yaml", card}}),
            load_text(scenario_path("bad_cards/" + GetParam() + ".expected")));
}

INSTANTIATE_TEST_SUITE_P(Files, BadCard, testing::ValuesIn(scenario_names("bad_cards", ".yaml")),
                         [](const auto& file) {
                           auto name = file.param;
                           std::replace(name.begin(), name.end(), '-', '_');
                           return name;
                         });

// Leaving out steps that wait for each other must not go round for ever.
TEST(Card, MayLeaveOutACircle) {
  const auto text = with(tiny_text(), "takes: 6 s, after: [apply]", "takes: 6 s, after: [look]");
  const std::string card = head + "steps: [{leave-out: look}]\n";
  EXPECT_TRUE(read(Layers{text, card, nullptr}).procedure);
}

TEST(Card, CutOffAnywhereIsReadOrRefused) {
  const auto card = load_text(PROJECT_DIR "/scenarios/class-ii-composite/cards/one-bottle.yaml");
  const auto scenario = load_text(PROJECT_DIR "/scenarios/class-ii-composite/scenario.yaml");
  for (std::size_t length = 0; length < card.size(); length += 97) {
    const auto part = card.substr(0, length);
    const auto reading = read(Layers{scenario, part, nullptr});
    EXPECT_NE(reading.procedure.has_value(), has_errors(reading.problems)) << length;
  }
}

TEST(Files, AreFoundByTheirNames) {
  const std::string folder = PROJECT_DIR "/scenarios/class-ii-composite/";
  const auto card = folder + "cards/left-handed.yaml";
  EXPECT_EQ(files_of(folder + "scenario.yaml").card, "");
  EXPECT_EQ(files_of(card).scenario, fs::path(folder + "scenario.yaml").lexically_normal());
  EXPECT_EQ(files_of(folder + "scenario.yaml+left-handed").card, card);
  EXPECT_EQ(files_of(folder + "scenario.yaml+" + card).card, card);
  EXPECT_THROW(files_of(folder + "nothing.yaml"), std::runtime_error);
  EXPECT_EQ(cards_of(folder + "scenario.yaml").size(), 2u);
}

TEST(Shelf, HasCardsWithoutAProblem) {
  int cards = 0;
  for (const auto& entry : fs::directory_iterator(PROJECT_DIR "/scenarios")) {
    for (const auto& card : cards_of((entry.path() / "scenario.yaml").string())) {
      const auto loaded = load(files_of(card));
      EXPECT_EQ(print(loaded.reading.problems, loaded.sources), "");
      ASSERT_TRUE(loaded.reading.procedure) << card;
      EXPECT_EQ(loaded.reading.procedure->card, fs::path(card).stem());
      ++cards;
    }
  }
  EXPECT_GT(cards, 1);
}

}  // namespace
}  // namespace beforehand::procedure
