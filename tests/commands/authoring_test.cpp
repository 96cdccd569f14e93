// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// Writing a scenario, as a person does it: the guide followed to the letter, a scenario out of a
// few answers, an old file brought up to date.
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <regex>
#include <sstream>

#include "folder.hpp"

namespace beforehand {
namespace {

namespace fs = std::filesystem;

// ---- the guide ---------------------------------------------------------------------------------

struct Block {
  std::string kind, text;
};

std::vector<Block> blocks_of(const std::string& page) {
  std::vector<Block> blocks;
  std::istringstream in(page);
  for (std::string line; std::getline(in, line);) {
    if (!line.starts_with("```")) continue;
    Block block{line.substr(3), {}};
    while (std::getline(in, line) && line != "```") block.text += line + "\n";
    blocks.push_back(std::move(block));
  }
  return blocks;
}

std::vector<std::string> words_of(const std::string& line) {
  std::istringstream in(line);
  std::vector<std::string> words;
  for (std::string word; in >> word;) words.push_back(word);
  return words;
}

// Puts a step in the place of the one with the same id.
void put_step(const Folder& folder, const std::string& file, const std::string& step) {
  auto text = folder.text(file);
  const auto id = step.substr(0, step.find('\n') + 1);
  const auto from = text.find(id);
  ASSERT_NE(from, std::string::npos) << id;
  const auto end = std::min(text.find("\n\n", from), text.size() - 1);
  folder.save(file, text.replace(from, end + 1 - from, step));
}

// What is printed, both streams, with "..." on the page for any lines that are left out there.
void expect_printed(const std::string& page, const std::string& printed, const std::string& why) {
  std::string rest = printed;
  std::istringstream parts(page);
  std::string piece;
  bool skipping = false;
  const auto match = [&] {
    if (piece.empty()) return;
    const auto at = rest.find(piece);
    ASSERT_NE(at, std::string::npos) << why << "\npage:\n" << piece << "\nprinted:\n" << rest;
    if (!skipping) {
      ASSERT_EQ(at, 0u) << why << "\npage:\n" << piece << "\nprinted:\n" << rest;
    }
    rest.erase(0, at + piece.size());
    piece.clear();
  };
  for (std::string line; std::getline(parts, line);) {
    if (line != "...") {
      piece += line + "\n";
      continue;
    }
    match();
    skipping = true;
  }
  match();
  if (!page.ends_with("...\n")) {
    EXPECT_EQ(rest, "") << why;
  }
}

void follow(const Folder& folder, const std::string& console) {
  std::string command, page;
  const auto play = [&] {
    if (command.empty()) return;
    auto words = words_of(command);
    ASSERT_EQ(words.front(), "beforehand") << command;
    words.erase(words.begin());
    if (words.empty() || words.front().starts_with("--")) return;  // that opens the window
    const auto done = folder.run(words);
    expect_printed(page, done.err + done.out, command);
  };
  std::istringstream in(console);
  for (std::string line; std::getline(in, line);) {
    if (!line.starts_with("$ ")) {
      page += line + "\n";
      continue;
    }
    play();
    command = line.substr(2);
    page.clear();
  }
  play();
}

TEST(Guide, FollowedToTheLetterGivesWhatItPrints) {
  const Folder folder;
  const std::string scenario = "our-crown/scenario.yaml";
  int followed = 0;
  for (const auto& [kind, text] :
       blocks_of(procedure::load_text(PROJECT_DIR "/docs/authoring.md"))) {
    if (kind == "list") folder.save("our-list.txt", text);
    if (kind == "wrong-list") folder.save("wrong-list.txt", text);
    if (kind == "step") put_step(folder, scenario, text);
    if (kind == "card") folder.save("our-crown/cards/quick.yaml", text);
    if (kind != "console") continue;
    ++followed;
    follow(folder, text);
    if (HasFatalFailure()) return;
  }
  EXPECT_GE(followed, 6);
  const auto reading = procedure::read(folder.text(scenario));
  ASSERT_TRUE(reading.procedure);
  EXPECT_GE(reading.procedure->steps.size(), 10u);
}

// ---- new ---------------------------------------------------------------------------------------

double total_of(const Folder& folder, const std::string& file, const std::string& assistant) {
  const auto done = folder.run({"drill", file, "--assistant", assistant, "--format", "json"});
  EXPECT_EQ(done.code, 0) << done.err;
  std::smatch total;
  EXPECT_TRUE(std::regex_search(done.out, total, std::regex(R"re("total": *([0-9.]+))re")));
  return total.empty() ? -1 : std::stod(total[1]);
}

TEST(New, AsksAFewQuestionsAndTakesReturnForEach) {
  const Folder folder;
  const auto done = folder.run({"new", "lining"}, "\n\n\n\n\n\n\n\n\n\n\n\n");
  ASSERT_EQ(done.code, 0) << done.err;
  EXPECT_NE(done.out.find("What is it called? [lining]"), std::string::npos) << done.out;
  EXPECT_GE(total_of(folder, "lining/scenario.yaml", "expert"), 97);
  EXPECT_LT(total_of(folder, "lining/scenario.yaml", "absent"), 40);
}

TEST(New, TakesTheAnswersThatAreTyped) {
  const Folder folder;
  const auto done = folder.run({"new", "ours"},
                               "Lining, our way\n3\nrinses the cavity\n10 s\nno\nno\nno\n"
                               "dries it\n5-8 s\nno\n");
  ASSERT_EQ(done.code, 0) << done.err;
  EXPECT_EQ(done.out.find("How long is it mixed"), std::string::npos)
      << "nothing is mixed, so nobody is asked how long";
  const auto p = procedure::read(folder.text("ours/scenario.yaml")).procedure.value();
  EXPECT_EQ(p.title, "Lining, our way");
  EXPECT_EQ(p.people.size(), 3u);
  EXPECT_EQ(p.steps[1].takes.usual, Ms{10'000});
}

TEST(New, TakesAnswersAsOptions) {
  const Folder folder;
  const auto done = folder.run({"new", "ours", "--material", "core paste", "--working", "2 min"});
  ASSERT_EQ(done.code, 0) << done.err;
  const auto p = procedure::read(folder.text("ours/scenario.yaml")).procedure.value();
  bool found = false;
  for (const auto& s : p.supplies)
    if (s.id == "core-paste") found = s.working_time == Ms{120'000};
  EXPECT_TRUE(found);
}

TEST(New, AnOddAnswerIsSaidAndNothingIsWritten) {
  const Folder folder;
  const auto done = folder.run({"new", "ours", "--first-takes", "soon-ish"});
  EXPECT_EQ(done.code, 0) << "what is no time belongs to the words";
  const auto odd = folder.run({"new", "other", "--working", "a while"});
  EXPECT_EQ(odd.code, 1);
  EXPECT_NE(odd.err.find("a while"), std::string::npos) << odd.err;
  EXPECT_FALSE(fs::exists(folder.path() + "/other/scenario.yaml"));
}

// ---- convert -----------------------------------------------------------------------------------

std::string tiny_text() {
  return procedure::load_text(PROJECT_DIR "/tests/scenarios/good/tiny.yaml");
}

TEST(Convert, WritesAFileOfFormat1AsOfFormat2AndKeepsTheOldOne) {
  const Folder folder;
  folder.save("tiny/scenario.yaml", tiny_text());
  const auto before = folder.run({"check", "tiny/scenario.yaml"});
  EXPECT_EQ(before.code, 0);
  EXPECT_NE(before.err.find("written in format 1"), std::string::npos) << before.err;
  const auto done = folder.run({"convert", "tiny/scenario.yaml"});
  ASSERT_EQ(done.code, 0) << done.err;
  EXPECT_EQ(folder.text("tiny/scenario.yaml.format-1"), tiny_text());
  const auto after = folder.run({"check", "tiny/scenario.yaml"});
  EXPECT_EQ(after.code, 0) << after.err;
  EXPECT_EQ(after.err.find("written in format 1"), std::string::npos) << after.err;
  const auto again = folder.run({"convert", "tiny/scenario.yaml"});
  EXPECT_EQ(again.code, 0);
  EXPECT_NE(again.out.find("left as it is"), std::string::npos);
}

TEST(Convert, LeavesWhatItCannotReadAsItIs) {
  const Folder folder;
  folder.save("a.yaml", "beforehand: 7\n");
  folder.save("b.yaml", "shopping: [milk]\n");
  folder.save("c.yaml", "beforehand: [1\n");
  for (const std::string name : {"a.yaml", "b.yaml", "c.yaml", "none.yaml"}) {
    const auto old = name == "none.yaml" ? "" : folder.text(name);
    const auto done = folder.run({"convert", name});
    EXPECT_EQ(done.code, 1) << name;
    EXPECT_NE(done.err, "") << name;
    if (!old.empty()) {
      EXPECT_EQ(folder.text(name), old);
    }
  }
}

TEST(Convert, NeverOverwritesWhatWasKept) {
  const Folder folder;
  folder.save("s.yaml", tiny_text());
  folder.save("s.yaml.format-1", "mine");
  EXPECT_EQ(folder.run({"convert", "s.yaml"}).code, 1);
  EXPECT_EQ(folder.text("s.yaml"), tiny_text());
  EXPECT_EQ(folder.text("s.yaml.format-1"), "mine");
}

}  // namespace
}  // namespace beforehand
