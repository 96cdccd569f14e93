// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// A card written into its scenario reads as the card laid over it, and leaves alone what it does
// not change; the texts of such a copy in another language go with it.
#include "procedure/with_card.hpp"

#include <sstream>

#include "procedure/edit.hpp"
#include "procedure/load.hpp"
#include "procedure/texts.hpp"
#include "scenario_files.hpp"

namespace beforehand::procedure {
namespace {

const std::string card_head = "card: 2\nid: mine\ntitle: My way\nscenario: tiny\n";

// What is played and said, but for the names of the two.
void expect_same(Procedure a, Procedure b) {
  for (auto* p : {&a, &b}) p->title = p->card_title = p->card = "x";
  const auto texts_a = text_slots(a), texts_b = text_slots(b);
  ASSERT_EQ(texts_a.size(), texts_b.size());
  for (std::size_t i = 0; i < texts_a.size(); ++i) {
    EXPECT_EQ(texts_a[i].path, texts_b[i].path);
    EXPECT_EQ(*texts_a[i].text, *texts_b[i].text) << texts_a[i].path;
  }
  EXPECT_EQ(a.left_handed, b.left_handed);
  EXPECT_EQ(a.patience, b.patience);
  ASSERT_EQ(a.steps.size(), b.steps.size());
  for (std::size_t i = 0; i < a.steps.size(); ++i) {
    const Step &x = a.steps[i], &y = b.steps[i];
    EXPECT_EQ(x.id, y.id);
    EXPECT_EQ(x.takes.usual, y.takes.usual) << x.id;
    EXPECT_TRUE(x.verb == y.verb && x.supply == y.supply && x.by == y.by) << x.id;
    ASSERT_EQ(x.after.size(), y.after.size()) << x.id;
    for (std::size_t k = 0; k < x.after.size(); ++k)
      EXPECT_TRUE(x.after[k].step == y.after[k].step && x.after[k].from == y.after[k].from &&
                  x.after[k].at_most == y.after[k].at_most)
          << x.id;
  }
}

void expect_as_laid_over(const std::string& scenario, const std::string& card) {
  const auto whole = with_card(scenario, card);
  const auto over = read(Layers{scenario, card, nullptr}).procedure;
  const auto alone = read(whole);
  ASSERT_TRUE(over);
  ASSERT_TRUE(alone.procedure) << print(alone.problems, "whole", whole);
  expect_same(*over, *alone.procedure);
}

TEST(WithCard, ReadsAsTheCardLaidOverForEveryShippedCard) {
  int cards = 0;
  for (const auto& entry : std::filesystem::directory_iterator(PROJECT_DIR "/scenarios")) {
    const auto scenario = (entry.path() / "scenario.yaml").string();
    for (const auto& card : cards_of(scenario)) {
      SCOPED_TRACE(card);
      expect_as_laid_over(load_text(scenario), load_text(card));
      ++cards;
    }
  }
  EXPECT_GE(cards, 2);
}

TEST(WithCard, TakesEveryKindOfChange) {
  for (const auto* rest :
       {"", "hand: left\npacing: {patience: 6 s}\n", "cautions: [Mine.]\nsummary: Other.\n",
        "supplies: {mirror: {name: Mirror, icon: mirror, at: tray, after-use: ready}}\n"
        "steps:\n  - {add: warm, behind: rinse, title: \"Warms it: the mirror\", phase: clean, by: "
        "assistant, does: use, supply: mirror, takes: 3 s}\n",
        "steps: [{move: look, ahead-of: take-back-liner}]\n",
        "steps: [{leave-out: blot}, {leave-out: pass-gauze}]\n"
        "supplies: {gauze: }\nsignals: {bleeding: }\n",
        "steps: [{change: apply, takes: 20 s, says: \"Mine.\"}, {change: mix-liner, why: }]\n"}) {
    SCOPED_TRACE(rest);
    expect_as_laid_over(tiny_text(), card_head + rest);
  }
}

TEST(WithCard, HasANameOfItsOwnAndKeepsWhatIsNotChanged) {
  const auto whole = with_card(tiny_text(), card_head + "pacing: {patience: 6 s}\n");
  const auto p = read_well(whole);
  EXPECT_EQ(p.id, "tiny-mine");
  EXPECT_EQ(p.title, read_well(tiny_text()).title + " (My way)");
  // Every line of the scenario but id, title, what the card changes and, in a file of an older
  // version, that version is there as it was.
  std::size_t kept = 0, lines = 0;
  std::istringstream in(tiny_text());
  for (std::string line; std::getline(in, line); ++lines)
    kept += whole.find(line + "\n") != std::string::npos;
  EXPECT_GE(kept + 4, lines);
}

TEST(WithCard, SaysWhatIsWrongWithTheCard) {
  EXPECT_THROW(with_card(tiny_text(), card_head + "steps: [{change: nothing-like-it, why: x}]\n"),
               EditError);
  EXPECT_THROW(with_card(tiny_text(), "card: ["), EditError);
}

TEST(TextsOfCopy, ReadAsTheTextsOfTheOriginal) {
  const Files files{PROJECT_DIR "/scenarios/class-ii-composite/scenario.yaml",
                    PROJECT_DIR "/scenarios/class-ii-composite/cards/one-bottle.yaml", ""};
  const auto all = in_every_language(files);
  ASSERT_EQ(all.size(), 2u);
  ASSERT_EQ(all[1].language, "es");
  const auto copy = read_well(with_value(load_as_one(files), "id", "copy-2"));
  const auto texts = texts_of_copy(copy, all[0], all[1], "La copia (2)");
  const auto reading = read_texts(texts, copy);
  ASSERT_TRUE(reading.texts) << print(reading.problems, "texts", texts);
  const auto spanish = with_texts(copy, *reading.texts);
  EXPECT_EQ(spanish.title, "La copia (2)");
  ASSERT_EQ(spanish.steps.size(), all[1].steps.size());
  for (std::size_t i = 0; i < spanish.steps.size(); ++i) {
    EXPECT_EQ(spanish.steps[i].title, all[1].steps[i].title);
    EXPECT_EQ(spanish.steps[i].why, all[1].steps[i].why);
  }
  EXPECT_EQ(spanish.cautions, all[1].cautions);
}

}  // namespace
}  // namespace beforehand::procedure
