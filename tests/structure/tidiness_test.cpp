// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// What must stand in every source file, and what must stand in no file at all.
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <regex>
#include <string_view>

#include "source_tree.hpp"

namespace beforehand::structure {
namespace {

// In halves, so that this file does not hold what it forbids.
const std::regex& forbidden() {
  static const std::regex pattern(
      std::string("\\bTO") + "DO\\b|\\bFIX" + "ME\\b|" +   // work left over
      "/wo" + "rk/|/tm" + "p/|/ro" + "ot/|/ho" + "me/|" +  // one machine's paths
      "registry\\.npm" + "js|deb\\.deb" + "ian|archive\\.ubu" + "ntu|pypi\\.o" + "rg");
  return pattern;
}

TEST(Tidiness, NoFileHoldsLeftOverWorkOrOneMachinesPaths) {
  const auto files = text_files("");
  ASSERT_GT(files.size(), 10u);
  for (const auto& file : files)
    for (std::size_t i = 0; i < file.lines.size(); ++i)
      EXPECT_FALSE(std::regex_search(file.lines[i], forbidden()))
          << place(file, i) << file.lines[i];
}

TEST(Tidiness, ForbiddenThingsAreSeen) {
  const auto seen = [](const std::string& text) { return std::regex_search(text, forbidden()); };
  EXPECT_TRUE(seen(std::string("// TO") + "DO: later"));
  EXPECT_TRUE(seen(std::string("open(\"/tm") + "p/out\")"));
  EXPECT_FALSE(seen("std::filesystem::temp_directory_path() / name"));
}

TEST(Tidiness, EverySourceFileNamesItsLicence) {
  constexpr std::string_view licence = "// SPDX-License-Identifier: MIT";
  constexpr std::string_view holder = "// Copyright (c) 2026 the Beforehand developers";
  for (const std::string folder : {"engine", "tests", "tools"})
    for (const auto& file : cpp_files(folder)) {
      ASSERT_GE(file.lines.size(), 2u) << file.path;
      EXPECT_EQ(file.lines[0], licence) << file.path;
      EXPECT_EQ(file.lines[1], holder) << file.path;
    }
}

}  // namespace
}  // namespace beforehand::structure
