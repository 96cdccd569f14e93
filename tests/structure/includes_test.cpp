// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// The order of the rooms, and which of them may know which outside library. The compiler finds
// headers in other rooms only where CMakeLists.txt opens the door; outside libraries lie where it
// always looks, so for them this test is the only guard.
#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <optional>
#include <set>
#include <string_view>

#include "source_tree.hpp"

namespace beforehand::structure {
namespace {

// Upstream first.
const std::vector<std::string> rooms{"base",  "procedure", "timing",  "drill", "scoring",
                                     "study", "records",   "picture", "stage"};

// Which rooms may include a header that starts so.
const std::map<std::string, std::set<std::string>> outside_libraries{
    {"spdlog/", {"base"}},
    {"fmt/",
     {"base", "procedure", "timing", "drill", "scoring", "study", "records", "picture", "stage"}},
    {"yaml-cpp/", {"procedure"}},
    {"cadical", {"timing"}},
    {"nlohmann/", {"drill", "records"}},
    {"soci/", {"records"}},
    {"pugixml", {"records"}},
    {"sodium", {"records"}},
    {"zlib", {"records"}},
    {"SFML/", {"stage"}},
    {"imgui", {"stage"}},
    {"stb_", {"stage"}},
    {"GL/", {"stage"}},
    {"X11/", {"stage"}},
    {"fontconfig/", {"stage"}},
};

struct Include {
  std::string header;
  bool quoted;  // "header" rather than <header>
};

void drop_blanks(std::string_view& text) {
  text.remove_prefix(std::min(text.find_first_not_of(" \t"), text.size()));
}

std::optional<Include> include_in(std::string_view line) {
  for (const std::string_view part : {"#", "include"}) {
    drop_blanks(line);
    if (!line.starts_with(part)) return std::nullopt;
    line.remove_prefix(part.size());
  }
  drop_blanks(line);
  const bool quoted = line.starts_with('"');
  const auto end = line.find(quoted ? '"' : '>', 1);
  if (line.empty() || end == line.npos) return std::nullopt;
  return Include{std::string(line.substr(1, end - 1)), quoted};
}

std::string first_folder(const std::string& path) { return path.substr(0, path.find('/')); }

// How far downstream a room is; rooms.size() for what is no room.
std::size_t rank(const std::string& room) {
  return static_cast<std::size_t>(std::find(rooms.begin(), rooms.end(), room) - rooms.begin());
}

// <vector>, <cmath>: the standard library's headers have neither folder nor ending. What the system
// itself offers beyond it (files, signals) has both, and belongs at the edges.
bool is_standard(const std::string& header) {
  return header.find('/') == std::string::npos && header.find('.') == std::string::npos;
}

bool is_system_at_an_edge(const std::string& header, const std::string& room) {
  static const std::set<std::string> headers{"unistd.h",   "fcntl.h",    "signal.h",
                                             "sys/stat.h", "sys/wait.h", "sys/file.h"};
  static const std::set<std::string> edges{"drill", "records", "stage"};
  return headers.contains(header) && edges.contains(room);
}

bool library_is_allowed(const std::string& header, const std::string& room) {
  return std::any_of(outside_libraries.begin(), outside_libraries.end(), [&](const auto& entry) {
    return header.starts_with(entry.first) && entry.second.contains(room);
  });
}

// Empty when `room` may include it, else why not.
std::string fault_of(const Include& include, const std::string& room) {
  const std::string target = first_folder(include.header);
  if (include.quoted && rank(target) == rooms.size())
    return "a quoted include is \"<room>/<file>.hpp\", from the root engine/";
  if (include.quoted) return rank(target) <= rank(room) ? "" : room + " lies upstream of " + target;
  if (is_standard(include.header) || is_system_at_an_edge(include.header, room)) return "";
  return library_is_allowed(include.header, room) ? "" : "not an outside library of " + room;
}

std::string room_of(const SourceFile& file) {
  return first_folder(file.path.substr(std::string("engine/").size()));
}

TEST(Includes, GoUpstreamAndToTheRoomsOwnLibrariesOnly) {
  const auto files = cpp_files("engine");
  ASSERT_FALSE(files.empty());
  for (const auto& file : files) {
    ASSERT_LT(rank(room_of(file)), rooms.size()) << file.path << " is in no room";
    for (std::size_t i = 0; i < file.lines.size(); ++i) {
      const auto include = include_in(file.lines[i]);
      if (!include) continue;
      EXPECT_EQ(fault_of(*include, room_of(file)), "") << place(file, i) << file.lines[i];
    }
  }
}

TEST(Includes, FaultsAreSeen) {
  const auto fault = [](const std::string& line, const std::string& room) {
    return fault_of(include_in(line).value(), room);
  };
  EXPECT_EQ(fault("#include \"base/time.hpp\"", "procedure"), "");
  EXPECT_EQ(fault("#include \"procedure/procedure.hpp\"", "procedure"), "");
  EXPECT_NE(fault("#include \"drill/session.hpp\"", "procedure"), "");
  EXPECT_NE(fault("#include \"../drill/session.hpp\"", "procedure"), "");
  EXPECT_NE(fault("  # include \"session.hpp\"", "drill"), "");
  EXPECT_EQ(fault("#include <vector>", "base"), "");
  EXPECT_EQ(fault("#include <yaml-cpp/yaml.h>", "procedure"), "");
  EXPECT_NE(fault("#include <yaml-cpp/yaml.h>", "drill"), "");
  EXPECT_NE(fault("#include <SFML/Graphics.hpp>", "picture"), "");
  EXPECT_NE(fault("#include <unheard_of.h>", "stage"), "");
  EXPECT_NE(fault("#include <unistd.h>", "scoring"), "");
}

// The same session on every machine: upstream of the screen and the store nothing asks the time of
// day, and no random number comes from anywhere but the keyed streams of base.
TEST(Determinism, NoClockAndNoOtherRandomNumbersUpstreamOfTheEdges) {
  static const std::set<std::string> edges{"records", "stage"};
  static const std::vector<std::string_view> sources{
      "system_clock",  "steady_clock", "high_resolution_clock",
      "random_device", "mt19937",      "rand(",
      "srand(",        "time(0)",      "time(NULL)",
      "time(nullptr)"};
  for (const auto& file : cpp_files("engine")) {
    if (edges.contains(room_of(file))) continue;
    for (std::size_t i = 0; i < file.lines.size(); ++i)
      for (const auto source : sources)
        EXPECT_FALSE(holds_word(file.lines[i], source)) << place(file, i) << file.lines[i];
  }
}

}  // namespace
}  // namespace beforehand::structure
