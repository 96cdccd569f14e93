// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// What is not there, or is broken: each time the program says so and goes on without.
#include <gtest/gtest.h>

#include <fstream>

#include "picture/icons.hpp"
#include "playing.hpp"
#include "stage/languages.hpp"
#include "stage/sound.hpp"

namespace beforehand::stage {
namespace {

void write(const std::string& file, const std::string& text) { std::ofstream(file) << text; }

TEST(Missing, ALanguageThatCannotBeReadIsNamedAndEnglishIsShown) {
  const TemporaryFolder folder;
  write(folder / "en.txt", "language.name = English\nprogram.name = Beforehand\n");
  write(folder / "xx.txt", "language.name = Broken\nno equals sign here\n");
  const auto languages = languages_in(folder.path());
  ASSERT_EQ(languages.all.size(), 1u);
  EXPECT_EQ(languages.all[0].code, "en");
  EXPECT_EQ(languages.problems, (folder / "xx.txt") + ":2: error: expected \"key = text\"\n");
  EXPECT_THROW(strings_in(folder.path(), "xx"), BadStrings);
  EXPECT_EQ(strings_or_english(folder.path(), "xx")("program.name"), "Beforehand");
}

TEST(Missing, ALanguageThatIsNotThereIsEnglish) {
  EXPECT_EQ(strings_in(PROJECT_DIR "/assets/strings", "zz")("language.name"), "English");
}

TEST(Missing, ATextThatALanguageLacksIsEnglish) {
  const TemporaryFolder folder;
  write(folder / "en.txt", "language.name = English\nkey.enter = Enter\n");
  write(folder / "es.txt", "language.name = Español\n");
  const auto strings = strings_in(folder.path(), "es");
  EXPECT_EQ(strings("language.name"), "Español");
  EXPECT_EQ(strings("key.enter"), "Enter");
}

TEST(Missing, WithoutAnyTextsItSaysWhichFileItWanted) {
  const TemporaryFolder folder;
  try {
    strings_or_english(folder.path(), "es");
    FAIL();
  } catch (const BadStrings& bad) {
    EXPECT_EQ(std::string(bad.what()),
              (folder / "en.txt") + ": error: the texts of the screens cannot be read\n");
  }
}

TEST(Missing, WhatIsAmissStandsOnTheStartAtEverySize) {
  auto program = program_on(tiny_shelf());
  EXPECT_FALSE(shows(program, "Not as it should be"));
  program.complain("No usable sans-serif font was found; the built-in letters are used.");
  for (const double scale : {1.0, 2.0}) {
    const auto seen = look_at(program, 1280, 720, scale);
    EXPECT_TRUE(seen.shows("Not as it should be: No usable")) << scale;
    EXPECT_EQ(seen.faults(16), std::vector<std::string>()) << scale;
  }
  press(program, Key::settings);
  press(program, Key::escape);
  EXPECT_TRUE(shows(program, "Not as it should be")) << "for as long as it is so";
}

// A supply whose icon is not among the program's own: a plate with its first letters.
TEST(Missing, AnIconThatIsNotThereIsTwoLetters) {
  ASSERT_EQ(picture::find_icon("no-such-thing"), nullptr);
  AuditCanvas canvas(100, 100);
  canvas.icon("no-such-thing", {10, 10, 60, 60}, {});
  ASSERT_EQ(canvas.seen().texts.size(), 1u);
  EXPECT_EQ(canvas.seen().texts[0].line, "no");
}

TEST(Missing, WithoutRecordedSpeechWhatIsSaidIsStillRead) {
  Sound sound("no/such/folder");
  auto program = program_on(tiny_shelf());
  press(program, Key::enter);
  press(program, Key::enter);
  bool read = false;
  for (int i = 0; i < 200 && !read; ++i) {
    do_what_is_urgent(program);
    program.pass(std::chrono::milliseconds(100));
    sound.follow(program.sitting(), true, "en");
    read = shows(program, "Rinsing.");
  }
  EXPECT_TRUE(read);
}

}  // namespace
}  // namespace beforehand::stage
