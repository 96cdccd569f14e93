// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
//
// What must stand in every source file, and what must stand in no file at all.
#include <gtest/gtest.h>

#include <algorithm>
#include <string>
#include <string_view>
#include <utility>

#include "source_tree.hpp"

namespace beforehand::structure {
namespace {

// In halves, so that this file does not hold what it forbids.
constexpr std::pair<std::string_view, std::string_view> forbidden[]{
    {"TO", "DO"},       {"FIX", "ME"},  // work left over
    {"/wo", "rk/"},     {"/tm", "p"},
    {"/ro", "ot/"},     {"/ho", "me/"},  // one machine's paths
    {"npm", "js."},     {"pypi", "."},
    {"deb.deb", "ian"}, {"archive.ubu", "ntu"},  // where packages come from
};

bool holds_forbidden(const std::string& line) {
  return std::any_of(std::begin(forbidden), std::end(forbidden), [&](const auto& halves) {
    return holds_word(line, std::string(halves.first).append(halves.second));
  });
}

TEST(Tidiness, NoFileHoldsLeftOverWorkOrOneMachinesPaths) {
  const auto files = text_files("");
  ASSERT_GT(files.size(), 10u);
  for (const auto& file : files)
    for (std::size_t i = 0; i < file.lines.size(); ++i)
      EXPECT_FALSE(holds_forbidden(file.lines[i])) << place(file, i) << file.lines[i];
}

TEST(Tidiness, ForbiddenThingsAreSeen) {
  EXPECT_TRUE(holds_forbidden(std::string("// TO") + "DO: later"));
  EXPECT_TRUE(holds_forbidden(std::string("open(\"/tm") + "p/out\")"));
  EXPECT_FALSE(holds_forbidden("std::filesystem::temp_directory_path() / name"));
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
