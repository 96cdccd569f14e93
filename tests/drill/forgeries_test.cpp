// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// Recordings of real drills, edited at each of their lines by somebody who leaves no check line
// behind: whatever was changed is refused, and the first false moment named.
#include <algorithm>
#include <nlohmann/json.hpp>
#include <sstream>
#include <tuple>

#include "drill/recording.hpp"
#include "play.hpp"

namespace beforehand {
namespace {

using json = nlohmann::ordered_json;

constexpr const char* path = "r.jsonl";

class Forgery : public testing::TestWithParam<std::tuple<const char*, const char*>> {
 protected:
  Forgery() {
    std::istringstream text(to_text(p, test::play(p, std::get<1>(GetParam()), 5)));
    for (std::string line; std::getline(text, line);)
      if (line.find("{\"check\"") != 0) lines.push_back(line);
  }

  bool is_event(std::size_t line) const { return lines[line].find("\"is\":") != std::string::npos; }

  /// Positions of the events, counted from 1, by line.
  std::size_t event_number(std::size_t line) const {
    std::size_t n = 0;
    for (std::size_t i = 0; i <= line; ++i) n += is_event(i) ? 1 : 0;
    return n;
  }

  /// What is said of a recording of these lines; empty: it was taken.
  std::string refusal(const std::vector<std::string>& edited) const {
    std::string text;
    for (const auto& line : edited) text += line + "\n";
    try {
      drill::verify(p, drill::from_text(text, p, path), path);
    } catch (const drill::RecordingError& e) {
      return e.what();
    }
    return {};
  }

  /// Refused where its lines are read, or with the event at which it stops to be true.
  void expect_refused(const std::vector<std::string>& edited, std::size_t event,
                      const std::string& how) const {
    const auto message = refusal(edited);
    const bool backwards = message.find("runs backwards in time") != std::string::npos;
    const auto named = message.find("first at event " + std::to_string(event) + ":");
    EXPECT_TRUE(backwards || named != std::string::npos)
        << how << " event " << event << ": " << message;
  }

  procedure::Procedure p =
      test::scenario(std::string("scenarios/") + std::get<0>(GetParam()) + "/scenario.yaml");
  std::vector<std::string> lines;
};

TEST_P(Forgery, IsTakenAsLongAsNothingWasChanged) {
  EXPECT_EQ(refusal(lines), "");
  for (std::size_t cut = 1; cut < lines.size(); cut += 7)
    EXPECT_EQ(refusal({lines.begin(), lines.begin() + static_cast<std::ptrdiff_t>(cut)}), "")
        << "cut off after line " << cut;
}

TEST_P(Forgery, OfAnyMomentIsNamed) {
  for (std::size_t i = 1; i < lines.size(); ++i) {
    if (!is_event(i)) continue;
    auto event = json::parse(lines[i]);
    event["t"] = event["t"].get<std::int64_t>() - 1;
    auto edited = lines;
    edited[i] = event.dump();
    if (event["t"] >= 0) expect_refused(edited, event_number(i), "earlier");
  }
}

TEST_P(Forgery, OfWhatHappenedIsNamed) {
  for (std::size_t i = 1; i < lines.size(); ++i) {
    if (!is_event(i)) continue;
    auto event = json::parse(lines[i]);
    event["value"] = event.value("value", std::int64_t{0}) + 1;
    auto edited = lines;
    edited[i] = event.dump();
    expect_refused(edited, event_number(i), "changed");
  }
}

TEST_P(Forgery, ByAnEventLeftOutOrDoubledIsNamed) {
  for (std::size_t i = 1; i < lines.size(); ++i) {
    if (!is_event(i)) continue;
    const auto at = static_cast<std::ptrdiff_t>(i);
    auto without = lines;
    without.erase(without.begin() + at);
    const bool last = i + 1 == lines.size();  // then it is merely cut off
    if (last)
      EXPECT_EQ(refusal(without), "");
    else
      expect_refused(without, event_number(i), "without");
    auto doubled = lines;
    doubled.insert(doubled.begin() + at, lines[i]);
    if (!last) expect_refused(doubled, event_number(i) + 1, "doubled");
  }
}

TEST_P(Forgery, ByACommandLeftOutIsNamed) {
  for (std::size_t i = 1; i < lines.size(); ++i) {
    if (is_event(i)) continue;
    auto without = lines;
    without.erase(without.begin() + static_cast<std::ptrdiff_t>(i));
    EXPECT_NE(refusal(without).find("first at event"), std::string::npos) << lines[i];
  }
}

INSTANTIATE_TEST_SUITE_P(Drills, Forgery,
                         testing::Values(std::tuple{"fissure-sealant", "late:6"},
                                         std::tuple{"fissure-sealant", "shuffled:60"},
                                         std::tuple{"fissure-sealant", "absent"},
                                         std::tuple{"chair-emergency", "forgetful:50"}),
                         [](const auto& drill) {
                           std::string name = std::string(std::get<0>(drill.param)) + "_" +
                                              std::get<1>(drill.param);
                           std::replace_if(
                               name.begin(), name.end(),
                               [](char c) { return c == '-' || c == ':'; }, '_');
                           return name;
                         });

}  // namespace
}  // namespace beforehand
