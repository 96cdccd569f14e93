// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// A scenario in another language: each bad text file of tests/scenarios/bad_texts, read against
// tests/scenarios/good/tiny.yaml, beside what is said of it; and the languages of the shelf.
#include "procedure/texts.hpp"

#include <fstream>

#include "scenario_files.hpp"

namespace beforehand::procedure {
namespace {

namespace fs = std::filesystem;

Procedure tiny() { return read_well(tiny_text()); }

Texts read_texts_well(const std::string& text, const Procedure& of) {
  const auto reading = read_texts(text, of);
  EXPECT_EQ(print(reading.problems, "texts", text), "");
  return reading.texts.value_or(Texts{});
}

std::string good_texts() { return load_text(scenario_path("good/tiny_texts/es.yaml")); }

class BadTexts : public testing::TestWithParam<std::string> {};

TEST_P(BadTexts, SaysWhatIsWrongAndWhere) {
  const auto text = load_text(scenario_path("bad_texts/" + GetParam() + ".yaml"));
  const auto reading = read_texts(text, tiny());
  EXPECT_FALSE(reading.texts);
  EXPECT_EQ(print(reading.problems, GetParam() + ".yaml", text),
            load_text(scenario_path("bad_texts/" + GetParam() + ".expected")));
}

INSTANTIATE_TEST_SUITE_P(Files, BadTexts, testing::ValuesIn(scenario_names("bad_texts", ".yaml")),
                         [](const auto& file) {
                           auto name = file.param;
                           std::replace(name.begin(), name.end(), '-', '_');
                           return name;
                         });

TEST(Texts, ReplaceWhatIsReadAndNothingElse) {
  const auto p = tiny();
  const auto es = with_texts(p, read_texts_well(good_texts(), p));
  EXPECT_EQ(es.language, "es");
  EXPECT_EQ(es.step(step_named(es, "rinse")).title, "Lava la cavidad");
  EXPECT_EQ(es.fingerprint, p.fingerprint);
  auto back = es;
  auto original = p;
  const auto from = text_slots(original), to = text_slots(back);
  ASSERT_EQ(from.size(), to.size());
  for (std::size_t i = 0; i < from.size(); ++i) EXPECT_NE(*from[i].text, *to[i].text);
}

TEST(Texts, LeaveWhatWasPutInOtherWords) {
  auto p = tiny();
  const auto texts = read_texts_well(good_texts(), p);
  p.steps[0].title = "Rinses twice";
  EXPECT_EQ(with_texts(p, texts).steps[0].title, "Rinses twice");
}

TEST(Texts, MayBeIncompleteWhenTheySaySo) {
  const std::string text =
      "texts: 1\nlanguage: es\nscenario: tiny\ncomplete: false\ntitle: Chico\n";
  const auto reading = read_texts(text, tiny());
  ASSERT_TRUE(reading.texts);
  EXPECT_EQ(print(reading.problems, "es.yaml", text),
            "es.yaml:1:1: warning: not complete: what is missing is shown in the language of the "
            "scenario\n    texts: 1\n    ^\n");
}

// Any text of the format, cut off anywhere: read or refused.
TEST(Texts, CutOffAnywhereAreReadOrRefused) {
  const auto text = good_texts();
  const auto p = tiny();
  for (std::size_t length = 0; length < text.size(); length += 3) {
    const auto reading = read_texts(text.substr(0, length), p);
    EXPECT_NE(reading.texts.has_value(), has_errors(reading.problems)) << length;
  }
}

TEST(InLanguage, GivesTheScenarioWhereThereIsNoSuchFile) {
  const auto p = tiny();
  const auto file = scenario_path("good/tiny_texts/scenario.yaml");
  const Files files{file, "", ""};
  EXPECT_EQ(in_language(p, files, "fr").language, "en");
  EXPECT_EQ(in_language(p, files, "en").language, "en");
  const auto es = in_language(p, files, "es");
  EXPECT_EQ(es.language, "es");
  EXPECT_EQ(es.procedure.title, "Escenario pequeño");
  EXPECT_EQ(languages_of(p, file), (std::vector<std::string>{"en", "es"}));
}

TEST(InLanguage, SaysWhatIsWrongWithTheFile) {
  const auto folder = fs::path(testing::TempDir()) / "beforehand_texts";
  fs::create_directories(folder);
  std::ofstream(folder / "fr.yaml") << good_texts();
  const auto p = tiny();
  const auto read = in_language(p, {(folder / "scenario.yaml").string(), "", ""}, "fr");
  EXPECT_EQ(read.language, "en");
  ASSERT_EQ(read.problems.size(), 1u);
  EXPECT_EQ(read.problems[0].message.english(),
            "its language is \"es\", so its name must be es.yaml");
  fs::remove_all(folder);
}

// The words that a scenario lacks in a language it offers, on the shelf that comes with the
// program.
TEST(Shelf, IsCompleteInEveryLanguageItOffers) {
  int languages = 0;
  for (const auto& entry : fs::directory_iterator(PROJECT_DIR "/scenarios")) {
    const auto file = (entry.path() / "scenario.yaml").string();
    if (!fs::exists(file)) continue;
    const auto p = read_well(load_text(file));
    for (const auto& language : languages_of(p, file)) {
      if (language == p.language) continue;
      ++languages;
      const auto texts = text_file(file, language);
      const auto reading = load_texts(texts, p);
      EXPECT_EQ(print(reading.problems, texts, load_text(texts)), "");
    }
  }
  EXPECT_GT(languages, 0);
}

}  // namespace
}  // namespace beforehand::procedure
