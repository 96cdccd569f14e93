// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// What is said of scenarios is said in every language of the window: each complaint about each bad
// file of the tests has its Spanish, and no Spanish is left of what is not said any more.
#include <fstream>

#include "procedure/advice.hpp"
#include "procedure/materials.hpp"
#include "procedure/outline.hpp"
#include "procedure/texts.hpp"
#include "scenario_files.hpp"

namespace beforehand::procedure {
namespace {

namespace fs = std::filesystem;

Phrases spanish() {
  Phrases phrases;
  std::ifstream in(PROJECT_DIR "/assets/problems/es.txt");
  for (std::string line; std::getline(in, line);) {
    const auto equals = line.find(" = ");
    if (line.empty() || line[0] == '#') continue;
    EXPECT_NE(equals, std::string::npos) << line;
    const auto fresh = phrases.emplace(line.substr(0, equals), line.substr(equals + 3)).second;
    EXPECT_TRUE(fresh) << "twice: " << line;
  }
  return phrases;
}

void gather(std::vector<Problem>& all, std::vector<Problem> more) {
  all.insert(all.end(), more.begin(), more.end());
}

std::vector<Problem> every_complaint() {
  std::vector<Problem> all;
  const auto tiny = tiny_text();
  for (const auto* folder : {"bad", "doubtful", "good"})
    for (const auto& name : scenario_names(folder, ".yaml")) {
      const auto reading = read(load_text(scenario_path(folder + ("/" + name + ".yaml"))));
      gather(all, reading.problems);
      if (reading.procedure) gather(all, advice(*reading.procedure));
    }
  for (const auto& name : scenario_names("bad_cards", ".yaml")) {
    const auto card = load_text(scenario_path("bad_cards/" + name + ".yaml"));
    gather(all, read(Layers{tiny, card, nullptr}).problems);
  }
  for (const auto& name : scenario_names("bad_materials", ".yaml"))
    gather(all,
           read_materials(load_text(scenario_path("bad_materials/" + name + ".yaml"))).problems);
  for (const auto& name : scenario_names("bad_texts", ".yaml"))
    gather(all, read_texts(load_text(scenario_path("bad_texts/" + name + ".yaml")), read_well(tiny))
                    .problems);
  gather(all, scenario_from_outline("Nurse: rinses\nrinses\nAssistant:\nAssistant: passes\n"
                                    "Assistant: juggles\nClinician: fills, 2 to 3 min\n",
                                    "mine", "Mine")
                  .problems);
  return all;
}

// String literals that stand beside each other are one.
std::string joined(const std::string& source) {
  std::string out;
  for (std::size_t i = 0; i < source.size(); ++i) {
    if (source[i] == '"' && (i == 0 || source[i - 1] != '\\')) {
      const auto next = source.find_first_not_of(" \n", i + 1);
      const bool closes =
          out.size() > 0 && next != std::string::npos && next > i + 1 && source[next] == '"';
      if (closes) {
        i = next;
        continue;
      }
    }
    if (source[i] == '\\' && i + 1 < source.size() && source[i + 1] == '"') continue;
    out += source[i];
  }
  return out;
}

// What the rooms that say something say it with.
std::string sources() {
  std::string said;
  for (const auto* folder : {"base", "procedure", "timing", "stage"})
    for (const auto& entry : fs::directory_iterator(std::string(PROJECT_DIR "/engine/") + folder)) {
      const auto ending = entry.path().extension();
      if (ending == ".cpp" || ending == ".hpp") said += joined(load_text(entry.path().string()));
    }
  return said;
}

// The words between the slots of a text, those of several words.
std::vector<std::string> pieces_of(std::string text) {
  std::vector<std::string> pieces;
  while (!text.empty()) {
    const auto end = std::min(text.find("{}"), text.size());
    const auto piece = text.substr(0, end);
    if (std::count(piece.begin(), piece.end(), ' ') > 2) pieces.push_back(piece);
    text.erase(0, std::min(end + 2, text.size()));
  }
  return pieces;
}

// With phrases that are nothing but their slots, what is left of a complaint is names, figures and
// whatever is not put into Spanish. That is looked for in what the code says.
TEST(Phrases, EveryComplaintHasItsSpanish) {
  auto bare = spanish();
  for (auto& [english, other] : bare) {
    other.clear();
    for (std::size_t i = 0, at = english.find("{}"); at != std::string::npos; ++i) {
      other += "{" + std::to_string(i) + "}";
      at = english.find("{}", at + 2);
    }
  }
  const auto code = sources();
  const auto all = every_complaint();
  EXPECT_GT(all.size(), 250u);
  for (const auto& problem : all) {
    const auto left = problem.message.in(bare);
    EXPECT_NE(left, problem.message.english());
    for (const auto& piece : pieces_of(left))
      EXPECT_EQ(code.find(piece), std::string::npos) << problem.message.english();
  }
}

// The slots of the English are counted, those of the Spanish are numbered.
TEST(Phrases, EverySlotIsFilledInSpanish) {
  for (const auto& [english, other] : spanish()) {
    std::size_t slots = 0;
    for (auto at = english.find("{}"); at != std::string::npos; at = english.find("{}", at + 2))
      ++slots;
    for (std::size_t i = 0; i < 8; ++i)
      EXPECT_EQ(other.find("{" + std::to_string(i) + "}") != std::string::npos, i < slots)
          << english << " = " << other;
  }
}

TEST(Phrases, NoneIsLeftOfWhatIsNotSaidAnyMore) {
  const auto said = sources();
  for (const auto& [english, other] : spanish())
    EXPECT_NE(said.find('"' + english + '"'), std::string::npos) << english;
}

}  // namespace
}  // namespace beforehand::procedure
